"""The plinth under the window: its length, joints, and the brackets that carry it."""

from dataclasses import dataclass, replace
from itertools import pairwise
from math import ceil, floor

from revealbook.measures.work import Work
from revealbook.rules.rule_set import RuleSet
from revealbook.setting_out.bounds import Bound
from revealbook.setting_out.brackets import bracket_positions
from revealbook.setting_out.in_force import brackets_in_force
from revealbook.setting_out.lengths import split
from revealbook.setting_out.limits import Limits
from revealbook.setting_out.refusal import NotPossible, Reason, not_possible
from revealbook.setting_out.sizes import WindowSize, plinth_profile
from revealbook.setting_out.spread import Spread


@dataclass(frozen=True, slots=True)
class Plinth:
    """A plinth profile.

    Attributes:
        profile: the profile's id.
        length_mm: its length: the window's width.
        joints_mm: lengthwise joints, from its left end.
        brackets_mm: centres of its brackets, from the same end.
        bound: the rule on their number.
    """

    profile: str
    length_mm: int
    joints_mm: tuple[int, ...]
    brackets_mm: tuple[int, ...]
    bound: Bound

    @property
    def parts_mm(self) -> tuple[int, ...]:
        """The lengths that it is made of, from its left end."""
        return tuple(end - start for start, end in pairwise((0, *self.joints_mm, self.length_mm)))


def plinth(work: Work, rule_set: RuleSet, window: WindowSize, limits: Limits) -> Plinth | NotPossible:
    """Give the plinth of a window.

    Args:
        work: the opening.
        rule_set: the rules in force.
        window: the window's outer size; the plinth is as long as it is wide.
        limits: the limits in force.

    Returns:
        The plinth; or a refusal if rule or product figure is missing, or if the brackets find no room.
    """
    profile, asked = plinth_profile(work), brackets_in_force(rule_set, work)
    if isinstance(profile, NotPossible):
        return profile
    if isinstance(asked, NotPossible):
        return asked
    length_mm = floor(window.width_mm)
    parts = split(length_mm, floor(profile.stock_mm or 0), limits)
    if isinstance(parts, NotPossible):
        return replace(parts, about=("plinth",))
    placed = _at_least(ceil(asked.low or 0), length_mm, limits, parts.joints_mm)
    if isinstance(placed, NotPossible):
        return replace(placed, about=("plinth",))
    return Plinth(profile.id, length_mm, parts.joints_mm, placed.positions_mm, asked)


def _at_least(
    number: int, length_mm: int, limits: Limits, joints_mm: tuple[int, ...]
) -> Spread | NotPossible:
    """Spread the brackets; closer together than the limits ask for where that makes too few."""
    placed = bracket_positions(length_mm, limits, joints_mm)
    if isinstance(placed, NotPossible) or len(placed.positions_mm) >= number:
        return placed
    # With the outermost as far out as they may be, these centres leave no room for fewer.
    end_mm = limits.bracket_end_distance_min_mm
    centres_mm = (length_mm - 2 * end_mm - 1) // max(number - 2, 1)
    if centres_mm < limits.bracket_centres_min_mm:
        return not_possible(Reason.NO_ARRANGEMENT, reached_mm=length_mm, centres_max_mm=max(centres_mm, 0))
    closer = replace(limits, bracket_end_distance_max_mm=end_mm, bracket_centres_max_mm=centres_mm)
    return bracket_positions(length_mm, closer, joints_mm)
