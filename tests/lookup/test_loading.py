"""Rows of the index: numbered on, shared where openings share, and taken out without a trace."""

from datetime import date

from revealbook.lookup.database import Database
from revealbook.lookup.filed import Entry
from revealbook.lookup.loading import Loading, forget
from revealbook.present.facts_record import OpeningFacts, UsedProduct
from revealbook.rules.finding import Outcome


def entry(site: str, mark: str, *batches: str) -> Entry:
    used = tuple(UsedProduct(use="adhesive", batch=batch) for batch in batches)
    facts = OpeningFacts(
        site=site, mark=mark, outcome=Outcome.CONFORMS, products=used, building="Haus B", floor="2. OG",
        first=date(2026, 11, 20), texts=("bedroom",),
    )  # fmt: skip
    return Entry(facts, 1, 2, latest=True, pack="p.pdf")


def load(database: Database, *entries: Entry, empty: bool = False) -> None:
    loading = Loading(database, empty=empty)
    for one in entries:
        loading.add(one)
    loading.flush()


def shared(database: Database) -> list[tuple[str, str]]:
    return database.rows(
        "SELECT t.name, o.mark FROM held h JOIN term t ON t.id = h.term JOIN opening o ON o.id = h.opening"
        " ORDER BY t.name, o.mark"
    )


def test_openings_that_share_a_batch_share_its_term(database: Database) -> None:
    with database.building():
        load(database, entry("elm", "W-1", "0412"), entry("elm", "W-2", "0412", "7714"), empty=True)
    assert shared(database) == [("batch 0412", "W-1"), ("batch 0412", "W-2"), ("batch 7714", "W-2")]
    assert database.rows("SELECT count(*) FROM term") == [(2,)]


def test_later_loading_numbers_on_and_finds_the_terms_that_are_there(database: Database) -> None:
    with database.building():
        load(database, entry("elm", "W-1", "0412"), empty=True)
    with database.writing():
        load(database, entry("oak", "W-9", "0412"))
    assert database.rows("SELECT id, mark FROM opening ORDER BY id") == [(1, "W-1"), (2, "W-9")]
    assert shared(database) == [("batch 0412", "W-1"), ("batch 0412", "W-9")]


def test_places_are_kept_as_recorded_and_as_compared(database: Database) -> None:
    with database.building():
        load(database, entry("elm", "W-1"), empty=True)
    assert database.rows("SELECT building, building_key, floor, floor_key, first, last FROM opening") == [
        ("Haus B", "b", "2. OG", "2", "2026-11-20", "")
    ]


def test_forgetting_a_site_keeps_what_another_shares_with_it(database: Database) -> None:
    with database.building():
        load(database, entry("elm", "W-1", "0412", "7714"), entry("oak", "W-9", "0412"), empty=True)
    with database.writing():
        forget(database, "elm")
    assert shared(database) == [("batch 0412", "W-9")]
    assert database.rows("SELECT name FROM term") == [("batch 0412",)]
    statement, match = database.said([[[["bedroom"]]]])
    assert database.rows(statement, (match,)) == [(2,)]


def test_many_openings_are_handed_over_in_portions(database: Database) -> None:
    with database.building():
        loading = Loading(database, empty=True)
        for number in range(5001):
            loading.add(entry("elm", f"W-{number}"))
        assert database.rows("SELECT count(*) FROM opening") == [(5000,)]
        loading.flush()
    assert database.rows("SELECT count(*) FROM opening") == [(5001,)]
    assert loading.openings == 5001
