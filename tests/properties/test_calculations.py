"""What is reckoned from records and sites: no valid record breaks it, and it moves the way physics does."""

from copy import deepcopy
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic import ValidationError
from tests.builders import build, full_opening, full_site, reading, taken, values
from tests.rules.changes import shipped

from revealbook.measures.catalogue_calculations import CALCULATIONS
from revealbook.measures.measure import measure
from revealbook.measures.reading import Reading
from revealbook.rules.judge import judge

OPENING, SITE = full_opening(), full_site()
ODD = st.sampled_from([0, 0.5, 1, 2, 10, 50, 100, 600, 1500, 6000, 15_000, -3000, -500, -20, 80]) | st.floats(
    -3000, 15_000
)


def numbers_of(data: Any, path: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    """The paths of all numbers of a record or site file."""
    if isinstance(data, int | float) and not isinstance(data, bool):
        return [path]
    inner = data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
    return [found for key, value in inner for found in numbers_of(value, (*path, key))]


def changed(data: Any, changes: dict[tuple[Any, ...], Any]) -> Any:
    data = deepcopy(data)
    for path, value in changes.items():
        holder = data
        for part in path[:-1]:
            holder = holder[part]
        holder[path[-1]] = value
    return data


def with_window(**keys: Any) -> Any:
    return OPENING | {"window": OPENING["window"] | keys}


@given(
    st.dictionaries(st.sampled_from(numbers_of(OPENING)), ODD, max_size=4),
    st.dictionaries(st.sampled_from(numbers_of(SITE)), ODD, max_size=3),
)
@settings(max_examples=300, deadline=None)
def test_whatever_numbers_a_valid_record_holds_it_is_measured_and_judged(ours: Any, sites: Any) -> None:
    rules = shipped("published-limits")
    try:
        work = build(changed(OPENING, ours), changed(SITE, sites), rules.method)
    except ValidationError:
        return
    assert len(judge(rules, measure(work, rules.measures))) == len(rules.rules)
    for one in CALCULATIONS:
        assert taken(work, one.name)


@given(
    st.lists(
        st.fixed_dictionaries({"pressure_pa": st.floats(-3000, 3000), "flow_m3_h": st.floats(0, 10_000)}),
        max_size=6,
    )
)
@settings(max_examples=300, deadline=None)
def test_whatever_was_read_in_a_leakage_test_is_measured_and_judged(readings: Any) -> None:
    rules = shipped("published-limits")
    tests = {"air_leakage": {"area_m2": 2, "joint_length_m": 5, "readings": readings}}
    work = build(OPENING | {"tests": tests}, SITE, rules.method)
    assert len(judge(rules, measure(work, rules.measures))) == len(rules.rules)


@given(st.floats(30, 1000), st.floats(1.01, 3))
@settings(max_examples=40, deadline=None)
def test_the_weights_share_grows_with_the_mass(mass_kg: float, factor: float) -> None:
    light, heavy = (build(with_window(mass_kg=one), SITE) for one in (mass_kg, mass_kg * factor))
    for name in ("eccentric_moment", "support_load", "fixing_shear"):
        once, more = values(light, name), values(heavy, name)
        assert more == {subject: pytest.approx(value * factor) for subject, value in once.items()}


@given(st.floats(10, 60), st.floats(1.01, 1.3))
@settings(max_examples=40, deadline=None)
def test_suction_grows_with_the_square_of_the_wind(velocity: float, factor: float) -> None:
    def at(speed: float) -> float:
        site = changed(SITE, {("exposure", "basic_wind_velocity_m_s"): speed})
        return float(reading(build(OPENING, site), "wind_suction").value)

    assert at(velocity * factor) == pytest.approx(at(velocity) * factor**2)


@given(st.floats(0, 20), st.floats(0, 20))
@settings(max_examples=40, deadline=None)
def test_an_opening_farther_from_the_corner_is_sucked_no_harder(first: float, second: float) -> None:
    def at(distance: float) -> float | None:
        (found,) = taken(
            build(changed(OPENING, {("opening", "distance_from_corner_m"): distance}), SITE), "wind_suction"
        )
        return float(found.value) if isinstance(found, Reading) else None

    near, far = at(min(first, second)), at(max(first, second))
    assert near is None or far is None or far <= near + 1e-9


@given(st.floats(-30, 30))
@settings(max_examples=40, deadline=None)
def test_sums_move_with_the_size_that_was_mistyped(slip_mm: float) -> None:
    before = {one.subject: one for one in taken(build(OPENING, SITE), "width_sum_error")}
    work = build(with_window(width_mm=2376 + slip_mm), SITE)
    for subject, error in values(work, "width_sum_error").items():
        assert abs(error - abs(slip_mm)) <= float(before[subject].value) + 1e-9  # type: ignore[union-attr]


@given(st.floats(1, 300), st.floats(1.01, 3))  # three cartridges hold 930 ml
@settings(max_examples=40, deadline=None)
def test_ratios_are_in_proportion_to_what_was_used(used_ml: float, factor: float) -> None:
    def ratios(ml: float) -> list[float]:
        paths = {("frame", "bonding", 0, "used_ml"): ml, ("seals", "events", 1, "used_ml"): ml}
        work = build(changed(OPENING, paths), SITE)
        return [float(reading(work, name).value) for name in ("adhesive_ratio", "foam_ratio")]

    assert ratios(used_ml * factor) == pytest.approx([one * factor for one in ratios(used_ml)])
