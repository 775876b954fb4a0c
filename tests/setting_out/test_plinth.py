import pytest
from tests.setting_out.followed import SITE, around, before_work, work_on
from tests.setting_out.practice import PRACTICE as LIMITS
from tests.setting_out.rules import PRACTICE, changed, without

from revealbook.rules.rule_set import RuleSet
from revealbook.setting_out.plinth import Plinth, plinth
from revealbook.setting_out.refusal import NotPossible, Reason
from revealbook.setting_out.sizes import WindowSize


def laid(width_mm: float, rules: RuleSet = PRACTICE) -> Plinth | NotPossible:
    work = work_on(before_work(1230, 1480), around(rules, SITE))
    return plinth(work, rules, WindowSize(width_mm, 1456), LIMITS)


def made(width_mm: float, rules: RuleSet = PRACTICE) -> Plinth:
    found = laid(width_mm, rules)
    assert isinstance(found, Plinth), found
    return found


def test_a_plinth_is_as_long_as_the_window_is_wide_and_cut_from_its_own_stock() -> None:
    found = made(3600.7)
    assert (found.length_mm, found.profile) == (3600, "plinth-profile")
    assert found.parts_mm == (1800, 1800)
    assert found.joints_mm == (1800,)


def test_a_joint_has_a_bracket_on_both_sides() -> None:
    brackets = made(3600).brackets_mm
    assert any(1600 <= at < 1800 for at in brackets)
    assert any(1800 < at <= 2000 for at in brackets)


@pytest.mark.parametrize("least", [2, 3, 4, 5])
def test_there_are_as_many_brackets_as_the_rule_asks_for(least: int) -> None:
    found = made(800, PRACTICE if least == 2 else changed(plinth_brackets=f"at_least: {least}"))
    assert len(found.brackets_mm) == max(least, 2)
    assert found.bound.low == least


def test_more_brackets_than_find_room_are_refused() -> None:
    refused = laid(400, changed(plinth_brackets="at_least: 6"))
    assert isinstance(refused, NotPossible)
    assert (refused.reason, refused.about) == (Reason.NO_ARRANGEMENT, ("plinth",))


def test_without_the_rule_nothing_is_laid() -> None:
    assert laid(1206, without("plinth-brackets")) == NotPossible(Reason.NO_RULE, (), ("plinth-brackets",))
