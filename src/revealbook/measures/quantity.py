"""A measure as rules know it: a name, a unit, a function; and how to read what is simply recorded."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from revealbook.measures.reading import Outcome
from revealbook.measures.units import Unit
from revealbook.measures.work import Work, one

Function = Callable[[Work], Iterable[Outcome]]
_SIGNED_UNITS = frozenset({"d", "h", "min", "K", "%"})


@dataclass(frozen=True, slots=True)
class Measure:
    """A named quantity of the work.

    Attributes:
        name: what rules call it.
        unit: its unit; `yes/no` and `choice` are not numbers.
        meaning: one sentence for the documentation.
        function: from the work to its readings.
        choices: the words it may give, if its unit is `choice`.
        below_zero: whether a number of it may lie below zero though its unit does not tell.
    """

    name: str
    unit: Unit
    meaning: str
    function: Function
    choices: tuple[str, ...] = ()
    below_zero: bool = False

    @property
    def signed(self) -> bool:
        """Whether its value may lie below zero."""
        return self.below_zero or self.unit in _SIGNED_UNITS or self.name.endswith("_margin")


def as_recorded(section: str, *rest: str, measures: str | None = None) -> Function:
    """Give the function that reads one value as it stands in the record."""
    return lambda work: (one(work, (), (section, *rest), measures),)
