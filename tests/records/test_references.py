import pytest
from tests.records.folders import SITE, record

from revealbook.records.opening import Opening
from revealbook.records.record import Record, Sheet
from revealbook.records.references import unknown_references
from revealbook.records.site import Site
from revealbook.source.problem import Problem
from revealbook.source.read import Document, read_bytes

PHOTOS = frozenset({"W-beads.jpg", "W-joint.jpg"})


def found_in(
    rest: str, file: str = "openings/W.yaml", photos: frozenset[str] | None = PHOTOS
) -> list[Problem]:
    document, site = read_bytes(record("W", rest).encode(), file), read_bytes(SITE.encode(), "site.yaml")
    assert isinstance(document, Document), document
    assert isinstance(site, Document)
    opening = Opening.model_validate(document.data)
    return list(
        unknown_references(Record(opening, Sheet.of(document)), Site.model_validate(site.data), photos)
    )


def only(rest: str) -> Problem:
    (problem,) = found_in(rest)
    return problem


@pytest.mark.parametrize(
    "rest",
    [
        "survey: {by: adda}",
        "seals: {events: [{step: foam, by: adda}]}",
        "hold_points: [{name: frame, by: adda}]",
        "nonconformities: [{id: N, what: x, found_by: adda}]",
        "nonconformities: [{id: N, what: x, correction: {by: adda}}]",
        "nonconformities: [{id: N, what: x, correction: {checked_by: adda}}]",
        "concessions: [{rule: r, accepted_by: adda}]",
        "sign_offs: [{role: installer, by: adda}]",
        "covering: {by: adda}",
        "tests: {water_spray: {by: adda}}",
    ],
)
def test_a_person_nobody_knows_is_told_with_the_nearest(rest: str) -> None:
    problem = only(rest)
    assert problem.code == "unknown_name"
    assert problem.facts == {"name": "adda", "kind": "people", "nearest": "ada", "known": ("ada", "ben")}
    assert problem.place.line == 2
    assert problem.place.column == rest.index("by: adda") + 1 - (
        len("found_") if "found_by" in rest else len("checked_") if "checked_by" in rest
        else len("accepted_") if "accepted_by" in rest else 0
    )  # fmt: skip


@pytest.mark.parametrize(
    ("rest", "kind", "nearest"),
    [
        ("frame: {bonding: [{product: frame-bnd}]}", "adhesives", "frame-bond"),
        ("frame: {pieces: {left: {profile: frame-profil}}}", "profiles", "frame-profile"),
        ("frame: {pieces: {left: {fixings: [{product: frame-screws}]}}}", "fixings", "frame-screw"),
        ("window: {fixings: [{side: left, product: frame-scrw}]}", "fixings", "frame-screw"),
        ("supports: {placed: [{fixings: {product: fram-screw}}]}", "fixings", "frame-screw"),
        ("plinth: {product: plinth}", "profiles", None),
        ("plinth: {brackets: [{fixings: {product: x}}]}", "fixings", None),
        ("seals: {events: [{step: foam, product: join-foam}]}", "foams", "joint-foam"),
        ("seals: {events: [{step: inner tape, product: inner tape}]}", "tapes", "inner-tape"),
        ("seals: {events: [{product: joint-foem}]}", "tapes or foams", "joint-foam"),
        ("survey: {instruments: [tape-1, tape-2]}", "instruments", "tape-1"),
    ],
)
def test_a_product_or_instrument_nobody_knows_is_told_by_kind(
    rest: str, kind: str, nearest: str | None
) -> None:
    problem = only(rest)
    assert (problem.code, problem.facts["kind"], problem.facts["nearest"]) == ("unknown_name", kind, nearest)


def test_a_tape_is_no_foam() -> None:
    assert only("seals: {events: [{step: foam, product: inner-tape}]}").facts["kind"] == "foams"


def test_an_event_of_unknown_kind_may_name_a_tape_or_a_foam() -> None:
    assert found_in("seals: {events: [{product: inner-tape}, {product: joint-foam}]}") == []


def test_a_photograph_that_is_not_there_is_told_with_the_nearest() -> None:
    problem = only("survey: {photos: [{file: W-beads.jpg}, {file: W-baeds.jpg}]}")
    assert problem.code == "photo_missing"
    assert problem.facts == {"file": "W-baeds.jpg", "nearest": "W-beads.jpg"}
    assert (problem.place.line, problem.place.column) == (2, 41)


def test_photographs_may_be_left_unchecked() -> None:
    assert found_in("survey: {photos: [{file: none.jpg}]}", photos=None) == []


def test_the_mark_and_the_file_name_must_agree() -> None:
    (problem,) = found_in("", file="openings/W-2.yaml")
    assert problem.code == "mark_not_file_name"
    assert problem.facts == {"mark": "W", "stem": "W-2"}
    assert (problem.place.line, problem.place.column) == (1, 11)


def test_marks_with_points_are_not_cut_short() -> None:
    document = read_bytes(b"opening: {mark: W-2.07}", "openings/W-2.07.yaml")
    site = read_bytes(SITE.encode(), "site.yaml")
    assert isinstance(document, Document)
    assert isinstance(site, Document)
    held = Record(Opening.model_validate(document.data), Sheet.of(document))
    assert list(unknown_references(held, Site.model_validate(site.data), PHOTOS)) == []


def test_every_unknown_name_is_told_not_only_the_first() -> None:
    rest = "survey: {by: x, instruments: [y], photos: [{file: z}]}\nframe: {by: x}"
    assert [problem.code for problem in found_in(rest)].count("unknown_name") == 3
    assert len(found_in(rest)) == 4


def test_known_names_are_no_problem() -> None:
    rest = "survey: {by: ada, instruments: [tape-1]}\n"
    rest += "frame: {bonding: [{product: frame-bond, batches: [{number: x}]}]}"
    assert found_in(rest) == []
