import pytest

from revealbook.measures.physics.loads import (
    cantilever_deflection_mm,
    cantilever_rotation_mrad,
    dead_load_n,
    eccentric_moment_nm,
    glass_mass_kg,
    hinge_pull_n,
    moment_tension_n,
    rigid_tensions_n,
    shear_per_fixing_n,
    tributary_lengths_mm,
    wind_tensions_n,
    window_mass_kg,
)


def test_the_worked_example_of_the_docs() -> None:
    """docs/calculations/loads.md: 80 kg, 120 mm out from the wall, four fixings, lever arm 60 mm."""
    load_n = dead_load_n(80)
    moment_nm = eccentric_moment_nm(load_n, 120)
    assert load_n == pytest.approx(784.532)
    assert moment_nm == pytest.approx(94.14384)
    assert moment_tension_n(moment_nm, 60, 4) == pytest.approx(392.266)
    assert shear_per_fixing_n(load_n, 4) == pytest.approx(196.133)


def test_the_worked_example_of_the_docs_for_the_mass() -> None:
    """docs/calculations/loads.md: 1.20 x 1.50 m of glass, 3 x 4 mm; 6.6 m of frame at 2.5 kg/m; 3 kg more."""
    glass_kg = glass_mass_kg([4, 4, 4], 1.2 * 1.5)
    assert glass_kg == pytest.approx(54)
    assert window_mass_kg(glass_kg, 6.6, 2.5, hardware_kg=3) == pytest.approx(73.5)


def test_glass_weighs_two_and_a_half_kilograms_per_square_metre_and_millimetre() -> None:
    assert glass_mass_kg([1], 1) == pytest.approx(2.5)
    assert glass_mass_kg([6, 4], 1) == pytest.approx(glass_mass_kg([5, 5], 1))


def test_a_window_without_hardware_is_glass_and_frame() -> None:
    assert window_mass_kg(50, 0, 2.5) == 50
    assert window_mass_kg(0, 4, 2.5) == 10


def test_a_rigid_part_pulls_its_farthest_fixings_hardest() -> None:
    near, far = rigid_tensions_n(200, [50, 150])
    assert (near, far) == pytest.approx((400, 1200))
    assert near * 0.05 + far * 0.15 == pytest.approx(200)


def test_a_fixing_at_the_pressed_edge_takes_no_tension() -> None:
    assert rigid_tensions_n(100, [0, 100]) == pytest.approx((0, 1000))


def test_equal_lever_arms_share_a_moment_alike() -> None:
    assert rigid_tensions_n(94.14384, [60] * 4) == pytest.approx([moment_tension_n(94.14384, 60, 4)] * 4)


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


def test_a_bracket_sinks_and_turns_at_its_loaded_end() -> None:
    bracket = (392.266, 160, 70000, 8000)
    assert cantilever_deflection_mm(*bracket) == pytest.approx(0.956382, abs=5e-7)
    assert cantilever_rotation_mrad(*bracket) == pytest.approx(8.966080, abs=5e-7)


def test_twice_the_length_sinks_eight_times_and_turns_four_times_as_far() -> None:
    assert cantilever_deflection_mm(100, 200, 70000, 8000) == pytest.approx(
        8 * cantilever_deflection_mm(100, 100, 70000, 8000)
    )
    assert cantilever_rotation_mrad(100, 200, 70000, 8000) == pytest.approx(
        4 * cantilever_rotation_mrad(100, 100, 70000, 8000)
    )


def test_an_open_sash_pulls_its_upper_hinge() -> None:
    assert hinge_pull_n(40, 800, 1200) == pytest.approx(130.755, abs=5e-4)


@pytest.mark.parametrize(
    ("sentence", "call"),
    [
        ("pane_thicknesses_mm must name at least one pane", lambda: glass_mass_kg([], 1)),
        ("pane_thickness_mm must be above zero", lambda: glass_mass_kg([4, 0], 1)),
        ("area_m2 must be above zero", lambda: glass_mass_kg([4], 0)),
        ("frame_kg_per_m must not be below zero", lambda: window_mass_kg(1, 1, -1)),
        ("hardware_kg must not be below zero", lambda: window_mass_kg(1, 1, 1, -1)),
        ("mass_kg must not be below zero", lambda: dead_load_n(-1)),
        ("mass_kg must be a finite number", lambda: dead_load_n(float("nan"))),
        ("eccentricity_mm must not be below zero", lambda: eccentric_moment_nm(1, -1)),
        ("lever_arm_mm must be above zero", lambda: moment_tension_n(1, 0, 4)),
        ("fixings must be above zero", lambda: moment_tension_n(1, 60, 0)),
        ("moment_nm must not be below zero", lambda: moment_tension_n(-1, 60, 4)),
        ("at least one fixing away from the pressed edge", lambda: rigid_tensions_n(1, [])),
        ("at least one fixing away from the pressed edge", lambda: rigid_tensions_n(1, [0, 0])),
        ("lever_arm_mm must not be below zero", lambda: rigid_tensions_n(1, [-50, 50])),
        ("moment_nm must not be below zero", lambda: rigid_tensions_n(-1, [50])),
        ("fixings must be above zero", lambda: shear_per_fixing_n(1, 0)),
        ("load_n must not be below zero", lambda: shear_per_fixing_n(-1, 2)),
        ("position 1 must lie between 0 and 1500", lambda: tributary_lengths_mm(1500, [1501])),
        ("positions_mm must rise", lambda: tributary_lengths_mm(1500, [900, 300])),
        ("carried_width_mm must be above zero", lambda: wind_tensions_n(1, 0, 1500, [900])),
        ("pressure_pa must be a finite number", lambda: wind_tensions_n(float("inf"), 1, 1500, [900])),
        ("inertia_mm4 must be above zero", lambda: cantilever_deflection_mm(1, 1, 1, 0)),
        ("load_n must not be below zero", lambda: cantilever_deflection_mm(-1, 1, 1, 1)),
        ("length_mm must be above zero", lambda: cantilever_rotation_mrad(1, 0, 1, 1)),
        ("hinge_distance_mm must be above zero", lambda: hinge_pull_n(40, 800, 0)),
    ],
)
def test_nonsense_is_refused_in_a_plain_sentence(sentence: str, call: object) -> None:
    assert callable(call)
    with pytest.raises(ValueError, match=sentence):
        call()
