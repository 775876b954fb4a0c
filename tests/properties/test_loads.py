import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from revealbook.measures.physics.fixing_resistance import Interaction, fixings_needed, utilisation
from revealbook.measures.physics.loads import (
    dead_load_n,
    eccentric_moment_nm,
    glass_mass_kg,
    moment_tension_n,
    tributary_lengths_mm,
    wind_tensions_n,
)
from revealbook.measures.physics.support_reactions import PointLoad, SpreadLoad, support_reactions_n

sizes = st.floats(1, 5000)
forces = st.floats(0, 1e5)
uses = st.floats(0, 2)
rules = st.sampled_from(Interaction)
rows_of_places = st.lists(st.integers(0, 4000), min_size=2, max_size=6, unique=True).map(sorted)
point_loads = st.builds(PointLoad, st.floats(-500, 4500), forces)
spread_loads = st.builds(
    lambda start, length, load: SpreadLoad(start, start + length, load), st.floats(-500, 4000), sizes, forces
)


@given(rows_of_places, st.lists(point_loads | spread_loads, max_size=4))
def test_supports_carry_all_the_load_and_all_its_moment(
    supports_mm: list[int], loads: list[PointLoad | SpreadLoad]
) -> None:
    reactions = support_reactions_n(supports_mm, loads)
    middles = [
        (load.from_mm + load.to_mm) / 2 if isinstance(load, SpreadLoad) else load.at_mm for load in loads
    ]
    scale = 1 + math.fsum(abs(force) for force in reactions)
    assert math.fsum(reactions) == pytest.approx(math.fsum(load.load_n for load in loads), abs=1e-9 * scale)
    moment = math.fsum(force * at for force, at in zip(reactions, supports_mm, strict=True))
    expected = math.fsum(load.load_n * at for load, at in zip(loads, middles, strict=True))
    assert moment == pytest.approx(expected, abs=1e-5 * scale)


@given(rows_of_places, st.lists(point_loads | spread_loads, max_size=4), st.integers(-1000, 1000))
def test_reactions_do_not_depend_on_where_the_tape_starts(
    supports_mm: list[int], loads: list[PointLoad | SpreadLoad], shift_mm: int
) -> None:
    moved: list[PointLoad | SpreadLoad] = [
        SpreadLoad(load.from_mm + shift_mm, load.to_mm + shift_mm, load.load_n)
        if isinstance(load, SpreadLoad)
        else PointLoad(load.at_mm + shift_mm, load.load_n)
        for load in loads
    ]
    here = support_reactions_n(supports_mm, loads)
    there = support_reactions_n([at + shift_mm for at in supports_mm], moved)
    assert there == pytest.approx(here, rel=1e-6, abs=1e-2)


@given(rows_of_places, st.floats(0, 1), forces)
def test_a_load_between_the_supports_lifts_none(supports_mm: list[int], share: float, load_n: float) -> None:
    at_mm = supports_mm[0] + share * (supports_mm[-1] - supports_mm[0])
    reactions = support_reactions_n(supports_mm, [PointLoad(at_mm, load_n)])
    assert min(reactions) >= -1e-9 * load_n
    assert max(reactions) <= load_n * (1 + 1e-9)


@given(rows_of_places, st.floats(0, 4000), forces)
def test_mirrored_loads_give_mirrored_reactions(supports_mm: list[int], at_mm: float, load_n: float) -> None:
    straight = support_reactions_n(supports_mm, [PointLoad(at_mm, load_n)])
    mirrored = support_reactions_n(
        [4000 - at for at in reversed(supports_mm)], [PointLoad(4000 - at_mm, load_n)]
    )
    assert mirrored[::-1] == pytest.approx(straight, rel=1e-6, abs=1e-4)


@given(st.lists(st.floats(1, 20), min_size=1, max_size=4), st.floats(0.1, 10), st.floats(0.1, 10))
def test_glass_mass_is_proportional_to_area(panes_mm: list[float], area_m2: float, factor: float) -> None:
    assert glass_mass_kg(panes_mm, area_m2 * factor) == pytest.approx(
        factor * glass_mass_kg(panes_mm, area_m2)
    )
    assert glass_mass_kg(panes_mm[::-1], area_m2) == pytest.approx(glass_mass_kg(panes_mm, area_m2))


@given(st.floats(0, 1000), st.floats(0, 1000))
def test_weights_add_up(one_kg: float, other_kg: float) -> None:
    assert dead_load_n(one_kg + other_kg) == pytest.approx(dead_load_n(one_kg) + dead_load_n(other_kg))


@given(forces, st.floats(0, 500), st.floats(1, 500), st.integers(1, 20))
def test_a_couple_balances_the_moment(
    load_n: float, eccentricity_mm: float, lever_arm_mm: float, fixings: int
) -> None:
    moment_nm = eccentric_moment_nm(load_n, eccentricity_mm)
    tension_n = moment_tension_n(moment_nm, lever_arm_mm, fixings)
    assert tension_n * fixings * lever_arm_mm == pytest.approx(load_n * eccentricity_mm)


@given(rows_of_places, st.floats(-3000, 3000), sizes)
def test_fixings_hold_all_the_wind(positions_mm: list[int], pressure_pa: float, width_mm: float) -> None:
    assert math.fsum(tributary_lengths_mm(4000, positions_mm)) == pytest.approx(4000)
    forces_n = wind_tensions_n(pressure_pa, width_mm, 4000, positions_mm)
    assert math.fsum(forces_n) == pytest.approx(pressure_pa * width_mm / 1000 * 4)


@given(uses, uses, st.floats(0, 1), rules)
def test_more_load_is_never_less_use(tension: float, shear: float, extra: float, rule: Interaction) -> None:
    use = utilisation(tension, shear, rule)
    assert utilisation(tension + extra, shear, rule) >= use
    assert utilisation(tension, shear + extra, rule) >= use


@given(uses, uses)
def test_the_straight_line_is_the_strictest_rule(tension: float, shear: float) -> None:
    if utilisation(tension, shear, Interaction.LINEAR) <= 1:
        assert all(utilisation(tension, shear, rule) <= 1 + 1e-12 for rule in Interaction)


@given(uses, uses)
def test_tension_and_shear_count_alike_except_for_bolts(tension: float, shear: float) -> None:
    for rule in set(Interaction) - {Interaction.BOLT}:
        assert utilisation(tension, shear, rule) == pytest.approx(utilisation(shear, tension, rule))


@given(st.floats(0, 20), st.floats(0, 20), rules)
def test_as_many_fixings_as_needed_and_no_more(tension: float, shear: float, rule: Interaction) -> None:
    needed = fixings_needed(tension, shear, 1, 1, rule)
    assert utilisation(tension / needed, shear / needed, rule) <= 1 + 1e-6
    if needed > 1:
        assert utilisation(tension / (needed - 1), shear / (needed - 1), rule) > 1 - 1e-6
