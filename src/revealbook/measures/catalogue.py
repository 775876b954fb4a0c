"""Every measure by name: the closed list that a rule set may speak of.

Nothing registers itself; a measure that is not written down here does not exist.
"""

from collections.abc import Mapping
from types import MappingProxyType

from revealbook.measures.catalogue_calculations import CALCULATIONS
from revealbook.measures.catalogue_wall import WALL_SIDE
from revealbook.measures.catalogue_ways import WAYS
from revealbook.measures.catalogue_window import WINDOW_SIDE
from revealbook.measures.quantity import Measure

CATALOGUE: Mapping[str, Measure] = MappingProxyType(
    {measure.name: measure for measure in (*WALL_SIDE, *WINDOW_SIDE, *WAYS, *CALCULATIONS)}
)
"""Measures by name."""
