"""Openings that share a cause are ranked by how rare it is, and each is listed with its reasons."""

from datetime import date, datetime
from math import log

import pytest

from revealbook.archive.refusal import Refused
from revealbook.lookup.database import Database
from revealbook.lookup.filed import Entry, FiledOpenings
from revealbook.lookup.index import fill
from revealbook.lookup.trace import Alike, trace_batch, trace_fitter, trace_opening
from revealbook.present.facts_record import DatedEvent, OpeningFacts, PersonDid, RuleOutcome, UsedProduct
from revealbook.rules.finding import Outcome

SHORT = Outcome.DOES_NOT_CONFORM


def opening(
    mark: str, *, batch: str = "", fitter: str = "", day: int = 0, rules: tuple[RuleOutcome, ...] = (),
    latest: bool = True, product: str = "Bond", use: str = "adhesive",
) -> Entry:  # fmt: skip
    """Give an opening with what it may share."""
    products = (UsedProduct(use=use, id="p", name=product, batch=batch),) if batch else ()
    at = datetime.fromisoformat(f"2026-11-{day or 1:02}T09:00+01:00")
    events = (DatedEvent(step="bonding", at=at, by="f"),) if fitter else ()
    people = (PersonDid(id="f", name=fitter, did=("bonding",)),) if fitter else ()
    facts = OpeningFacts(
        site="s", mark=mark, outcome=SHORT if rules else Outcome.CONFORMS, products=products, events=events,
        people=people, rules=rules, room="bath",
    )  # fmt: skip
    return Entry(facts, 1, 1, latest=latest, pack="p.pdf")


OPENINGS = (
    opening(
        "W-1", batch="7714", fitter="Ada Sill", day=3, rules=(RuleOutcome(rule="overlap", outcome=SHORT),)
    ),
    opening("W-2", batch="7714", fitter="Ben Jamb", day=3),
    opening("W-9", batch="7714", fitter="Ada Sill", day=3),
    opening("W-4", batch="9", fitter="Ada Sill", day=4),
    opening("W-5", batch="7714", product="Foam", use="foam"),
    opening("W-6", rules=(RuleOutcome(rule="overlap", outcome=SHORT),)),
    opening("W-7", rules=(RuleOutcome(rule="overlap", outcome=Outcome.NOT_SHOWN),)),
    opening("W-8", batch="7714", latest=False),
    opening("W-8", batch="8"),
)


@pytest.fixture
def index(database: Database) -> Database:
    fill(database, "archive", [FiledOpenings("s", "S", "d", 2, OPENINGS)])
    return database


def why(alike: tuple[Alike, ...]) -> dict[str, list[str]]:
    return {one.mark: [f"{cause.kind}: {cause.name}" for cause in one.shared] for one in alike}


def test_the_openings_that_share_most_and_rarest_come_first_each_with_its_reasons(index: Database) -> None:
    found = trace_opening(index, "s", "W-1", 10)
    assert why(found.alike) == {
        "W-9": ["fitter and day: Ada Sill, 2026-11-03", "adhesive batch: Bond, batch 7714"],
        "W-6": ["nonconformity: overlap"],
        "W-2": ["adhesive batch: Bond, batch 7714"],
    }
    assert [one.mark for one in found.alike] == ["W-9", "W-6", "W-2"]


def test_a_rank_is_the_sum_of_log_n_by_n_over_what_is_shared(index: Database) -> None:
    found = trace_opening(index, "s", "W-1", 10)
    assert found.openings == 8  # an older version of W-8 does not count
    assert [cause.openings for cause in found.causes] == [2, 2, 3]
    assert [one.rank for one in found.alike] == pytest.approx(
        [log(8 / 2) + log(8 / 3), log(8 / 2), log(8 / 3)]
    )


def test_the_number_of_all_is_told_if_few_are_listed(index: Database) -> None:
    found = trace_opening(index, "s", "w 1", 1)
    assert ([one.mark for one in found.alike], found.number) == (["W-9"], 3)


def test_an_opening_without_any_cause_has_nothing_to_share(index: Database) -> None:
    found = trace_opening(index, "s", "W-7", 10)
    assert (found.causes, found.alike, found.number) == ((), (), 0)


def test_a_batch_leads_to_all_its_openings_and_says_of_which_product(index: Database) -> None:
    found = trace_batch(index, "7714", 10)
    assert why(found.alike) == {
        "W-5": ["foam batch: Foam, batch 7714"],
        "W-1": ["adhesive batch: Bond, batch 7714"],
        "W-2": ["adhesive batch: Bond, batch 7714"],
        "W-9": ["adhesive batch: Bond, batch 7714"],
    }
    assert found.alike[0].pack == "p.pdf"
    assert found.alike[0].room == "bath"


def test_a_batch_that_a_later_version_corrected_does_not_count(index: Database) -> None:
    assert "W-8" not in why(trace_batch(index, "7714", 10).alike)
    assert "W-8" in why(trace_batch(index, "8", 10).alike)


@pytest.mark.parametrize("who", ["Ada Sill", "sill", "ADA"])
def test_a_fitter_is_found_by_name_or_a_word_of_it_and_day_by_day(index: Database, who: str) -> None:
    assert set(why(trace_fitter(index, who, None, 10).alike)) == {"W-1", "W-9", "W-4"}
    assert set(why(trace_fitter(index, who, date(2026, 11, 4), 10).alike)) == {"W-4"}


def test_what_the_index_does_not_hold_is_refused_in_a_sentence(index: Database) -> None:
    with pytest.raises(Refused, match="holds no opening s/W-99"):
        trace_opening(index, "s", "W-99", 1)
    with pytest.raises(Refused, match="holds no batch 1234"):
        trace_batch(index, "1234", 1)
    with pytest.raises(Refused, match="holds nobody called Zoe"):
        trace_fitter(index, "Zoe", None, 1)
    with pytest.raises(Refused, match="holds no work of Ada Sill on 2026-12-01"):
        trace_fitter(index, "Ada Sill", date(2026, 12, 1), 1)
