import pytest
from hypothesis import given
from hypothesis import strategies as st

from revealbook.measures.physics.movement import (
    joint_width_mm,
    thermal_movement_mm,
    worst_one_way_movement_mm,
)

coefficients = st.floats(1e-6, 1e-4)
lengths = st.floats(10, 6000)
changes = st.floats(-100, 100)
climates = st.tuples(*[st.floats(-40, 90)] * 3).map(sorted)
capabilities = st.floats(5, 100)


@given(coefficients, lengths, changes)
def test_warming_and_cooling_are_opposite(per_k: float, length_mm: float, change_k: float) -> None:
    assert thermal_movement_mm(per_k, length_mm, -change_k) == -thermal_movement_mm(
        per_k, length_mm, change_k
    )


@given(coefficients, lengths, changes)
def test_two_halves_move_as_the_whole(per_k: float, length_mm: float, change_k: float) -> None:
    half_mm = thermal_movement_mm(per_k, length_mm / 2, change_k)
    assert 2 * half_mm == pytest.approx(thermal_movement_mm(per_k, length_mm, change_k))


@given(st.floats(0, 20), capabilities)
def test_the_sealant_is_stretched_by_no_more_than_it_can_bear(
    movement_mm: float, capability_pct: float
) -> None:
    assert movement_mm <= joint_width_mm(movement_mm, capability_pct) * capability_pct / 100 + 1e-9


@given(st.floats(0, 20), capabilities, capabilities)
def test_a_more_elastic_sealant_needs_no_wider_joint(movement_mm: float, one: float, other: float) -> None:
    stiff, elastic = sorted((one, other))
    assert joint_width_mm(movement_mm, elastic) <= joint_width_mm(movement_mm, stiff)


@given(coefficients, lengths, climates)
def test_the_worst_way_is_between_half_the_total_and_the_total(
    per_k: float, length_mm: float, climate: list[float]
) -> None:
    coldest_c, installed_c, warmest_c = climate
    worst_mm = worst_one_way_movement_mm(per_k, length_mm, installed_c, coldest_c, warmest_c)
    total_mm = per_k * length_mm * (warmest_c - coldest_c)
    assert total_mm / 2 - 1e-12 <= worst_mm <= total_mm + 1e-12
