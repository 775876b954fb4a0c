"""What the page of an archive shows: title, counts, columns, and filters made of what occurs."""

from dataclasses import replace
from datetime import UTC, datetime

from tests.present import listing

from revealbook.present.archive_page import ArchivePage, archive_page
from revealbook.present.listed import ListedOpening
from revealbook.present.words import words_in
from revealbook.rules.finding import Outcome

MADE = datetime(2036, 3, 4, 10, 20, tzinfo=UTC)


def page(*openings: ListedOpening, language: str = "en") -> ArchivePage:
    return archive_page("harbour", listing.sites(2), openings, MADE, words_in(language))


def choices(shown: ArchivePage, name: str) -> list[tuple[str, str]]:
    groups = next(one.groups for one in shown.filters if one.name == name)
    return [choice for _, group in groups for choice in group]


def test_the_title_says_which_archive_as_of_when_and_how_much() -> None:
    shown = page(*listing.openings(3, per_site=3))
    assert shown.title == "Archive harbour"
    assert shown.as_of == "As of 2036-03-04 10:20 UTC: 3 openings, 2 sites."


def test_in_german_it_is_german() -> None:
    shown = page(listing.openings(1)[0], language="de")
    assert shown.as_of == "Stand 04.03.2036 10:20 UTC: 1 Öffnung, 2 Baustellen."
    assert [label for _, label in shown.columns][:2] == ["Öffnung", "Baustelle"]
    assert choices(shown, "outcome") == [("conforms", "konform")]


def test_filters_offer_what_occurs_and_nothing_else() -> None:
    shown = page(*listing.openings(30, per_site=20))
    assert choices(shown, "building") == [(name, name) for name in "ABCD"]
    assert choices(shown, "fitter") == [(name, name) for name in sorted(listing.FITTERS)]
    assert choices(shown, "year") == [("2024", "2024")]
    assert choices(shown, "site")[0] == ("larch-court", "Larch Court (invented)")


def test_outcomes_are_offered_worst_first() -> None:
    like = listing.openings(1)[0]
    kinds = (Outcome.CONFORMS, Outcome.UNDECIDED, Outcome.DOES_NOT_CONFORM)
    shown = page(*(replace(like, outcome=kind) for kind in kinds))
    assert [value for value, _ in choices(shown, "outcome")] == ["does-not-conform", "undecided", "conforms"]


def test_batches_are_offered_by_product_and_two_products_may_share_a_number() -> None:
    shared = replace(listing.openings(1)[0], batches=(("tape", "7"), ("foam", "7")))
    groups = next(one.groups for one in page(shared).filters if one.name == "batch")
    assert groups == (("foam", (("foam / 7", "7"),)), ("tape", (("tape / 7", "7"),)))


def test_what_is_not_recorded_is_no_choice() -> None:
    bare = replace(listing.openings(1)[0], building="", finished=None, fitters=(), batches=())
    for name in ("building", "year", "fitter", "batch"):
        assert choices(page(bare), name) == []
