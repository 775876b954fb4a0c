"""Laws of the power law and of the permeability classes."""

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from revealbook.measures.physics.leakage import fit_power_law
from revealbook.measures.physics.permeability_class import class_by, permitted_flow

pressures_pa = st.lists(st.integers(4, 700), min_size=3, max_size=10, unique=True)
coefficients = st.floats(0.01, 500)
exponents = st.floats(0.4, 1.1)
classes = st.sampled_from([None, 1, 2, 3, 4])


@st.composite
def scattered(draw: st.DrawFn) -> list[tuple[float, float]]:
    """Readings about a law, each off by up to a fifth."""
    c, n = draw(coefficients), draw(exponents)
    return [(float(dp), c * dp**n * draw(st.floats(0.8, 1.25))) for dp in draw(pressures_pa)]


@given(pressures_pa, coefficients, exponents)
def test_a_law_is_found_again_from_readings_on_it(pressures: list[int], c: float, n: float) -> None:
    law = fit_power_law([(float(dp), c * dp**n) for dp in pressures])
    assert law.exponent == pytest.approx(n, abs=1e-6)
    assert law.coefficient == pytest.approx(c, rel=1e-4)
    assert law.r_squared == pytest.approx(1, abs=1e-6)


@given(scattered(), st.floats(0.1, 100))
def test_the_unit_of_flow_scales_the_coefficient_alone(
    readings: list[tuple[float, float]], factor: float
) -> None:
    law, scaled = fit_power_law(readings), fit_power_law([(dp, factor * q) for dp, q in readings])
    assert scaled.exponent == pytest.approx(law.exponent, abs=1e-7)
    assert scaled.coefficient == pytest.approx(factor * law.coefficient, rel=1e-6)
    assert scaled.s_exponent == pytest.approx(law.s_exponent, abs=1e-7)


@given(scattered(), st.floats(0.1, 100))
def test_the_unit_of_pressure_leaves_the_flow_alone(
    readings: list[tuple[float, float]], factor: float
) -> None:
    law, scaled = fit_power_law(readings), fit_power_law([(factor * dp, q) for dp, q in readings])
    here, there = law.flow_at(50), scaled.flow_at(50 * factor)
    assert there.flow_m3_h == pytest.approx(here.flow_m3_h, rel=1e-6)
    assert there.interval == pytest.approx(here.interval, rel=1e-5)


@given(scattered(), st.floats(1, 1000))
def test_a_flow_lies_inside_its_interval_and_evenly_by_ratio(
    readings: list[tuple[float, float]], pressure_pa: float
) -> None:
    estimate = fit_power_law(readings).flow_at(pressure_pa)
    low, high = estimate.interval
    assume(high < math.inf)
    assert low <= estimate.flow_m3_h <= high
    assert math.sqrt(low) * math.sqrt(high) == pytest.approx(estimate.flow_m3_h)


@given(scattered())
def test_r_squared_is_a_share(readings: list[tuple[float, float]]) -> None:
    assert -1e-9 <= fit_power_law(readings).r_squared <= 1 + 1e-9


@given(st.floats(0.01, 80), st.floats(0.1, 10), st.sampled_from([100, 150, 250, 300, 450, 600]))
def test_a_class_shown_is_kept_and_the_next_is_not(q100: float, size: float, up_to_pa: int) -> None:
    steps = [dp for dp in (50, 100, 150, 200, 250, 300, 450, 600) if dp <= up_to_pa]
    readings = [(float(dp), q100 * size * (dp / 100) ** (2 / 3)) for dp in steps]
    shown = class_by("area", readings, size)
    reach = {1: 150, 2: 300, 3: 600, 4: 600}
    if shown is not None:
        assert up_to_pa >= reach[shown]
        assert q100 <= permitted_flow(shown, 100, "area") * (1 + 1e-9)
    for better in range((shown or 0) + 1, 5):
        assert up_to_pa < reach[better] or q100 >= permitted_flow(better, 100, "area") * (1 - 1e-9)


@given(st.lists(st.tuples(st.integers(10, 700), st.floats(0, 60)), min_size=1, max_size=8), st.floats(0.5, 1))
def test_less_air_never_makes_the_class_worse(readings: list[tuple[int, float]], share: float) -> None:
    before = class_by("joint", readings, 1.0) or 0
    after = class_by("joint", [(dp, share * q) for dp, q in readings], 1.0) or 0
    assert after >= before
