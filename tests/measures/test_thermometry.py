from math import sqrt
from typing import Any

import pytest
from tests.builders import build, details, reading, taken, value

from revealbook.measures.reading import Missing
from revealbook.measures.work import Work

SITE = {"instruments": [{"id": "thermo", "measures": "temperature", "uncertainty": 0.6}]}
ROOM = {"room_air_c": 20, "room_rh_pct": 50, "room_outside_c": -5}


def warm(**keys: Any) -> Work:
    stated = {"inside_air_c": 20, "outside_air_c": -5, "surface_c": 12.6, "instruments": ["thermo"]}
    return build({"tests": {"thermometry": stated | keys}}, SITE)


def test_the_factor_is_the_surfaces_share_of_the_difference() -> None:
    assert value(warm(), "temperature_factor") == pytest.approx(17.6 / 25)
    assert value(warm(), "inside_outside_difference") == 25
    assert details(reading(warm(), "temperature_factor")) == {
        "surface_c": 12.6,
        "inside_air_c": 20,
        "outside_air_c": -5,
    }


def test_the_factor_carries_the_uncertainty_of_three_readings() -> None:
    # U = 0.6 K each: u = 0.3 K; u(f) = 0.3 sqrt(1 + f^2 + (1 - f)^2) / 25
    f = 17.6 / 25
    expected = 2 * 0.3 * sqrt(1 + f**2 + (1 - f) ** 2) / 25
    assert reading(warm(), "temperature_factor").uncertainty == pytest.approx(expected)
    assert reading(warm(), "inside_outside_difference").uncertainty == pytest.approx(0.6 * sqrt(2))
    without = reading(warm(instruments=[]), "temperature_factor").uncertainty
    assert without == pytest.approx(expected / 0.6)  # 1 K each


def test_every_temperature_that_lacks_is_named() -> None:
    work = warm(surface_c=None, inside_air_c=None, outside_air_c=None)
    lacking = [outcome.what for outcome in taken(work, "temperature_factor") if isinstance(outcome, Missing)]
    assert lacking == ["surface_c", "inside_air_c", "outside_air_c"]
    lacking = [
        outcome.what for outcome in taken(work, "inside_outside_difference") if isinstance(outcome, Missing)
    ]
    assert lacking == ["inside_air_c", "outside_air_c"]


def test_equally_warm_air_gives_no_factor() -> None:
    work = warm(outside_air_c=20)
    assert value(work, "temperature_factor") == "missing no_temperature_difference at tests.thermometry"


def test_the_room_asks_for_a_factor_of_its_own() -> None:
    """20 degC and 50 % at -5 degC: 0.7050 and 12.62 degC, recomputed in tests/outside."""
    found = reading(warm(**ROOM), "temperature_factor_reserve")
    assert found.value == pytest.approx(17.6 / 25 - 0.7050, abs=5e-5)
    assert details(found)["required_surface_c"] == pytest.approx(12.6246, abs=5e-4)
    assert found.uncertainty == reading(warm(**ROOM), "temperature_factor").uncertainty
    bathroom = reading(warm(**ROOM | {"room_air_c": 24, "room_rh_pct": 65}), "temperature_factor_reserve")
    assert float(bathroom.value) < -0.1


def test_a_room_of_which_nothing_is_stated_asks_for_nothing_and_half_a_climate_is_not_shown() -> None:
    assert value(warm(), "room_climate_stated") is False
    assert value(warm(**ROOM), "room_climate_stated") is True
    half = warm(room_rh_pct=60)
    assert value(half, "room_climate_stated") is True
    lacking = [one.what for one in taken(half, "temperature_factor_reserve") if isinstance(one, Missing)]
    assert lacking == ["room_air_c", "room_outside_c"]


def test_a_room_as_cold_as_outside_asks_for_no_factor() -> None:
    cold = warm(**ROOM | {"room_air_c": -5})
    assert value(cold, "temperature_factor_reserve") == (
        "missing no_temperature_difference at tests.thermometry"
    )
