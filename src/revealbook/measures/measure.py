"""The step: an opening to its readings, each measure computed once."""

from collections.abc import Iterable, Mapping

from revealbook.measures.catalogue import CATALOGUE
from revealbook.measures.reading import Outcome
from revealbook.measures.work import Work

Readings = Mapping[str, tuple[Outcome, ...]]
"""What each measure gave, by the measure's name."""


def measure(work: Work, names: Iterable[str]) -> Readings:
    """Take the named measures of one opening.

    Args:
        work: the opening, its site and the method in force.
        names: measures of the catalogue, as the rules in force ask for.

    Raises:
        KeyError: a name is in no catalogue; rule sets are refused before that can happen.
    """
    return {name: tuple(CATALOGUE[name].function(work)) for name in names}
