import pytest

from revealbook.measures.physics.loads import (
    dead_load_n,
    eccentric_moment_nm,
    glass_mass_kg,
    hinge_pull_n,
    moment_tension_n,
    shear_per_fixing_n,
    tributary_lengths_mm,
    wind_tensions_n,
)


def test_the_worked_example_of_the_docs() -> None:
    """docs/calculations/loads.md: 80 kg, 120 mm out from the wall, four fixings, lever arm 60 mm."""
    load_n = dead_load_n(80)
    moment_nm = eccentric_moment_nm(load_n, 120)
    assert load_n == pytest.approx(784.532)
    assert moment_nm == pytest.approx(94.14384)
    assert moment_tension_n(moment_nm, 60, 4) == pytest.approx(392.266)
    assert shear_per_fixing_n(load_n, 4) == pytest.approx(196.133)


def test_glass_weighs_two_and_a_half_kilograms_per_square_metre_and_millimetre() -> None:
    assert glass_mass_kg([1], 1) == pytest.approx(2.5)
    assert glass_mass_kg([6, 4], 1) == pytest.approx(glass_mass_kg([5, 5], 1))


def test_each_fixing_holds_half_way_to_its_neighbours_and_the_free_ends() -> None:
    assert tributary_lengths_mm(1500, [200, 750, 1300]) == (475, 550, 475)
    assert tributary_lengths_mm(1500, [200, 750, 1400]) == (475, 600, 425)
    assert tributary_lengths_mm(1500, [400]) == (1500,)


def test_wind_on_a_jamb_is_shared_by_tributary_length() -> None:
    forces_n = wind_tensions_n(1422.37, 615, 1480, [150, 740, 1330])
    assert sum(forces_n) == pytest.approx(1422.37 * 0.615 * 1.48)
    assert forces_n[1] == pytest.approx(1422.37 * 0.615 * 0.59)
    assert forces_n[0] == forces_n[2] == pytest.approx(1422.37 * 0.615 * 0.445)


def test_the_direction_of_the_wind_passes_through() -> None:
    assert wind_tensions_n(-1000, 1000, 1000, [500]) == pytest.approx((-1000,))


def test_an_open_sash_pulls_its_upper_hinge() -> None:
    assert hinge_pull_n(40, 800, 1200) == pytest.approx(130.755, abs=5e-4)


@pytest.mark.parametrize(
    ("sentence", "call"),
    [
        ("pane_thicknesses_mm must name at least one pane", lambda: glass_mass_kg([], 1)),
        ("pane_thickness_mm must be above zero", lambda: glass_mass_kg([4, 0], 1)),
        ("area_m2 must be above zero", lambda: glass_mass_kg([4], 0)),
        ("mass_kg must not be below zero", lambda: dead_load_n(-1)),
        ("mass_kg must be a finite number", lambda: dead_load_n(float("nan"))),
        ("eccentricity_mm must not be below zero", lambda: eccentric_moment_nm(1, -1)),
        ("lever_arm_mm must be above zero", lambda: moment_tension_n(1, 0, 4)),
        ("fixings must be above zero", lambda: moment_tension_n(1, 60, 0)),
        ("moment_nm must not be below zero", lambda: moment_tension_n(-1, 60, 4)),
        ("fixings must be above zero", lambda: shear_per_fixing_n(1, 0)),
        ("load_n must not be below zero", lambda: shear_per_fixing_n(-1, 2)),
        ("position 1 must lie between 0 and 1500", lambda: tributary_lengths_mm(1500, [1501])),
        ("positions_mm must rise", lambda: tributary_lengths_mm(1500, [900, 300])),
        ("carried_width_mm must be above zero", lambda: wind_tensions_n(1, 0, 1500, [900])),
        ("pressure_pa must be a finite number", lambda: wind_tensions_n(float("inf"), 1, 1500, [900])),
        ("hinge_distance_mm must be above zero", lambda: hinge_pull_n(40, 800, 0)),
    ],
)
def test_nonsense_is_refused_in_a_plain_sentence(sentence: str, call: object) -> None:
    assert callable(call)
    with pytest.raises(ValueError, match=sentence):
        call()
