"""Published and hand-worked values once more, reached through a record, a site and a rule of a shipped set.

What the formulas give is tested beside them; here a wrong key, unit or factor on the way would show.
"""

from typing import Any

import pytest
from numpy import log
from scipy.stats import linregress
from tests.builders import build, details, reading, taken, values
from tests.rules.changes import bare, shipped

from revealbook.measures.measure import measure
from revealbook.measures.method import Method
from revealbook.measures.reading import Reading
from revealbook.measures.work import Work
from revealbook.rules.finding import Outcome
from revealbook.rules.judge import judge

UNFACTORED = Method(gamma_dead=1, gamma_wind=1)


def outcome(work: Work, rule: str) -> Outcome:
    """Give what the limit alone says: the published values have no instrument."""
    rules = bare(shipped("published-limits"))
    found = {one.rule_id: one.outcome for one in judge(rules, measure(work, rules.measures))}
    return found[rule]


def measured(surface_c: float, inside_c: float = 20, outside_c: float = -5) -> Work:
    stated = {"surface_c": surface_c, "inside_air_c": inside_c, "outside_air_c": outside_c}
    return build({"tests": {"thermometry": stated}})


@pytest.mark.parametrize(
    ("surface_c", "inside_c", "outside_c", "factor", "met"),
    [
        (12.6, 20, -5, 0.704, True),
        (12.5, 20, -5, 0.700, True),
        (12.55, 20, -5, 0.702, True),
        (9.3, 20, -5, 0.572, False),
        (14.3, 21.5, 1.2, 0.645320, False),
    ],
)
def test_the_rule_judges_the_factor_of_070_and_not_126_degc(
    surface_c: float, inside_c: float, outside_c: float, factor: float, met: bool
) -> None:
    """DIN 4108-2:2013-02 (published, secondary source); 12.55 degC meets 0.70 and misses 12.6 degC."""
    work = measured(surface_c, inside_c, outside_c)
    assert reading(work, "temperature_factor").value == pytest.approx(factor, abs=5e-7)
    assert (outcome(work, "temperature-factor") is Outcome.CONFORMS) is met


def test_a_leakage_test_is_fitted_as_scipy_fits_it() -> None:
    """The second reference set (computed with scipy 1.17.1): r2 0.997669, n 0.651793."""
    points = [(12.0, 31.0), (19.5, 43.5), (30.2, 55.2), (40.1, 69.0), (49.6, 77.0), (61.3, 91.5)]
    readings = [{"pressure_pa": pressure, "flow_m3_h": flow} for pressure, flow in points]
    work = build({"tests": {"air_leakage": {"area_m2": 2, "joint_length_m": 5, "readings": readings}}})
    other = linregress(log([pressure for pressure, _ in points]), log([flow for _, flow in points]))
    assert reading(work, "leakage_exponent").value == pytest.approx(other.slope, abs=1e-9)
    assert reading(work, "leakage_r2").value == pytest.approx(other.rvalue**2, abs=1e-9)
    assert outcome(work, "leakage-exponent") is Outcome.CONFORMS
    assert outcome(work, "leakage-fit") is Outcome.CONFORMS
    assert outcome(work, "joint-airtight") is Outcome.NOT_SHOWN  # read to 61.3 Pa: 100 Pa is extrapolated


@pytest.mark.parametrize(
    ("flow_at_600_pa", "number"),
    [(9.90, 4), (9.91, 3)],
)
def test_the_class_turns_at_the_limit_of_600_pa(flow_at_600_pa: float, number: int) -> None:
    """EN 12207 (published, secondary source), exponent from memory; class 4 at 600 Pa: 9.9058 m3/(h m2)."""
    points = [(100.0, 2.9), (300.0, 6.0), (600.0, flow_at_600_pa)]
    readings = [{"pressure_pa": pressure, "flow_m3_h": flow} for pressure, flow in points]
    test = {"area_m2": 1, "readings": readings, "air_c": 19.85, "pressure_kpa": 101.3}
    work = build({"tests": {"air_leakage": test}})
    assert reading(work, "permeability_class").value == number


def fixed(mass_kg: float, eccentricity_mm: float, *, profile_mm: float, at_mm: list[float]) -> Work:
    bottom = {
        "profile": "p",
        "length_mm": 1400,
        "fixings": [{"at_mm": at_mm, "product": "s"}],
    }
    opening = {
        "opening": {"mark": "W-1", "building": "A", "distance_from_corner_m": 1},
        "frame": {"pieces": {"bottom": bottom}},
        "window": {
            "width_mm": 1230,
            "height_mm": 1480,
            "mass_kg": mass_kg,
            "centre_from_wall_mm": eccentricity_mm,
            "out_of_place_mm": 0,
        },
        "supports": {"called_for": False},
    }
    site: dict[str, Any] = {
        "buildings": [{"name": "A", "width_m": 10, "depth_m": 10, "height_m": 10}],
        "exposure": {"basic_wind_velocity_m_s": 25, "terrain": "II"},
        "products": {"profiles": [{"id": "p", "width_mm": profile_mm}]},
    }
    return build(opening, site, UNFACTORED)


def test_weight_standing_out_from_the_wall() -> None:
    """80 kg, e 0.12 m, four fixings, lever arm 0.06 m: M 94.1438 Nm, T 392.266 N, V 196.133 N (by hand)."""
    work = fixed(80, 120, profile_mm=120, at_mm=[200, 500, 800, 1100])
    assert reading(work, "eccentric_moment").value == pytest.approx(94.1438, abs=5e-5)
    assert values(work, "fixing_shear")["bottom",] == pytest.approx(196.133, abs=5e-4)
    # without wind the tension would be 392.266 N; the strip of 0.615 m over 0.45 m adds the wind
    wind = float(reading(work, "wind_suction").value) * 0.615 * 0.45
    assert values(work, "fixing_tension")["bottom",] == pytest.approx(392.266 + wind, abs=1e-3)


def test_suction_of_the_published_peak_pressure_in_zone_a() -> None:
    """EN 1991-1-4 (published): qp 918.863 N/m2 for 25 m/s, terrain II, 10 m; cpe,1 -1.4, cpi +0.2."""
    work = fixed(80, 120, profile_mm=120, at_mm=[200, 1100])
    assert reading(work, "wind_suction").value == pytest.approx(918.863 * 1.6, rel=1e-6)


@pytest.mark.parametrize(("joint_mm", "met"), [(8.4, True), (8.3, False)])
def test_the_joint_of_a_pvc_frame_by_the_worst_one_way_movement(joint_mm: float, met: bool) -> None:
    """PVC-U 2.0 m, half to each side, +30 and -25 K, class 25: 8.4 mm (by hand; ASTM C1472's idea).

    The window is 1.0 m high and stands on packers, so that its head joint takes as much as the sides.
    """
    joint = {"start": joint_mm, "middle": joint_mm, "end": joint_mm}
    window = {
        "width_mm": 2000,
        "height_mm": 1000,
        "frame_material": "PVC-U",
        "frame_colour": "white",
        "frame_temperature_c": 15,
        "joint_widths_mm": dict.fromkeys(("left", "right", "top", "bottom"), joint),
    }
    site = {
        "exposure": {"coldest_frame_c": -10, "warmest_frame_c": 45},
        "products": {"foams": [{"id": "f", "movement_pct": 25}]},
    }
    method = Method(warmest_white_c=45)
    work = build({"window": window, "seals": {"events": [{"step": "foam", "product": "f"}]}}, site, method)
    reserves = values(work, "movement_reserve")
    for side in ("left", "right", "top"):
        assert reserves[side,] == pytest.approx(joint_mm * 0.25 - 2.1)
    assert (outcome(work, "joint-movement") is Outcome.CONFORMS) is met


def test_glass_of_a_published_example_weighs_54_kg() -> None:
    """1.20 x 1.50 m, three panes of 4 mm, 2500 kg/m3 (EN 572-1, published)."""
    work = build({"window": {"glass_panes_mm": [4, 4, 4], "glass_area_m2": 1.8, "mass_kg": 54}})
    assert reading(work, "mass_beyond_glass").value == pytest.approx(0, abs=1e-9)


def test_the_pull_of_an_open_sash_on_its_upper_hinge() -> None:
    """40 kg, 0.8 m wide, hinges 1.2 m apart: 130.755 N (worked by hand); 0.221 of 800 N with 1.35."""
    fixing = {"id": "s", "tension_design_n": 800, "shear_design_n": 1100}
    window = {
        "opening_kind": "side hung",
        "mass_kg": 40,
        "width_mm": 800,
        "hinge_distance_mm": 1200,
        "fixings": [{"side": "left", "product": "s"}],
    }
    work = build({"window": window}, {"products": {"fixings": [fixing]}})
    assert reading(work, "hinge_pull").value == pytest.approx(130.755, abs=5e-4)
    assert reading(work, "hinge_corner_use").value == pytest.approx(1.35 * 130.755 / 800, abs=1e-6)


def test_the_sun_on_a_frame_by_its_colour() -> None:
    """EN 1991-1-5 table 5.2, south-west and light construction: 18, 30 and 42 K.

    Published (secondary source: an ordinance that quotes them); 37 degC in the shade is from memory.
    """
    method = Method()
    assert (method.warmest_white_c, method.warmest_light_c, method.warmest_dark_c) == (
        37 + 18,
        37 + 30,
        37 + 42,
    )


def test_the_own_reaction_of_an_opening_of_the_example() -> None:
    """Opening A-0.01 as it stood, by hand: 423 N on support 1, two fixings, V 285.5 N, T 392.6 N.

    That is a linear use of 0.396, where the weight shared alike gave 0.200.
    """
    screws = [{"at_mm": [170, 655, 1140, 1625], "product": "s"}]
    placed = [{"centre_mm": at, "holes": 2, "fixed_to_wall": True, "gap_mm": 0} for at in (239, 1544)]
    opening = fixed(87, 55, profile_mm=80, at_mm=[]).opening.model_dump(exclude_none=True)
    opening["frame"]["pieces"]["bottom"] |= {"length_mm": 1795, "overlap_left_mm": 82, "fixings": screws}
    opening["window"] |= {"width_mm": 1606, "height_mm": 1358, "joint_widths_mm": {"left": {"start": 12}}}
    opening["supports"] = {"placed": [one | {"fixings": {"product": "s"}} for one in placed]}
    screw = {"id": "s", "tension_design_n": 1600, "shear_design_n": 1900}
    site = {
        "buildings": [{"name": "A", "width_m": 10, "depth_m": 10, "height_m": 10}],
        "exposure": {"basic_wind_velocity_m_s": 25, "terrain": "II"},
        "products": {"profiles": [{"id": "p", "width_mm": 80}], "fixings": [screw]},
    }
    work = build(opening, site)
    assert values(work, "support_load")["support 1",] == pytest.approx(423, abs=0.5)
    assert values(work, "fixing_shear")["support 1",] == pytest.approx(285.5, abs=0.05)
    assert values(work, "fixing_tension")["support 1",] == pytest.approx(392.6, abs=0.05)
    (used,) = [one for one in taken(work, "fixing_use") if one.subject == ("support 1",)]
    assert isinstance(used, Reading)
    assert used.value == pytest.approx(0.396, abs=5e-4)
    assert details(used)["shared_use"] == pytest.approx(0.200, abs=5e-4)
