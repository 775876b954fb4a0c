from tests.present.judging import ENGLISH, PEOPLE, opening

from revealbook.present.left_out import rows
from revealbook.present.stages import stages
from revealbook.records.left_out import LeftOut

STATED = {
    "what": "top piece",
    "reason": "the shutter box stands there",
    "basis": "drawing",
    "document": "A-402 rev C",
    "by": "cleo",
    "at": "2026-11-18T10:00+01:00",
}
LEFT_OUT = {"frame.pieces.top": None, "left_out": [STATED]}


def test_an_opening_that_leaves_nothing_out_has_no_row() -> None:
    assert rows(opening({"left_out": []}), PEOPLE, ENGLISH) == ()


def test_a_row_tells_what_who_why_and_on_whose_word() -> None:
    (row,) = rows(opening(LEFT_OUT), PEOPLE, ENGLISH)
    assert (row.what, row.stated) == ("top piece", "Cleo Reveal, 2026-11-18 10:00")
    assert (row.reason, row.basis) == ("the shutter box stands there", "drawing, A-402 rev C")


def test_a_row_says_no_more_than_was_stated() -> None:
    (row,) = rows(opening({"left_out": [{"what": "bonding"}]}), PEOPLE, ENGLISH)
    assert (row.what, row.stated, row.reason, row.basis) == ("bonding", "", "", "")
    assert LeftOut(what="bonding").by is None


def test_a_rule_that_is_ruled_out_says_by_which_statement() -> None:
    shown = stages(opening(LEFT_OUT), {}, ENGLISH, PEOPLE)
    said = next(line for stage in shown for line in stage.not_applying if "top-reach" in line)
    assert said == (
        "left out: no top piece (the shutter box stands there), stated by Cleo Reveal, drawing, A-402 rev C: "
        "top-reach, top-edge-sealed"
    )
