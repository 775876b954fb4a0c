"""The power law of air leakage."""

import math
import subprocess
import sys

import pytest

from revealbook.measures.physics.leakage import PowerLaw, fit_power_law

READINGS = [(12.0, 31.0), (19.5, 43.5), (30.2, 55.2), (40.1, 69.0), (49.6, 77.0), (61.3, 91.5)]
EXACT = [(dp, 12 * dp**0.65) for dp in (10.0, 20.0, 30.0, 40.0, 50.0, 60.0)]


def law_of(exponent: float) -> PowerLaw:
    return fit_power_law([(dp, 5 * dp**exponent) for dp in (10.0, 25.0, 60.0)])


def test_worked_example_of_six_readings() -> None:
    """The example in docs/calculations/air-leakage.md."""
    law = fit_power_law(READINGS)
    assert law.exponent == pytest.approx(0.651793, abs=5e-7)
    assert law.coefficient == pytest.approx(6.153144, abs=5e-7)
    assert law.r_squared == pytest.approx(0.997669, abs=5e-7)
    assert law.exponent_interval == pytest.approx((0.6081, 0.6955), abs=5e-5)
    assert law.coefficient_interval == pytest.approx((5.2857, 7.1629), abs=5e-5)
    assert law.valid
    at_50 = law.flow_at(50)
    assert at_50.flow_m3_h == pytest.approx(78.7904, abs=5e-5)
    assert at_50.interval == pytest.approx((76.288, 81.375), abs=5e-4)
    assert not at_50.extrapolated
    assert law.flow_at(100).extrapolated


def test_readings_on_a_law_give_that_law_without_doubt() -> None:
    law = fit_power_law(EXACT)
    assert law.exponent == pytest.approx(0.65)
    assert law.coefficient == pytest.approx(12)
    assert law.r_squared == pytest.approx(1)
    assert law.s_exponent == pytest.approx(0, abs=1e-12)
    assert law.flow_at(50).flow_m3_h == pytest.approx(152.58497, abs=5e-6)


def test_scatter_widens_every_interval() -> None:
    calm, gusty = fit_power_law(READINGS), fit_power_law([*READINGS[:-1], (61.3, 80.0)])
    assert gusty.s_exponent > 2 * calm.s_exponent
    assert gusty.exponent_interval.high - gusty.exponent_interval.low > 0.15
    assert gusty.flow_at(50).interval.low < calm.flow_at(50).interval.low


def test_confidence_is_lost_away_from_the_readings() -> None:
    law = fit_power_law(READINGS)

    def width(pressure_pa: float) -> float:
        estimate = law.flow_at(pressure_pa)
        return math.log(estimate.interval.high / estimate.interval.low)

    assert width(4) > width(12) > width(30) < width(61) < width(100)


@pytest.mark.parametrize("pressure_pa", [4.0, 11.99, 61.31, 100.0])
def test_a_pressure_nobody_read_is_called_extrapolated(pressure_pa: float) -> None:
    assert fit_power_law(READINGS).flow_at(pressure_pa).extrapolated


@pytest.mark.parametrize("pressure_pa", [12.0, 61.3])
def test_the_outermost_readings_are_no_extrapolation(pressure_pa: float) -> None:
    assert not fit_power_law(READINGS).flow_at(pressure_pa).extrapolated


@pytest.mark.parametrize(("exponent", "valid"), [(0.49, False), (0.51, True), (0.99, True), (1.01, False)])
def test_a_fit_is_valid_between_turbulent_and_laminar(exponent: float, valid: bool) -> None:
    assert law_of(exponent).valid is valid


def test_a_scattered_fit_is_not_valid() -> None:
    scattered = fit_power_law([(10.0, 20.0), (20.0, 40.0), (40.0, 45.0), (60.0, 85.0)])
    assert 0.5 <= scattered.exponent <= 1
    assert scattered.r_squared < 0.98
    assert not scattered.valid


def test_readings_may_come_in_any_order() -> None:
    assert fit_power_law(READINGS[::-1]) == fit_power_law(READINGS)


@pytest.mark.parametrize(
    ("readings", "sentence"),
    [
        (READINGS[:2], "At least 3 readings"),
        ([], "At least 3 readings"),
        ([(10, 5), (20, 0), (30, 9)], "Air flow"),
        ([(0, 5), (20, 7), (30, 9)], "Pressure difference"),
        ([(-10, 5), (-20, 7), (-30, 9)], "Pressure difference"),
        ([(10, 5), (20, math.inf), (30, 9)], "Air flow"),
        ([(10, 5), (10, 7), (10, 9)], "at one pressure"),
        ([(10, 5), (20, 5), (30, 5)], "one flow"),
    ],
)
def test_readings_that_fit_no_law_are_refused(readings: list[tuple[float, float]], sentence: str) -> None:
    with pytest.raises(ValueError, match=sentence):
        fit_power_law(readings)


def test_a_flow_at_no_pressure_is_refused() -> None:
    with pytest.raises(ValueError, match="Pressure difference"):
        fit_power_law(READINGS).flow_at(0)


def test_starting_up_does_not_load_the_statistics_library() -> None:
    """The library costs a good part of a second, which every command would pay."""
    script = "import sys; import revealbook.measures.physics.leakage; print('scipy' in sys.modules)"
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "False"
