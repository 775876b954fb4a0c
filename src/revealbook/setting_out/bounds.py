"""What the rules in force ask of one measure, known before the work is done."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import sqrt
from types import MappingProxyType

from revealbook.measures.catalogue import CATALOGUE
from revealbook.measures.reading import Reading
from revealbook.measures.work import Work
from revealbook.rules.limit import Limit
from revealbook.rules.rule_set import RuleInForce, RuleSet
from revealbook.setting_out.refusal import NotPossible, Reason

USUAL_RULES: Mapping[str, str] = MappingProxyType(
    {
        "frame_overlap": "frame-overlap",
        "bottom_surplus": "bottom-length",
        "side_length_difference": "side-length",
        "top_reach": "top-reach",
        "hole_diameter": "hole-diameter",
        "hole_end_distance": "first-hole",
        "hole_number": "holes-in-piece",
        "hole_centres": "fixing-centres",
        "joint_fixing_distance": "joint-fixings",
        "bead_number": "two-beads",
        "load_point_distance": "support-under-load-point",
        "support_length": "support-length",
        "support_holes": "support-holes",
        "support_hole_diameter": "support-hole-diameter",
        "support_beads": "support-beads",
        "bracket_number": "plinth-brackets",
        "window_fixing_centres": "window-fixing-centres",
        "window_fixing_corner": "window-fixing-corner",
    }
)
"""The measures that setting out looks at, with the rule that usually limits each: what a refusal names."""


@dataclass(frozen=True, slots=True)
class Bound:
    """The limits of all rules in force on one measure, taken together.

    Attributes:
        measure: the measure.
        low: the greatest of their least values, or None.
        high: the least of their greatest values, or None.
        rules: the rules.
    """

    measure: str
    low: float | None
    high: float | None
    rules: tuple[RuleInForce, ...]

    @property
    def ids(self) -> tuple[str, ...]:
        """The rules' ids."""
        return tuple(held.id for held in self.rules)


@dataclass(frozen=True, slots=True)
class Guard:
    """How far to stay inside a limit, mm, so that the tape's uncertainty leaves no reading undecided.

    Attributes:
        one_mm: for a value that is read once.
        two_mm: for a difference of two readings.
    """

    one_mm: float
    two_mm: float


def guard(work: Work) -> Guard:
    """Give the distance kept from a limit with the site's coarsest tape, or with one that is not stated."""
    method = work.method
    tapes = [tool.uncertainty for tool in work.around.site.instruments if tool.measures == "length"]
    coarsest = work.around.unstated.get("length", max(tapes, default=0.0))
    if method.decision != "guard band" or not coarsest:
        return Guard(0, 0)
    band = method.guard_band_factor * coarsest
    return Guard(band, band * sqrt(2))


LENGTHS = frozenset({"piece_length", "window_side_length"})
"""Sizes of limits that setting out decides itself."""


def bound(measure: str, rule_set: RuleSet, work: Work, length_mm: float | None = None) -> Bound | NotPossible:
    """Take together what the rules in force ask of a measure with numbers.

    A rule whose condition is known not to hold is left out. One whose condition is not recorded yet counts:
    what is set out must also conform if the condition turns out to hold.

    Args:
        measure: its name, one of `USUAL_RULES`.
        rule_set: the rules in force.
        work: the opening as far as it is recorded.
        length_mm: length of the piece or side, for limits that go by it; a long one if left out.

    Returns:
        The bound; or a refusal if no rule limits the measure, two rules contradict each other, or a limit
        depends on a size that is not known before the work.
    """
    rules = tuple(held for held in rule_set.rules if held.rule.measure == measure and _may_apply(held, work))
    limits: list[Limit] = []
    for held in rules:
        plain = _plain(held.rule.limit, work, length_mm)
        if plain is None:
            return NotPossible(Reason.LIMIT_BY_UNKNOWN_SIZE, (), (held.id, str(held.rule.limit.by)))
        limits.append(plain)
    if not limits:
        return NotPossible(Reason.NO_RULE, (), (USUAL_RULES.get(measure, measure),))
    low = max((limit.low for limit in limits if limit.low is not None), default=None)
    high = min((limit.high for limit in limits if limit.high is not None), default=None)
    found = Bound(measure, low, high, rules)
    if low is not None and high is not None and low > high:
        return NotPossible(Reason.RULES_DISAGREE, (), found.ids)
    return found


def _may_apply(held: RuleInForce, work: Work) -> bool:
    return held.left_out_by is None and all(
        value is asked for name, asked in held.rule.conditions for value in _values(name, work)
    )


def _values(measure: str, work: Work) -> Iterator[object]:
    for taken in CATALOGUE[measure].function(work):
        if isinstance(taken, Reading):
            yield taken.value


def lengths_of_steps(measure: str, rule_set: RuleSet) -> tuple[float, ...]:
    """Give the lengths up to which the limits on a measure change, rising."""
    limits = [held.rule.limit for held in rule_set.rules if held.rule.measure == measure]
    return tuple(sorted({step.up_to for limit in limits if limit.by in LENGTHS for step in limit.steps}))


def _plain(limit: Limit, work: Work, length_mm: float | None) -> Limit | None:
    """Give a limit by size as the plain limit at this opening's size; None if the size cannot be told."""
    if limit.by is None:
        return limit
    if limit.by in LENGTHS:
        return limit.at_size(limit.steps[-1].up_to if length_mm is None else length_mm)
    sizes = {float(size) for size in _values(limit.by, work) if isinstance(size, int | float)}
    return limit.at_size(sizes.pop()) if len(sizes) == 1 else None
