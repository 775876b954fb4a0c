import pytest
from tests.setting_out.followed import SITE, around, before_work, work_on
from tests.setting_out.rules import PRACTICE, changed, with_changes, without

from revealbook.rules.read import read_rules
from revealbook.rules.rule_set import RuleSet
from revealbook.setting_out.bounds import Bound
from revealbook.setting_out.in_force import InForce, brackets_in_force, frame_in_force, window_in_force
from revealbook.setting_out.limits import Limits
from revealbook.setting_out.refusal import NotPossible, Reason

NO_TAPE = {**SITE, "instruments": []}


def frame(rules: RuleSet, *, supports: bool = True, tape: bool = False) -> InForce | NotPossible:
    work = work_on(before_work(1230, 1480), around(rules, SITE if tape else NO_TAPE))
    return frame_in_force(rules, work, supports=supports)


def kept(rules: RuleSet, *, supports: bool = True, tape: bool = False) -> InForce:
    found = frame(rules, supports=supports, tape=tape)
    assert isinstance(found, InForce), found
    return found


def test_the_rule_sets_limits_are_taken_as_they_stand() -> None:
    found = kept(PRACTICE)
    assert found.limits == Limits(
        overlap_mm=80,
        end_distance_min_mm=150,
        end_distance_max_mm=200,
        centres_max_mm=700,
        joint_distance_max_mm=200,
        hole_diameter_mm=8,
        bead_count=2,
        support_length_mm=150,
        support_holes=2,
        support_offset_max_mm=75,
    )
    assert (found.top_reach_mm, found.support_hole_diameter_mm) == (0, 8)


def test_with_a_tape_every_limit_is_drawn_in_so_that_nothing_read_is_undecided() -> None:
    found = kept(PRACTICE, tape=True)
    limits = found.limits
    assert (limits.overlap_mm, limits.support_length_mm) == (81, 151)  # read once: 1 mm
    assert (limits.end_distance_min_mm, limits.end_distance_max_mm) == (152, 198)  # twice: 1.41 mm
    assert (limits.centres_max_mm, limits.joint_distance_max_mm, limits.support_offset_max_mm) == (
        698,
        198,
        73,
    )
    assert found.top_reach_mm == 2


@pytest.mark.parametrize(
    ("limit", "field", "value"),
    [
        ({"fixing_centres": "at_most: 600"}, "centres_max_mm", 600),
        ({"first_hole": "between: [120, 180]"}, "end_distance_min_mm", 120),
        ({"first_hole": "between: [150.4, 180]"}, "end_distance_min_mm", 151),
        ({"joint_fixings": "at_most: 150.5"}, "joint_distance_max_mm", 150),
        ({"frame_overlap": "at_least: 85"}, "overlap_mm", 85),
        ({"bottom_length": "between: [165, 180]"}, "overlap_mm", 83),
        ({"hole_diameter": "equal_to: 7.5"}, "hole_diameter_mm", 7.5),
        ({"two_beads": "at_least: 3"}, "bead_count", 3),
        ({"support_length": "at_least: 200"}, "support_length_mm", 200),
        ({"support_holes": "equal_to: 3"}, "support_holes", 3),
        ({"support_under_load_point": "at_most: 20"}, "support_offset_max_mm", 20),
    ],
)
def test_what_the_site_changes_is_what_is_kept(limit: dict[str, str], field: str, value: float) -> None:
    assert getattr(kept(changed(**limit)).limits, field) == value


@pytest.mark.parametrize(
    "rule",
    ["frame-overlap", "first-hole", "end-held", "fixing-centres", "joint-fixings", "hole-diameter",
     "two-beads", "support-length", "support-holes", "support-under-load-point", "support-hole-diameter",
     "support-beads"],
)  # fmt: skip
def test_a_needed_rule_that_is_not_in_force_is_refused_by_name(rule: str) -> None:
    assert frame(without(rule)) == NotPossible(Reason.NO_RULE, (), (rule,))


def test_rules_on_supports_may_be_missing_where_the_drawing_calls_for_none() -> None:
    found = kept(without("support-length", "support-holes", "support-beads"), supports=False)
    assert found.limits.support_length_mm is None
    assert found.support_hole_diameter_mm is None


def test_rules_on_lengths_that_follow_from_the_sizes_may_be_missing() -> None:
    assert kept(without("bottom-length", "top-reach", "side-length")).limits.overlap_mm == 80


@pytest.mark.parametrize(
    ("limit", "named"),
    [
        ({"frame_overlap": "at_least: 90"}, ("frame-overlap", "bottom-length")),
        ({"first_hole": "between: [199, 200]"}, ("first-hole", "end-held")),
        ({"fixing_centres": "at_most: 40"}, ("fixing-centres",)),
        ({"joint_fixings": "at_most: 40"}, ("joint-fixings",)),
        ({"side_length": "between: [5, 8]"}, ("side-length",)),
        ({"side_length": "between: [-1, 1]"}, ("side-length",)),
        ({"top_reach": "between: [1, 3]"}, ("top-reach",)),
        ({"frame_overlap": "between: [80, 81]"}, ("frame-overlap",)),
    ],
)
def test_limits_that_no_piece_can_keep_together_are_refused_by_name(
    limit: dict[str, str], named: tuple[str, ...]
) -> None:
    refused = frame(changed(**limit), tape=True)
    assert refused == NotPossible(Reason.RULES_DISAGREE, (), named)


def test_a_rule_without_the_end_that_setting_out_needs_is_refused() -> None:
    turned = with_changes(
        "change: [{id: two-beads, retire: true, BASIS}]\n"
        "add: [{id: few-beads, stage: frame, requirement: Few., measure: bead_number, at_most: 2,"
        " unit: number, grade: minor, why: w, remedy: r, basis: {kind: common practice}}]\n"
    )
    assert frame(turned) == NotPossible(Reason.NO_RULE, (), ("few-beads",))


def window(rules: RuleSet) -> object:
    return window_in_force(rules, work_on(before_work(1230, 1480), around(rules)))


def test_the_windows_fixings_keep_their_own_rules() -> None:
    found = window(changed(window_fixing_centres="at_most: 600"))
    assert isinstance(found, tuple)
    spacing, bounds = found
    assert (spacing.end_min_mm, spacing.end_max_mm, spacing.centres_max_mm) == (152, 248, 598)
    assert set(bounds) == {"window_fixing_corner", "window_fixing_centres"}
    assert window(without("window-fixing-corner")) == NotPossible(
        Reason.NO_RULE, (), ("window-fixing-corner",)
    )
    both = ("window-fixing-corner", "window-corner-held", "window-fixing-centres")
    assert window(changed(window_fixing_corner="between: [200, 201]")) == NotPossible(
        Reason.RULES_DISAGREE, (), both
    )


def test_the_least_number_of_brackets_is_the_rules() -> None:
    rules = changed(plinth_brackets="at_least: 4")
    found = brackets_in_force(rules, work_on(before_work(1230, 1480), around(rules)))
    assert isinstance(found, Bound)
    assert found.low == 4
    rules = without("plinth-brackets")
    refused = brackets_in_force(rules, work_on(before_work(1230, 1480), around(rules)))
    assert refused == NotPossible(Reason.NO_RULE, (), ("plinth-brackets",))


def test_a_short_piece_has_limits_of_its_own() -> None:
    found = frame(PRACTICE)
    assert isinstance(found, InForce)
    by_length = {
        length: (limits.end_distance_min_mm, limits.end_distance_max_mm, limits.holes_per_part_min)
        for length in (240, 241, 360, 361)
        if isinstance(limits := found.limits_of(length), Limits)
    }
    assert by_length == {240: (80, 125, 1), 241: (80, 125, 2), 360: (80, 125, 2), 361: (150, 200, 2)}


def test_the_first_edition_has_one_limit_for_all_lengths() -> None:
    first = read_rules("common-practice", "2026-11")
    assert isinstance(first, RuleSet)
    found = frame(first)
    assert isinstance(found, InForce)
    assert found.by_length == ()
    assert found.limits_of(280) == found.limits


def test_rules_that_leave_no_room_on_a_short_piece_refuse_only_such_a_piece() -> None:
    found = kept(changed(first_hole="between: [150, 185]"))
    assert found.limits.end_distance_max_mm == 185
    refused = found.limits_of(280)
    assert refused == NotPossible(Reason.RULES_DISAGREE, (), ("first-hole", "end-held"))


@pytest.mark.parametrize(
    "limit",
    [
        {"first_hole": "between: [150, 150]"},
        {"fixing_centres": "at_most: 50"},
        {"joint_fixings": "at_most: 50"},
        {"side_length": "between: [0, 0]"},
        {"side_length": "between: [-2, 0]"},
        {"top_reach": "between: [0, 0]"},
        {"frame_overlap": "between: [80, 80]"},
        {"bottom_length": "between: [160, 160]"},
    ],
)
def test_limits_that_one_value_alone_keeps_are_kept_where_there_is_no_tape(limit: dict[str, str]) -> None:
    assert isinstance(frame(changed(**limit)), InForce)


@pytest.mark.parametrize(
    ("limit", "field", "value"),
    [
        ({"bottom_length": "between: [161, 180]"}, "overlap_mm", 81),
        ({"bottom_length": "between: [140, 180]"}, "overlap_mm", 80),
        ({"frame_overlap": "at_least: 80.000000001"}, "overlap_mm", 80),
        ({"frame_overlap": "at_least: 80.1"}, "overlap_mm", 81),
        ({"fixing_centres": "at_most: 699.9"}, "centres_max_mm", 699),
        ({"fixing_centres": "at_most: 699.999999999"}, "centres_max_mm", 700),
    ],
)
def test_limits_are_rounded_to_the_safe_side_but_for_the_computers_own_rounding(
    limit: dict[str, str], field: str, value: int
) -> None:
    assert getattr(kept(changed(**limit)).limits, field) == value


def test_the_windows_fixings_may_stand_in_one_place_only() -> None:
    work = work_on(before_work(1230, 1480), around(PRACTICE, NO_TAPE))
    for limit in ({"window_fixing_corner": "between: [200, 200]"}, {"window_fixing_centres": "at_most: 50"}):
        assert isinstance(window_in_force(changed(**limit), work), tuple)
    refused = window_in_force(changed(window_fixing_centres="at_most: 49"), work)
    assert isinstance(refused, NotPossible)
    assert refused.reason is Reason.RULES_DISAGREE


def test_a_hole_that_may_only_not_be_larger_is_drilled_as_large_as_it_may_be() -> None:
    assert kept(changed(hole_diameter="at_most: 7.5")).limits.hole_diameter_mm == 7.5
    assert kept(changed(hole_diameter="at_least: 8.5")).limits.hole_diameter_mm == 8.5


@pytest.mark.parametrize(
    ("limit", "refused"),
    [
        ({"side_length": "between: [-5, 1]"}, True),
        ({"side_length": "between: [-5, 2]"}, False),
        ({"side_length": "between: [-1, 5]"}, True),
        ({"side_length": "between: [-2, 5]"}, False),
        ({"frame_overlap": "between: [80, 81]"}, True),
        ({"frame_overlap": "between: [80, 82]"}, False),
        ({"bottom_length": "between: [150, 163]"}, True),
        ({"bottom_length": "between: [150, 164]"}, False),
        ({"top_reach": "between: [0, 3]"}, True),
        ({"top_reach": "between: [0, 4]"}, False),
        ({"joint_fixings": "at_most: 51"}, True),
        ({"joint_fixings": "at_most: 52"}, False),
        ({"fixing_centres": "at_most: 51"}, True),
        ({"fixing_centres": "at_most: 52"}, False),
    ],
)
def test_with_a_tape_limits_leave_room_for_it_or_are_refused(limit: dict[str, str], refused: bool) -> None:
    """Read once: 1 mm. Read twice: 1.41 mm."""
    found = frame(changed(**limit), tape=True)
    assert (isinstance(found, NotPossible) and found.reason is Reason.RULES_DISAGREE) is refused
