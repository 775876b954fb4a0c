import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from revealbook.measures.physics.squareness import (
    bow_mm,
    corner_offset_mm,
    deviation_mm_per_m,
    diagonal_difference_mm,
    diagonal_mm,
    lateral_rack_mm,
    plumb_tolerance_mm,
)
from revealbook.measures.physics.tolerances import (
    SizeRow,
    angular_deviation_mm,
    flatness_deviation_mm,
    interpolated_flatness_mm,
    limit_deviation_mm,
)

sides = st.floats(200, 6000)
racks = st.floats(-50, 50)
table_1_rows = st.sampled_from(
    [
        "plan size",
        "elevation size",
        "clear plan size",
        "clear elevation size",
        "opening",
        "opening with finished reveals",
    ]
)


@given(sides, sides)
def test_a_diagonal_is_longer_than_either_side_and_shorter_than_both(
    width_mm: float, height_mm: float
) -> None:
    diagonal = diagonal_mm(width_mm, height_mm)
    assert max(width_mm, height_mm) < diagonal < width_mm + height_mm
    assert diagonal == diagonal_mm(height_mm, width_mm)


@given(sides, sides, racks)
def test_the_rack_is_found_again_from_the_diagonals(
    width_mm: float, height_mm: float, rack_mm: float
) -> None:
    longer = math.hypot(width_mm + rack_mm, height_mm)
    shorter = math.hypot(width_mm - rack_mm, height_mm)
    assert longer - shorter == pytest.approx(diagonal_difference_mm(rack_mm, width_mm, height_mm), abs=1e-9)
    assert lateral_rack_mm(longer, shorter, width_mm) == pytest.approx(rack_mm, abs=1e-6)
    assert lateral_rack_mm(shorter, longer, width_mm) == pytest.approx(-rack_mm, abs=1e-6)


@given(sides, sides, racks)
def test_the_difference_is_the_rule_of_thumb_for_small_racks(
    width_mm: float, height_mm: float, rack_mm: float
) -> None:
    thumb_mm = 2 * width_mm * rack_mm / diagonal_mm(width_mm, height_mm)
    difference_mm = diagonal_difference_mm(rack_mm, width_mm, height_mm)
    diagonal = diagonal_mm(width_mm, height_mm)
    assert difference_mm == pytest.approx(thumb_mm, abs=abs(thumb_mm) * 2 * (rack_mm / diagonal) ** 2 + 1e-9)
    assert abs(difference_mm) <= 2 * abs(rack_mm) + 1e-9


@given(sides, sides, st.floats(60, 120))
def test_a_corner_turned_tells_its_offset(base_mm: float, side_mm: float, degrees: float) -> None:
    angle = math.radians(degrees)
    facing_mm = math.sqrt(base_mm**2 + side_mm**2 - 2 * base_mm * side_mm * math.cos(angle))
    expected_mm = -side_mm * math.cos(angle)
    assert corner_offset_mm(base_mm, side_mm, facing_mm) == pytest.approx(expected_mm, abs=1e-6)


@given(sides, sides, sides, st.floats(-1000, 1000))
def test_a_wedge_has_no_bow(first_mm: float, last_mm: float, middle_mm: float, shift_mm: float) -> None:
    assert bow_mm(first_mm, (first_mm + last_mm) / 2, last_mm) == pytest.approx(0, abs=1e-9)
    assert bow_mm(first_mm, middle_mm, last_mm) == bow_mm(last_mm, middle_mm, first_mm)
    shifted = bow_mm(first_mm + shift_mm, middle_mm + shift_mm, last_mm + shift_mm)
    assert shifted == pytest.approx(bow_mm(first_mm, middle_mm, last_mm), abs=1e-6)


@given(racks, sides, st.floats(0.1, 10))
def test_a_deviation_per_metre_does_not_depend_on_the_length_read(
    deviation_mm: float, length_mm: float, factor: float
) -> None:
    assert deviation_mm_per_m(deviation_mm * factor, length_mm * factor) == pytest.approx(
        deviation_mm_per_m(deviation_mm, length_mm)
    )


@given(st.floats(0, 3000), st.floats(0, 3000))
def test_the_plumb_tolerance_never_falls_and_never_passes_3_mm(one: float, other: float) -> None:
    shorter, longer = (plumb_tolerance_mm(length_mm) for length_mm in sorted((one, other)))
    assert shorter is not None
    assert longer is not None
    assert shorter <= longer <= 3


@given(table_1_rows, st.floats(1, 60000), st.floats(1, 60000))
def test_limit_deviations_never_fall_with_size(row: SizeRow, one: float, other: float) -> None:
    small, large = (limit_deviation_mm(row, nominal_mm) for nominal_mm in sorted((one, other)))
    if small is None:
        assert large is None
    elif large is not None:
        assert small <= large


@given(st.floats(1, 60000), st.floats(1, 60000))
def test_angular_limits_never_fall_with_size(one: float, other: float) -> None:
    small, large = (angular_deviation_mm(nominal_mm) for nominal_mm in sorted((one, other)))
    assert small is not None
    assert large is not None
    assert small <= large


@given(st.integers(1, 7), st.floats(100, 15000), st.floats(100, 15000))
def test_flatness_never_falls_with_distance_and_rounds_by_half_a_millimetre(
    row: int, one: float, other: float
) -> None:
    near, far = (interpolated_flatness_mm(row, distance_mm) for distance_mm in sorted((one, other)))
    assert near is not None
    assert far is not None
    assert near <= far + 1e-9
    rounded = flatness_deviation_mm(row, min(one, other))
    assert rounded is not None
    assert abs(rounded - near) <= 0.5
