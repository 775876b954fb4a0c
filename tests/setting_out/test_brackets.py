from dataclasses import replace
from itertools import pairwise

from tests.setting_out.practice import PRACTICE

from revealbook.setting_out.brackets import bracket_positions
from revealbook.setting_out.refusal import NotPossible, Reason
from revealbook.setting_out.spread import Interval, Spread


def positions(found: Spread | NotPossible) -> tuple[int, ...]:
    assert isinstance(found, Spread), found
    return found.positions_mm


def test_brackets_keep_their_own_distances_not_the_holes() -> None:
    assert positions(bracket_positions(1230, PRACTICE)) == (100, 615, 1130)
    wider = replace(PRACTICE, bracket_centres_max_mm=1100)
    assert positions(bracket_positions(1230, wider)) == (100, 1130)


def test_a_plinths_joint_has_a_bracket_on_both_sides() -> None:
    found = positions(bracket_positions(3000, PRACTICE, [1500]))
    assert min(1500 - x for x in found if x < 1500) <= 200
    assert min(x - 1500 for x in found if x > 1500) <= 200
    assert max(b - a for a, b in pairwise(found)) <= 600


def test_brackets_keep_out_of_blocked_stretches() -> None:
    found = positions(bracket_positions(1230, PRACTICE, blocked=[Interval(600, 640)]))
    assert not any(600 <= x <= 640 for x in found)


def test_a_plinth_too_short_for_two_brackets_is_refused() -> None:
    found = bracket_positions(199, PRACTICE)
    assert isinstance(found, NotPossible)
    assert (found.reason, found.mm("shortest")) == (Reason.PIECE_TOO_SHORT, 200)
