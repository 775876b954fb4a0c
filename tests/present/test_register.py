import pytest
from tests.builders import build
from tests.present.judging import ENGLISH, evening, site

from revealbook.present.register import place, register, size
from revealbook.rules.finding import Outcome

BREACH = {
    "frame.pieces.bottom.overlap_left_mm": 62,
    "frame.pieces.bottom.overlap_right_mm": 102,
    "survey.sound": False,
}
ENTITLED = {"reason": "gas pipe", "accepted_by": "cleo", "at": "2026-11-24T10:00+01:00"}
CONCEDED = {
    **BREACH,
    "concessions[0]": {"rule": "frame-overlap", **ENTITLED},
    "concessions[1]": {"rule": "two-beads", **ENTITLED},
}


def test_the_register_has_a_row_for_each_opening_in_order() -> None:
    rows = register(site({"B-1": {}, "A-2": BREACH}), ENGLISH)
    assert [(row.mark, row.outcome, row.outcome_word) for row in rows] == [
        ("B-1", Outcome.CONFORMS, "conforms"),
        ("A-2", Outcome.DOES_NOT_CONFORM, "does not conform"),
    ]


def test_a_row_counts_rules_by_outcome() -> None:
    judged = site({"A": BREACH})
    (row,) = register(judged, ENGLISH)
    assert {count.outcome: count.number for count in row.counts}[Outcome.DOES_NOT_CONFORM] == 2
    assert sum(count.number for count in row.counts) == len(judged.rule_set.rules)


def test_a_concession_counts_only_beside_its_nonconformity_and_leaves_the_counts_alone() -> None:
    plain, conceded = register(site({"A": BREACH, "B": CONCEDED}), ENGLISH)
    assert (plain.conceded, conceded.conceded) == (0, 1)
    assert [count.number for count in conceded.counts] == [count.number for count in plain.counts]
    assert conceded.outcome is plain.outcome


@pytest.mark.parametrize(
    ("identity", "words"),
    [
        ({"building": "A", "floor": "1", "room": "kitchen", "elevation": "south-west"},
         "building A, floor 1, kitchen, south-west"),
        ({"floor": "0"}, "floor 0"),
        ({"room": "stair"}, "stair"),
        ({}, ""),
    ],
)  # fmt: skip
def test_a_place_is_told_from_the_building_down_to_the_room(identity: dict[str, str], words: str) -> None:
    assert place(build({"opening": {"mark": "A", **identity}}).opening, ENGLISH) == words


@pytest.mark.parametrize(
    ("identity", "words"),
    [
        ({"width_mm": 1230, "height_mm": 1480.5}, "1230 × 1480.5\u00a0mm"),
        ({"width_mm": 1230}, "size not recorded"),
        ({"height_mm": 1480}, "size not recorded"),
    ],
)
def test_a_size_is_told_only_if_it_is_known_whole(identity: dict[str, float], words: str) -> None:
    assert size(build({"opening": {"mark": "A", **identity}}).opening, ENGLISH) == words


def test_a_row_shows_what_is_not_yet_due_apart_and_in_which_stage_the_opening_is() -> None:
    (row,) = register(site({"A": evening()}), ENGLISH)
    assert (row.outcome, row.outcome_word, row.stage) == (Outcome.NOT_SHOWN, "not yet due", "Seals")
    assert row.not_yet_due > 0
    assert {count.outcome: count.number for count in row.counts}[Outcome.NOT_SHOWN] == 0
    (done,) = register(site({"A": {}}), ENGLISH)
    assert (done.not_yet_due, done.stage) == (0, "")
