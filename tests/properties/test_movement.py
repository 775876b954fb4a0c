import pytest
from hypothesis import given
from hypothesis import strategies as st

from revealbook.measures.physics.movement import (
    joint_depth_mm,
    joint_width_from_half_total_mm,
    joint_width_from_total_mm,
    joint_width_mm,
    temperature_change_k,
    thermal_movement_mm,
    total_movement_mm,
    worst_one_way_movement_mm,
)

coefficients = st.floats(1e-6, 1e-4)
lengths = st.floats(10, 6000)
changes = st.floats(-100, 100)
climates = st.tuples(*[st.floats(-40, 90)] * 3).map(sorted)
capabilities = st.floats(5, 100)


@given(coefficients, lengths, changes)
def test_a_movement_tells_its_change_of_temperature(per_k: float, length_mm: float, change_k: float) -> None:
    moved_mm = thermal_movement_mm(per_k, length_mm, change_k)
    assert temperature_change_k(per_k, length_mm, moved_mm) == pytest.approx(change_k, abs=1e-9)


@given(coefficients, lengths, changes)
def test_warming_and_cooling_are_opposite(per_k: float, length_mm: float, change_k: float) -> None:
    assert thermal_movement_mm(per_k, length_mm, -change_k) == -thermal_movement_mm(
        per_k, length_mm, change_k
    )


@given(coefficients, lengths, changes)
def test_two_halves_move_as_the_whole(per_k: float, length_mm: float, change_k: float) -> None:
    half_mm = thermal_movement_mm(per_k, length_mm / 2, change_k)
    assert 2 * half_mm == pytest.approx(thermal_movement_mm(per_k, length_mm, change_k))


@given(coefficients, lengths, climates)
def test_the_worst_way_is_between_half_the_total_and_the_total(
    per_k: float, length_mm: float, climate: list[float]
) -> None:
    coldest_c, installed_c, warmest_c = climate
    worst_mm = worst_one_way_movement_mm(per_k, length_mm, installed_c, coldest_c, warmest_c)
    total_mm = total_movement_mm(per_k, length_mm, coldest_c, warmest_c)
    assert total_mm / 2 - 1e-12 <= worst_mm <= total_mm + 1e-12


@given(coefficients, lengths, climates, capabilities, st.floats(0, 10))
def test_the_default_width_lies_between_the_other_two_conventions(
    per_k: float, length_mm: float, climate: list[float], capability_pct: float, tolerance_mm: float
) -> None:
    coldest_c, installed_c, warmest_c = climate
    total_mm = total_movement_mm(per_k, length_mm, coldest_c, warmest_c)
    worst_mm = worst_one_way_movement_mm(per_k, length_mm, installed_c, coldest_c, warmest_c)
    width_mm = joint_width_mm(worst_mm, capability_pct, tolerance_mm)
    assert joint_width_from_half_total_mm(total_mm, capability_pct, tolerance_mm) <= width_mm + 1e-9
    assert width_mm <= joint_width_from_total_mm(total_mm, capability_pct, tolerance_mm) + 1e-9


@given(st.floats(0, 20), capabilities, st.floats(0, 10))
def test_the_sealant_is_stretched_by_no_more_than_it_can_bear(
    movement_mm: float, capability_pct: float, tolerance_mm: float
) -> None:
    narrowest_mm = joint_width_mm(movement_mm, capability_pct, tolerance_mm) - tolerance_mm
    assert movement_mm <= narrowest_mm * capability_pct / 100 + 1e-9


@given(st.floats(0, 20), capabilities, capabilities)
def test_a_more_elastic_sealant_needs_no_wider_joint(movement_mm: float, one: float, other: float) -> None:
    stiff, elastic = sorted((one, other))
    assert joint_width_mm(movement_mm, elastic) <= joint_width_mm(movement_mm, stiff)


@given(st.floats(0.1, 100), st.floats(0.1, 100))
def test_depth_never_falls_with_width(one: float, other: float) -> None:
    narrow, wide = sorted((one, other))
    assert joint_depth_mm(narrow) <= joint_depth_mm(wide)
