import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from revealbook.measures.physics.squareness import lateral_rack_mm
from revealbook.measures.physics.tolerances import interpolated_flatness_mm

sides = st.floats(200, 6000)
racks = st.floats(-50, 50)


@given(sides, sides, racks)
def test_the_rack_is_found_again_from_the_diagonals(
    width_mm: float, height_mm: float, rack_mm: float
) -> None:
    longer = math.hypot(width_mm + rack_mm, height_mm)
    shorter = math.hypot(width_mm - rack_mm, height_mm)
    assert lateral_rack_mm(longer, shorter, width_mm) == pytest.approx(rack_mm, abs=1e-6)
    assert lateral_rack_mm(shorter, longer, width_mm) == pytest.approx(-rack_mm, abs=1e-6)


@given(st.integers(1, 7), st.floats(100, 15000), st.floats(100, 15000))
def test_flatness_never_falls_with_distance(row: int, one: float, other: float) -> None:
    near, far = (interpolated_flatness_mm(row, distance_mm) for distance_mm in sorted((one, other)))
    assert near is not None
    assert far is not None
    assert near <= far + 1e-9
