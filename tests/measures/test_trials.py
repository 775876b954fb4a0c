import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from tests.builders import build, details, reading, taken, value, values

from revealbook.measures.method import METHOD_OF_FORMAT_1, Method
from revealbook.measures.physics.leakage import fit_power_law
from revealbook.measures.reading import Missing, Reading
from revealbook.measures.work import Work

SCATTERED = [(12.0, 31.0), (19.5, 43.5), (30.2, 55.2), (40.1, 69.0), (49.6, 77.0), (61.3, 91.5)]


def blown(points: list[tuple[float, float]], **keys: Any) -> Work:
    readings = [{"pressure_pa": pressure, "flow_m3_h": flow} for pressure, flow in points]
    stated = {"readings": readings, "area_m2": 2, "joint_length_m": 5, "air_c": 19.85, "pressure_kpa": 101.3}
    return build({"tests": {"air_leakage": stated | keys}})


def law(exponent: float, at_100: float, *pressures: float) -> list[tuple[float, float]]:
    return [(pressure, at_100 * (abs(pressure) / 100) ** exponent) for pressure in pressures]


PRESSURES = (50.0, 100.0, 150.0, 200.0, 300.0)
FIVE = law(0.6, 4, *PRESSURES)


@pytest.mark.parametrize("name", ["thermometry_made", "leakage_tested", "spray_tested"])
def test_a_test_is_made_only_if_the_record_has_it(name: str) -> None:
    assert value(build(), name) is False
    assert value(build({"tests": {}}), name) is False
    tests: dict[str, Any] = {"thermometry": {}, "air_leakage": {}, "water_spray": {}}
    assert value(build({"tests": tests}), name) is True


def test_the_exponent_carries_half_its_confidence_interval() -> None:
    # published set of readings (computed with scipy): n 0.651793, 95 % from 0.6081 to 0.6955
    found = reading(blown(SCATTERED), "leakage_exponent")
    assert found.value == pytest.approx(0.651793, abs=1e-6)
    assert found.uncertainty == pytest.approx((0.6955 - 0.6081) / 2, abs=1e-4)
    assert value(blown(SCATTERED), "leakage_r2") == pytest.approx(0.997669, abs=1e-6)
    assert details(found) == {"points": 6, "lowest_pa": 12.0, "highest_pa": 61.3}


def test_suction_and_overpressure_are_fitted_apart() -> None:
    points = law(0.6, 4, 50, 75, 100, 150, 200) + law(0.7, 5, -50, -75, -100, -150, -200)
    found = values(blown(points), "leakage_exponent")
    assert found == {("overpressure",): pytest.approx(0.6), ("suction",): pytest.approx(0.7)}


def test_the_flow_at_100_pa_is_given_by_area_and_by_joint() -> None:
    points = [(50.0, 4.1), (75.0, 5.2), (100.0, 6.3), (200.0, 10.2), (300.0, 13.0)]
    estimate = fit_power_law(points).flow_at(100)
    by_area, by_joint = (reading(blown(points), name) for name in ("leakage_by_area", "leakage_by_joint"))
    assert by_area.value == pytest.approx(estimate.flow_m3_h / 2)
    assert by_joint.value == pytest.approx(estimate.flow_m3_h / 5)
    assert by_joint.uncertainty == pytest.approx((estimate.interval.high - estimate.flow_m3_h) / 5)


def test_no_flow_is_carried_beyond_the_readings() -> None:
    found = values(blown(SCATTERED), "leakage_by_area")
    assert found == {("overpressure",): "missing not_read_at_100_pa at tests.air_leakage.readings"}


def test_what_lacks_for_a_leakage_figure_is_named() -> None:
    no_size = blown(SCATTERED, area_m2=None, joint_length_m=None)
    assert values(no_size, "leakage_by_area")[()] == "missing area_m2 at tests.air_leakage.area_m2"
    assert (
        values(no_size, "leakage_by_joint")[()]
        == "missing joint_length_m at tests.air_leakage.joint_length_m"
    )
    assert values(no_size, "permeability_class") == {(): "missing area_m2 at tests.air_leakage.area_m2"}
    gap = build({"tests": {"air_leakage": {"readings": [{"pressure_pa": 50}, {"flow_m3_h": 2}]}}})
    assert [(one.what, one.path[-2]) for one in taken(gap, "leakage_r2") if isinstance(one, Missing)] == [
        ("flow_m3_h", 0),
        ("pressure_pa", 1),
    ]
    assert value(blown([]), "leakage_exponent") == "missing readings at tests.air_leakage.readings"
    assert value(blown([(0, 1)]), "leakage_exponent") == "missing pressure_pa at tests.air_leakage.readings"


@pytest.mark.parametrize(
    "points",
    [
        [(50, 2), (100, 2), (150, 2), (200, 2), (300, 2)],
        [(50, 0), (100, 2), (150, 2.5), (200, 3), (300, 4)],
    ],
    ids=["one flow", "no flow at all"],
)
def test_readings_that_no_law_fits_are_not_shown(points: list[tuple[float, float]]) -> None:
    (found,) = values(blown(points), "leakage_exponent").values()
    assert found == "missing no_law_fits at tests.air_leakage.readings"


def test_no_curve_is_fitted_to_fewer_than_five_pressures() -> None:
    """Of four points that fail, the one that scatters could be left out; three lie on almost any curve."""
    four = blown([(50, 2), (100, 3.1), (200, 4.9), (300, 9)])
    for name in ("leakage_exponent", "leakage_r2", "leakage_by_joint"):
        assert value(four, name) == "missing too_few_pressures at tests.air_leakage.readings"
    assert value(four, "leakage_points") == 4
    repeated = blown([*law(0.6, 4, 50, 100, 200, 300), (300, 7.8)])
    assert value(repeated, "leakage_points") == 4
    assert value(repeated, "leakage_exponent") == "missing too_few_pressures at tests.air_leakage.readings"
    assert values(blown(law(0.6, 4, *PRESSURES, -50, -100)), "leakage_points") == {
        ("overpressure",): 5, ("suction",): 2,
    }  # fmt: skip


def test_the_flow_is_that_at_the_reference_climate() -> None:
    as_metered, cold = (reading(one, "leakage_by_joint") for one in (blown(FIVE), blown(FIVE, air_c=0)))
    assert cold.value == pytest.approx(float(as_metered.value) * 293 / 273.15)
    assert details(cold)["reference_factor"] == pytest.approx(1.07267, abs=1e-5)
    high_up = reading(blown(FIVE, pressure_kpa=80), "leakage_by_area")
    assert high_up.value == pytest.approx(float(reading(blown(FIVE), "leakage_by_area").value) * 80 / 101.3)


@pytest.mark.parametrize(
    ("unread", "share"), [(["air_c"], 0.12), (["pressure_kpa"], 0.04), (["air_c", "pressure_kpa"], 0.16)]
)
def test_air_that_nobody_read_widens_the_uncertainty_of_the_flow(unread: list[str], share: float) -> None:
    """So that leaving it out never turns a failure into a pass, and never a pass into a failure."""
    read = reading(blown(FIVE), "leakage_by_joint")
    found = reading(blown(FIVE, **dict.fromkeys(unread)), "leakage_by_joint")
    assert found.value == pytest.approx(read.value)
    assert found.uncertainty == pytest.approx((read.uncertainty or 0) + share * float(read.value))
    assert details(found)["air_unread_pct"] == pytest.approx(100 * share)
    assert value(blown(FIVE, **dict.fromkeys(unread)), "leakage_exponent") == pytest.approx(0.6)


def test_the_first_edition_took_the_flow_as_metered_and_three_points_for_a_curve() -> None:
    first = Method.model_validate(dict(METHOD_OF_FORMAT_1))
    points = [{"pressure_pa": pressure, "flow_m3_h": flow} for pressure, flow in FIVE[:3]]
    test = {"readings": points, "joint_length_m": 5, "air_c": 0}
    found = reading(build({"tests": {"air_leakage": test}}, method=first), "leakage_by_joint")
    assert found.value == pytest.approx(4 / 5)
    assert set(details(found)) == {"flow_at_100_pa", "joint_length_m"}


def test_a_class_that_the_unread_air_would_decide_is_not_shown() -> None:
    near = law(2 / 3, 2 * 8.8, 100, 300, 600)
    assert values(blown(near), "permeability_class") == {("overpressure",): 3}
    unread = blown(near, air_c=None)
    assert values(unread, "permeability_class") == {
        ("overpressure",): "missing air_c at tests.air_leakage.air_c"
    }
    far = law(2 / 3, 2 * 6, 100, 300, 600)
    assert values(blown(far, air_c=None, pressure_kpa=None), "permeability_class") == {("overpressure",): 3}


@pytest.mark.parametrize(
    ("at_100", "expected"),
    [(3.0, 4), (3.001, 3), (9.0, 3), (9.001, 2), (27.0, 2), (27.01, 1), (50.0, 1), (50.01, 0)],
)
def test_the_class_changes_where_its_reference_value_is_passed(at_100: float, expected: int) -> None:
    points = [(pressure, flow * (1 - 1e-12)) for pressure, flow in law(2 / 3, at_100 * 2, 100, 300, 600)]
    if expected == 1:
        points = law(2 / 3, at_100 * 2 * (1 - 1e-12), 100, 150, 300, 600)
    assert values(blown(points), "permeability_class") == {("overpressure",): expected}


def test_a_class_is_open_while_a_better_one_was_not_reached() -> None:
    work = blown(law(2 / 3, 2, 50, 100, 300))
    (outcome,) = taken(work, "permeability_class")
    assert isinstance(outcome, Missing)
    assert outcome.what == "class_open"
    assert details(outcome) == {"class_shown": 2, "highest_pa": 300}
    refuted = blown([*law(2 / 3, 2, 50, 100), (300, 100)])  # 50 m3/(h m2): beyond class 3 at 300 Pa, not 2
    assert values(refuted, "permeability_class") == {("overpressure",): 2}


def test_one_better_class_that_is_open_is_enough() -> None:
    # 5 m3/(h m2) at 100 Pa: class 4 is refuted, class 3 would need 600 Pa
    assert values(blown(law(2 / 3, 10, 50, 100, 300)), "permeability_class") == {
        ("overpressure",): "missing class_open at tests.air_leakage.readings"
    }


def test_readings_beyond_a_classs_pressure_do_not_speak_against_it() -> None:
    points = law(2 / 3, 54.02, 600, 300, 150, 100)
    assert values(blown(points), "permeability_class") == {("overpressure",): 1}


def test_readings_below_150_pa_reach_no_class() -> None:
    assert value(blown(law(0.6, 2, 50, 100, 149)), "leakage_reaches_a_class") is False
    assert value(blown(law(0.6, 2, 50, 100, -150)), "leakage_reaches_a_class") is True
    assert value(blown([]), "leakage_reaches_a_class") == "missing readings at tests.air_leakage.readings"


def test_water_and_its_duration_are_read_as_recorded() -> None:
    work = build({"tests": {"water_spray": {"water_inside": True, "minutes": 12}}})
    assert value(work, "water_inside") is True
    assert value(work, "spray_minutes") == 12
    assert isinstance(taken(work, "water_inside")[0], Reading)


def test_scipy_stays_unread_until_a_leakage_test_asks_for_it() -> None:
    code = """
import sys
from tests.builders import build, full_opening, full_site
from tests.rules.changes import shipped
from revealbook.measures.measure import measure
from revealbook.rules.judge import judge
rules, opening = shipped("published-limits"), full_opening()
def check():
    judge(rules, measure(build(opening, full_site(), rules.method), rules.measures))
    return "scipy" in sys.modules
del opening["tests"]["air_leakage"]
without = check()
opening = full_opening()
print(without, check())
"""
    done = subprocess.run(
        [sys.executable, "-c", code],
        capture_output=True,
        text=True,
        check=True,
        cwd=Path(__file__).parents[2],
    )
    assert done.stdout.split() == ["False", "True"]
