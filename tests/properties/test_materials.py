import pytest
from hypothesis import given
from hypothesis import strategies as st

from revealbook.measures.physics.materials import (
    bead_length_m,
    bead_volume_ml,
    cans_needed,
    containers_needed,
    foam_volume_l,
    mean_section_mm2,
    rectangular_section_mm2,
    round_section_mm2,
    tape_length_m,
    triangular_section_mm2,
)

sections = st.floats(1, 500)
lengths = st.floats(0.1, 1000)
wastes = st.floats(0, 100)
contents = st.floats(50, 1000)
factors = st.floats(0.1, 10)


@given(sections, lengths, wastes, contents)
def test_what_is_bought_for_a_bead_gives_that_bead(
    section_mm2: float, length_m: float, waste_pct: float, content_ml: float
) -> None:
    containers = bead_volume_ml(section_mm2, length_m, waste_pct) / content_ml
    assert bead_length_m(containers, content_ml, section_mm2, waste_pct) == pytest.approx(length_m)
    assert mean_section_mm2(containers, content_ml, length_m, waste_pct) == pytest.approx(section_mm2)


@given(sections, lengths, wastes, contents)
def test_whole_containers_are_enough_and_one_fewer_is_not(
    section_mm2: float, length_m: float, waste_pct: float, content_ml: float
) -> None:
    volume_ml = bead_volume_ml(section_mm2, length_m, waste_pct)
    count = containers_needed(volume_ml, content_ml)
    assert count * content_ml >= volume_ml * (1 - 1e-6)
    assert (count - 1) * content_ml < volume_ml


@given(sections, lengths, wastes, factors)
def test_adhesive_is_proportional_to_the_length(
    section_mm2: float, length_m: float, waste_pct: float, factor: float
) -> None:
    once = bead_volume_ml(section_mm2, length_m, waste_pct)
    assert bead_volume_ml(section_mm2, factor * length_m, waste_pct) == pytest.approx(factor * once)


@given(sections, lengths, wastes, wastes)
def test_more_waste_never_buys_less(
    section_mm2: float, length_m: float, one_pct: float, other_pct: float
) -> None:
    little, much = sorted((one_pct, other_pct))
    assert bead_volume_ml(section_mm2, length_m, little) <= bead_volume_ml(section_mm2, length_m, much)


@given(st.floats(1, 50))
def test_a_round_bead_fits_its_square_and_exceeds_its_triangle(size_mm: float) -> None:
    square = rectangular_section_mm2(size_mm, size_mm)
    assert triangular_section_mm2(size_mm, size_mm) < round_section_mm2(size_mm) < square


@given(st.lists(st.floats(10, 5000), min_size=1, max_size=8), st.floats(0, 200), wastes)
def test_runs_of_tape_add_up(runs_mm: list[float], lap_mm: float, waste_pct: float) -> None:
    one_by_one = sum(tape_length_m([run_mm], lap_mm, waste_pct) for run_mm in runs_mm)
    assert tape_length_m(runs_mm, lap_mm, waste_pct) == pytest.approx(one_by_one)
    assert tape_length_m(runs_mm, lap_mm) >= sum(runs_mm) / 1000 * (1 - 1e-12)


@given(st.floats(1, 60), st.floats(1, 200), lengths, st.floats(1, 60))
def test_cans_fill_the_joint(width_mm: float, depth_mm: float, length_m: float, yield_l: float) -> None:
    volume_l = foam_volume_l(width_mm, depth_mm, length_m)
    assert volume_l == pytest.approx(width_mm / 100 * depth_mm / 100 * length_m * 10)
    count = cans_needed(volume_l, yield_l)
    assert count * yield_l >= volume_l * (1 - 1e-6)
    assert (count - 1) * yield_l < volume_l
