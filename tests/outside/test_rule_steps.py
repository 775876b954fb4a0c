"""Limits by size in the shipped rules, held against the tables of DIN 18202:2019-07 at every millimetre.

Tables 1 and 3: published, read in secondary sources. Table 2: from memory; the rules say so as well.
"""

from collections.abc import Callable
from functools import partial
from math import floor

import pytest
from tests.outside.din_18202 import ANGLES, OPENINGS, limit_mm
from tests.rules.changes import common_practice

from revealbook.measures.physics.tolerances import interpolated_flatness_mm

RULES = {held.id: held.rule for held in common_practice().rules}
FINISHED_WALLS = 6
LONGEST_STRAIGHTEDGE_MM = 4000
TALLEST_MM = 6000


def whole_mm(distance_mm: float) -> int | None:
    """Table 3 for finished walls, in whole mm, halves up."""
    limit = interpolated_flatness_mm(FINISHED_WALLS, distance_mm)
    return None if limit is None else floor(limit + 0.5)


@pytest.mark.parametrize(
    ("rule", "table", "shortest_mm", "longest_mm"),
    [
        ("opening-width", partial(limit_mm, OPENINGS), 1, TALLEST_MM),
        ("opening-height", partial(limit_mm, OPENINGS), 1, TALLEST_MM),
        ("opening-square", partial(limit_mm, ANGLES), 1, TALLEST_MM),
        ("wall-plumb", partial(limit_mm, ANGLES), 1, TALLEST_MM),
        ("substrate-flat", whole_mm, 100, LONGEST_STRAIGHTEDGE_MM),
    ],
)
def test_steps_are_those_of_the_table(
    rule: str, table: Callable[[float], float | None], shortest_mm: int, longest_mm: int
) -> None:
    limit = RULES[rule].limit
    for size_mm in range(shortest_mm, longest_mm + 1):
        at_size = limit.at_size(size_mm)
        assert at_size is not None
        assert at_size.high == table(size_mm), size_mm
    assert limit.at_size(longest_mm + 1) is None


def test_only_what_was_seen_in_a_source_is_called_published() -> None:
    published = {rule.id for rule in RULES.values() if rule.basis.kind == "published"}
    assert published == {"substrate-flat", "opening-width", "opening-height"}
    assert all("secondary source" in str(RULES[name].basis.note) for name in published)
    assert RULES["surface-above-dew-point"].basis.kind == "common practice"
    assert {RULES[name].basis.kind for name in ("opening-square", "wall-plumb")} == {"from memory"}
