from itertools import pairwise

import pytest
from tests.setting_out.followed import SITE, around, before_work, work_on
from tests.setting_out.rules import PRACTICE, without

from revealbook.rules.rule_set import RuleSet
from revealbook.setting_out.pieces import Piece
from revealbook.setting_out.refusal import NotPossible, Reason
from revealbook.setting_out.sizes import WindowSize
from revealbook.setting_out.window_fixings import WindowFixings, window_fixings

NO_TAPE = {**SITE, "instruments": []}


def fixings(
    window: WindowSize, holes: dict[str, tuple[int, tuple[int, ...]]], rules: RuleSet = PRACTICE
) -> WindowFixings | NotPossible:
    pieces = [Piece(name, "p", length, (), at, 0) for name, (length, at) in holes.items()]
    return window_fixings(work_on(before_work(1230, 1480), around(rules, NO_TAPE)), rules, window, pieces)


def positions(found: WindowFixings | NotPossible) -> tuple[int, ...]:
    assert isinstance(found, WindowFixings), found
    (side,) = found.sides
    return side.fixings_mm


def test_without_holes_in_the_way_they_stand_in_the_middle_of_their_limits() -> None:
    assert positions(fixings(WindowSize(1206, 1456), {"left": (1480, ())})) == (200, 728, 1256)


def test_they_keep_clear_of_the_frames_holes_which_start_from_another_corner() -> None:
    holes = (212, 740, 1268)  # exactly behind the fixings above: the window stands 12 mm inside the frame
    found = positions(fixings(WindowSize(1206, 1456), {"left": (1480, holes)}))
    assert min(abs(at + 12 - hole) for at in found for hole in holes) > 40
    assert 150 <= found[0] <= 250
    assert 150 <= 1456 - found[-1] <= 250
    assert max(right - left for left, right in pairwise(found)) <= 700


def test_a_small_side_has_room_for_one() -> None:
    assert positions(fixings(WindowSize(1206, 160), {"left": (184, ())})) == (80,)


def test_a_short_side_has_its_fixings_nearer_the_corners() -> None:
    first, last = positions(fixings(WindowSize(1206, 320), {"left": (344, ())}))
    assert 60 <= first <= 125
    assert 60 <= 320 - last <= 125


def test_a_window_of_a_broken_size_keeps_its_limits_from_both_corners() -> None:
    crowded = (223, 243, 263, 283, 303)  # beyond 200 mm, half a millimetre too far out, nothing is free
    assert isinstance(fixings(WindowSize(1206, 450.5), {"left": (474, crowded)}), NotPossible)
    assert positions(fixings(WindowSize(1206, 450), {"left": (474, crowded)})) == (150, 200)


def test_a_side_without_a_layout_is_named() -> None:
    refused = fixings(WindowSize(1206, 110), {"right": (134, ())})
    assert isinstance(refused, NotPossible)
    assert refused.about == ("window", "right")


@pytest.mark.parametrize("rule", ["window-fixing-centres", "window-fixing-corner", "window-corner-held"])
def test_a_rule_out_of_force_is_named(rule: str) -> None:
    refused = fixings(WindowSize(1206, 1456), {"left": (1480, ())}, without(rule))
    assert refused == NotPossible(Reason.NO_RULE, (), (rule,))
