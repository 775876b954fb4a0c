"""The rule set in force as limits to set out by."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from math import ceil, floor
from typing import NamedTuple

from revealbook.measures.work import Work
from revealbook.rules.rule_set import RuleSet
from revealbook.setting_out.bounds import Bound, Guard, bound, guard, lengths_of_steps
from revealbook.setting_out.limits import LEAST_CENTRES_MM, LEAST_JOINT_DISTANCE_MM, Limits
from revealbook.setting_out.refusal import NotPossible, Reason
from revealbook.setting_out.spread import Spacing

_SLACK = 1e-9
"""Binary rounding; nobody measures it."""
FRAME = (
    "frame_overlap", "bottom_surplus", "top_reach", "side_length_difference", "hole_diameter", "bead_number",
    "hole_end_distance", "hole_number", "hole_centres", "joint_fixing_distance",
)  # fmt: skip
SUPPORTS = (
    "load_point_distance", "support_length", "support_holes", "support_hole_diameter", "support_beads"
)  # fmt: skip
WINDOW = ("window_fixing_corner", "window_fixing_centres")
_OPTIONAL = frozenset({"bottom_surplus", "top_reach", "side_length_difference", "hole_number"})
"""Rules on lengths that follow from the sizes anyway: without them, the piece is still known."""
_LEAST_ONLY = frozenset(
    {"frame_overlap", "bead_number", "hole_number", "support_length", "support_beads", "bracket_number"}
)
_EITHER = frozenset({"hole_diameter", "support_holes", "support_hole_diameter", *_OPTIONAL} - _LEAST_ONLY)

_BOTH = {
    "hole_end_distance": ("first-hole", "end-held"),
    "window_fixing_corner": ("window-fixing-corner", "window-corner-held"),
}
"""Measures that need a least and a greatest value, with the rules that usually state them."""

Bounds = Mapping[str, Bound]


class Short(NamedTuple):
    """What holds of a piece up to some length: its end distances, drawn in by the guard, and its holes.

    `refused` says why no piece so short can be drilled, where the rules leave no room.
    """

    up_to_mm: float
    end_min_mm: int
    end_max_mm: int
    holes: int
    refused: NotPossible | None = None


@dataclass(frozen=True, slots=True)
class InForce:
    """What setting out keeps at one opening.

    Attributes:
        limits: the frame's and its supports' limits, drawn in by the guard.
        top_reach_mm: by how much the top piece is longer than the side pieces' outer edges.
        support_hole_diameter_mm: diameter of the supports' holes; None where supports are not set out.
        bounds: the rules' own limits, by measure.
        guard: by how much the limits were drawn in.
        by_length: what holds of short pieces, rising in length.
    """

    limits: Limits
    top_reach_mm: int
    support_hole_diameter_mm: float | None
    bounds: Bounds
    guard: Guard
    by_length: tuple[Short, ...] = ()

    def limits_of(self, length_mm: int) -> Limits | NotPossible:
        """Give the limits for a piece of some length, or why there are none."""
        short = next((one for one in self.by_length if length_mm <= one.up_to_mm), None)
        if short is None:
            return self.limits
        if short.refused is not None:
            return short.refused
        return replace(
            self.limits,
            end_distance_min_mm=short.end_min_mm,
            end_distance_max_mm=short.end_max_mm,
            holes_per_part_min=min(2, max(1, short.holes)),
        )


def frame_in_force(rule_set: RuleSet, work: Work, *, supports: bool) -> InForce | NotPossible:
    """Give the limits of frame and supports.

    Args:
        rule_set: the rules in force.
        work: the opening as far as it is recorded.
        supports: whether supports are to be set out; if not, rules on them may be missing.

    Returns:
        The limits, or a refusal that names the rule which is missing, retired or at odds with another.
    """
    bounds = _bounds((*FRAME, *(SUPPORTS if supports else ())), rule_set, work)
    if isinstance(bounds, NotPossible):
        return bounds
    kept = guard(work)
    by_length = _by_length(rule_set, work, kept)
    refused = _odds(bounds, kept)
    if refused is not None:
        return refused
    limits = Limits(
        overlap_mm=_overlap(bounds, kept),
        end_distance_min_mm=_least(bounds["hole_end_distance"], kept.two_mm),
        end_distance_max_mm=_most(bounds["hole_end_distance"], kept.two_mm),
        centres_max_mm=_most(bounds["hole_centres"], kept.two_mm),
        joint_distance_max_mm=_most(bounds["joint_fixing_distance"], kept.two_mm),
        hole_diameter_mm=_either(bounds["hole_diameter"]),
        bead_count=_least(bounds["bead_number"], 0),
        support_length_mm=None,
        support_holes=None,
    )
    reach = _least(bounds["top_reach"], kept.two_mm) if "top_reach" in bounds else 0
    if not supports:
        return InForce(limits, reach, None, bounds, kept, by_length)
    limits = replace(
        limits,
        support_length_mm=_least(bounds["support_length"], kept.one_mm),
        support_holes=ceil(_either(bounds["support_holes"])),
        support_offset_max_mm=_most(bounds["load_point_distance"], kept.two_mm),
    )
    return InForce(limits, reach, _either(bounds["support_hole_diameter"]), bounds, kept, by_length)


def _by_length(rule_set: RuleSet, work: Work, kept: Guard) -> tuple[Short, ...]:
    """Give what holds of pieces up to each length at which a limit on their holes changes."""
    measures = ("hole_end_distance", "hole_number")
    lengths = sorted({up_to for measure in measures for up_to in lengths_of_steps(measure, rule_set)})
    found: list[Short] = []
    for length_mm in lengths:
        bounds = _bounds(measures, rule_set, work, length_mm)
        if isinstance(bounds, NotPossible):
            found.append(Short(length_mm, 0, 0, 0, bounds))
            continue
        ends, number = bounds["hole_end_distance"], bounds.get("hole_number")
        least, most = _least(ends, kept.two_mm), _most(ends, kept.two_mm)
        refused = NotPossible(Reason.RULES_DISAGREE, (), ends.ids) if least > most else None
        found.append(Short(length_mm, least, most, ceil(number.low or 0) if number else 2, refused))
    return tuple(found)


def window_in_force(
    rule_set: RuleSet, work: Work, length_mm: float | None = None
) -> tuple[Spacing, Bounds] | NotPossible:
    """Give the distances of the window's own fixings, with the rules they come from.

    Args:
        rule_set: the rules in force.
        work: the opening.
        length_mm: length of the side, for limits that go by it; a long one if left out.
    """
    bounds = _bounds(WINDOW, rule_set, work, length_mm)
    if isinstance(bounds, NotPossible):
        return bounds
    two = guard(work).two_mm
    corner, centres = bounds["window_fixing_corner"], bounds["window_fixing_centres"]
    spacing = Spacing(
        end_min_mm=_least(corner, two),
        end_max_mm=_most(corner, two),
        centres_min_mm=LEAST_CENTRES_MM,
        centres_max_mm=_most(centres, two),
        joint_min_mm=0,
        joint_max_mm=0,
        per_part_min=2,
    )
    if spacing.end_min_mm > spacing.end_max_mm or spacing.centres_max_mm < LEAST_CENTRES_MM:
        return NotPossible(Reason.RULES_DISAGREE, (), (*corner.ids, *centres.ids))
    return spacing, bounds


def brackets_in_force(rule_set: RuleSet, work: Work) -> Bound | NotPossible:
    """Give the least number of brackets that carry a plinth."""
    bounds = _bounds(("bracket_number",), rule_set, work)
    return bounds if isinstance(bounds, NotPossible) else bounds["bracket_number"]


def _bounds(
    measures: tuple[str, ...], rule_set: RuleSet, work: Work, length_mm: float | None = None
) -> dict[str, Bound] | NotPossible:
    bounds: dict[str, Bound] = {}
    for measure in measures:
        found = bound(measure, rule_set, work, length_mm)
        if isinstance(found, Bound):
            for end, rule in zip((found.low, found.high), _BOTH.get(measure, ()), strict=False):
                if end is None:
                    return NotPossible(Reason.NO_RULE, (), (rule,))
            if not _serves(found):
                return NotPossible(Reason.NO_RULE, (), found.ids)
            bounds[measure] = found
        elif found.reason is not Reason.NO_RULE or measure not in _OPTIONAL:
            return found
    return bounds


def _serves(found: Bound) -> bool:
    """Whether the bound has the end that setting out needs: how far something must, or at most may, go."""
    if found.measure in _EITHER:
        return True
    return (found.low if found.measure in _LEAST_ONLY else found.high) is not None


def _least(found: Bound, inside_mm: float) -> int:
    return max(0, ceil((found.low or 0) + (inside_mm if found.low is not None else 0) - _SLACK))


def _most(found: Bound, inside_mm: float) -> int:
    return max(0, floor((found.high or 0) - inside_mm + _SLACK))


def _either(found: Bound) -> float:
    return found.low if found.low is not None else found.high or 0.0


def _overlap(bounds: Bounds, kept: Guard) -> int:
    """Give the overlap that meets the rule on each side and the rule on the whole length."""
    overlap = _least(bounds["frame_overlap"], kept.one_mm)
    whole = bounds.get("bottom_surplus")
    return overlap if whole is None else max(overlap, ceil(_least(whole, kept.two_mm) / 2))


def _odds(bounds: Bounds, kept: Guard) -> NotPossible | None:
    """Find rules that no piece could keep together, the guard included; else None."""
    ends, overlap = bounds["hole_end_distance"], bounds["frame_overlap"]
    one, two = kept.one_mm, kept.two_mm
    ranges: list[tuple[float, float, tuple[str, ...]]] = [
        (_least(ends, two), _most(ends, two), ends.ids),
        (LEAST_JOINT_DISTANCE_MM, _most(bounds["joint_fixing_distance"], two),
         bounds["joint_fixing_distance"].ids),
        (LEAST_CENTRES_MM, _most(bounds["hole_centres"], two), bounds["hole_centres"].ids),
    ]  # fmt: skip
    if overlap.high is not None:
        ranges.append((_overlap(bounds, kept), overlap.high - one, overlap.ids))
    if (whole := bounds.get("bottom_surplus")) and whole.high is not None:
        ranges.append((2 * _overlap(bounds, kept), whole.high - two, (*overlap.ids, *whole.ids)))
    if (reach := bounds.get("top_reach")) and reach.high is not None:
        ranges.append((_least(reach, two), reach.high - two, reach.ids))
    if (side := bounds.get("side_length_difference")) is not None:
        ranges += [((side.low or 0) + two if side.low is not None else 0, 0, side.ids)]
        ranges += [(0, side.high - two if side.high is not None else 0, side.ids)]
    return next(
        (NotPossible(Reason.RULES_DISAGREE, (), ids) for low, high, ids in ranges if low > high), None
    )
