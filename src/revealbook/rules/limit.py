"""Limits: the closed kinds of comparison that a rule may state. There is no expression language."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import NamedTuple


class Step(NamedTuple):
    """One line of a limit that depends on a size: up to `up_to` (included) the limit is `limit`."""

    up_to: float
    limit: float


@dataclass(frozen=True, slots=True)
class Limit:
    """What a reading must keep.

    Attributes:
        low: least value allowed, or None.
        high: greatest value allowed, or None.
        equals: the truth value asked for, or None.
        choices: the words allowed, or None.
        by: measure that gives the size, for a limit by size.
        steps: the limits by size, in rising order of size; they bound above, or below if `steps_bound_below`.
        steps_bound_below: whether `steps` are least values.
    """

    low: float | None = None
    high: float | None = None
    equals: bool | None = None
    choices: tuple[str, ...] | None = None
    by: str | None = None
    steps: tuple[Step, ...] = ()
    steps_bound_below: bool = False

    @classmethod
    def stated(cls, rule: Mapping[str, object]) -> "Limit":
        """Make the limit from the keys of a rule, of which exactly one kind is present."""
        if (least := rule.get("at_least")) is not None:
            return cls(low=_number(least))
        if (most := rule.get("at_most")) is not None:
            return cls(high=_number(most))
        if (between := rule.get("between")) is not None:
            return cls(low=_number(between[0]), high=_number(between[1]))  # type: ignore[index]
        if (equal := rule.get("equal_to")) is not None:
            return (
                cls(equals=equal) if isinstance(equal, bool) else cls(low=_number(equal), high=_number(equal))
            )
        if (choices := rule.get("one_of")) is not None:
            return cls(choices=tuple(choices))  # type: ignore[arg-type]
        below = rule.get("at_least_by") is not None
        steps = tuple(Step(step.up_to, step.limit) for step in rule["steps"])  # type: ignore[attr-defined]
        return cls(
            by=str(rule["at_least_by"] if below else rule["at_most_by"]), steps=steps, steps_bound_below=below
        )

    def at_size(self, size: float) -> "Limit | None":
        """Give the plain limit that holds at a size; None beyond the last step."""
        step = next((step for step in self.steps if size <= step.up_to), None)
        if step is None:
            return None
        return Limit(low=step.limit) if self.steps_bound_below else Limit(high=step.limit)

    def margin(self, value: float) -> float:
        """How far a number lies inside the limit, in its unit; negative outside it."""
        margins = []
        if self.low is not None:
            margins.append(value - self.low)
        if self.high is not None:
            margins.append(self.high - value)
        return min(margins)


def _number(value: object) -> float:
    return float(value)  # type: ignore[arg-type]
