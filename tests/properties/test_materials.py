import pytest
from hypothesis import given
from hypothesis import strategies as st

from revealbook.measures.physics.materials import (
    bead_volume_ml,
    containers_needed,
    foam_volume_l,
    tape_length_m,
)

sections = st.floats(1, 500)
lengths = st.floats(0.1, 1000)
wastes = st.floats(0, 100)
contents = st.floats(50, 1000)
factors = st.floats(0.1, 10)


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


@given(st.lists(st.floats(10, 5000), min_size=1, max_size=8), st.floats(0, 200), wastes)
def test_runs_of_tape_add_up(runs_mm: list[float], lap_mm: float, waste_pct: float) -> None:
    one_by_one = sum(tape_length_m([run_mm], lap_mm, waste_pct) for run_mm in runs_mm)
    assert tape_length_m(runs_mm, lap_mm, waste_pct) == pytest.approx(one_by_one)
    assert tape_length_m(runs_mm, lap_mm) >= sum(runs_mm) / 1000 * (1 - 1e-12)


@given(st.floats(1, 60), st.floats(1, 200), lengths)
def test_foam_fills_the_joint(width_mm: float, depth_mm: float, length_m: float) -> None:
    volume_l = foam_volume_l(width_mm, depth_mm, length_m)
    assert volume_l == pytest.approx(width_mm / 100 * depth_mm / 100 * length_m * 10)
