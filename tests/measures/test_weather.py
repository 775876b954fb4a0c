from math import sqrt
from typing import Any

import pytest
from tests.builders import bonded as applied
from tests.builders import build, details, taken, values

from revealbook.measures.method import Method
from revealbook.measures.physics.dew_point import Phase, dew_point_c
from revealbook.measures.reading import Reading
from revealbook.measures.work import Work

SITE = {
    "instruments": [
        {"id": "thermo", "measures": "temperature", "uncertainty": 0.5},
        {"id": "hygro", "measures": "humidity", "uncertainty": 3},
    ],
    "products": {
        "adhesives": [
            {
                "id": "bond",
                "air_min_c": 5,
                "air_max_c": 35,
                "surface_min_c": 5,
                "rh_max_pct": 85,
                "open_minutes": 20,
            },
            {"id": "hot only", "air_max_c": 35, "surface_max_c": 40, "rh_min_pct": 30},
            {"id": "silent"},
        ],
        "foams": [{"id": "foam", "air_min_c": 5, "air_max_c": 30}],
        "tapes": [{"id": "tape", "air_min_c": 0}],
    },
}


def bonded(events: list[dict[str, Any]] | None = None, **keys: Any) -> Work:
    opening: dict[str, Any] = {"frame": {"bonding": applied(**({"product": "bond"} | keys))}}
    if events is not None:
        opening["seals"] = {"events": events}
    return build(opening, SITE)


def bonding(work: Work, name: str) -> Any:
    return values(work, name)["bonding",]


@pytest.mark.parametrize(("air", "margin"), [(8.5, 3.5), (5, 0), (4.5, -0.5), (33, 2), (36, -1)])
def test_air_is_held_against_the_nearer_end_of_the_range(air: float, margin: float) -> None:
    assert bonding(bonded(air_c=air), "air_margin") == margin


def test_a_range_that_is_open_above_bounds_below() -> None:
    assert bonding(bonded(surface_c=50), "surface_margin") == 45


def test_a_temperature_without_its_lower_end_shows_nothing() -> None:
    work = bonded(product="hot only", air_c=-20, surface_c=-20)
    assert bonding(work, "air_margin") == "missing air_min_c at frame.bonding.0.product"
    assert bonding(work, "surface_margin") == "missing surface_min_c at frame.bonding.0.product"


def test_a_humidity_may_be_bounded_at_one_end_only() -> None:
    assert bonding(bonded(rh_pct=80), "humidity_margin") == 5
    assert bonding(bonded(product="hot only", rh_pct=25), "humidity_margin") == -5
    assert bonding(bonded(product="silent", rh_pct=25), "humidity_margin") == (
        "missing rh_min_pct at frame.bonding.0.product"
    )


def test_a_margin_names_the_end_it_was_held_against() -> None:
    found = taken(bonded(air_c=33), "air_margin")[0]
    assert details(found) == {"air_c": 33, "air_max_c": 35}
    assert found.path == ("frame", "bonding", 0, "air_c")


@pytest.mark.parametrize(
    ("name", "key"), [("air_margin", "air_c"), ("surface_margin", "surface_c"), ("humidity_margin", "rh_pct")]
)
def test_weather_that_was_not_read_is_missing(name: str, key: str) -> None:
    assert bonding(bonded(), name) == f"missing {key} at frame.bonding.0.{key}"
    assert bonding(build(), name) == "missing bonding at frame.bonding"


def test_every_tape_and_foam_is_held_against_its_own_product_and_trim_is_not() -> None:
    events = [
        {"step": "inner tape", "product": "tape", "air_c": 3},
        {"step": "foam", "product": "foam", "air_c": 3},
        {"step": "trim", "air_c": -9},
        {"step": "outer tape", "product": "tape", "air_c": -1},
    ]
    found = values(bonded(events, air_c=10), "air_margin")
    assert found == {("bonding",): 5, ("inner tape",): 3, ("foam",): -2, ("outer tape",): -1}


def test_an_event_of_unknown_kind_is_not_shown() -> None:
    found = values(bonded([{"product": "tape", "air_c": 3}], air_c=10), "air_margin")
    assert found["event 1",] == "missing step at seals.events.0.step"


@pytest.mark.parametrize("events", [None, []])
def test_without_any_event_the_weather_of_sealing_is_not_shown(events: list[dict[str, Any]] | None) -> None:
    for name in ("air_margin", "dew_point_margin", "expiry_margin"):
        assert values(bonded(events), name)[()] == "missing events at seals.events"


def test_the_surface_is_held_against_the_dew_point_of_the_air() -> None:
    work = bonded(air_c=8.5, rh_pct=72, surface_c=7.9)
    found = taken(work, "dew_point_margin")[0]
    assert found.value == pytest.approx(7.9 - dew_point_c(8.5, 72))  # type: ignore[union-attr]
    assert details(found)["dew_point_c"] == pytest.approx(dew_point_c(8.5, 72))
    assert found.uncertainty is not None  # type: ignore[union-attr]  # though no instrument is named


HYGROMETERS = {
    "instruments": [
        {"id": "unsaid", "measures": "humidity", "uncertainty": 3},
        {"id": "over water", "measures": "humidity", "uncertainty": 3, "rh_refers_to": "water"},
        {"id": "over ice", "measures": "humidity", "uncertainty": 3, "rh_refers_to": "ice"},
    ]
}


@pytest.mark.parametrize(
    ("tools", "over"),
    [
        ([], "water"),
        (["unsaid"], "water"),
        (["over water"], "water"),
        (["over ice"], "ice"),
        (["over ice", "unsaid"], "water"),
    ],
)
def test_humidity_in_frost_refers_to_water_unless_the_meter_says_ice(tools: list[str], over: Phase) -> None:
    read = {"air_c": -8, "rh_pct": 90, "surface_c": -5}
    work = build({"frame": {"instruments": tools, "bonding": applied(**read)}}, HYGROMETERS)
    assert bonding(work, "dew_point_margin") == pytest.approx(-5 - dew_point_c(-8, 90, over))


def test_rule_sets_of_format_1_take_humidity_in_frost_to_refer_to_ice() -> None:
    read = {"air_c": -8, "rh_pct": 90, "surface_c": -5}
    work = build({"frame": {"bonding": applied(**read)}}, HYGROMETERS, Method(computations=1))
    assert bonding(work, "dew_point_margin") == pytest.approx(-5 - dew_point_c(-8, 90, "ice"))


def products_margin(asked: float | None, method: Method | None = None, **read: Any) -> list[dict[Any, Any]]:
    site = {"products": {"adhesives": [{"id": "bond", "dew_margin_k": asked}]}}
    opening = {
        "frame": {"bonding": applied(**({"product": "bond"} | read))},
        "seals": {"events": [{"step": "trim"}]},
    }
    work = build(opening, site, method)
    return [values(work, name) for name in ("dew_point_margin", "products_dew_point_margin")]


def test_the_margin_of_the_data_sheet_governs_in_place_of_the_rule_sets() -> None:
    read: dict[str, Any] = {"air_c": 8.5, "rh_pct": 72, "surface_c": 7.9}
    margin = 7.9 - dew_point_c(8.5, 72)
    assert products_margin(5, **read) == [{}, {("bonding",): pytest.approx(margin - 5)}]
    assert products_margin(None, **read) == [{("bonding",): pytest.approx(margin)}, {}]
    assert products_margin(5, Method(computations=1), **read)[0] == {("bonding",): pytest.approx(margin)}


def test_a_product_nobody_named_may_have_a_margin_of_its_own() -> None:
    found = products_margin(5, product=None, air_c=8.5, rh_pct=72, surface_c=7.9)[1]
    assert found == {("bonding",): "missing product at frame.bonding.0.product"}


@pytest.mark.parametrize("key", ["air_c", "rh_pct", "surface_c"])
def test_the_dew_point_needs_all_three_readings(key: str) -> None:
    read: dict[str, Any] = {"air_c": 8.5, "rh_pct": 72, "surface_c": 7.9}
    work = bonded(**(read | {key: None}))
    assert bonding(work, "dew_point_margin") == f"missing {key} at frame.bonding.0.{key}"


def dew_uncertainty(*tools: str) -> float:
    opening = {"frame": {"instruments": tools, "bonding": applied(air_c=20, rh_pct=50, surface_c=15)}}
    found = taken(build(opening, SITE), "dew_point_margin")[0]
    assert isinstance(found, Reading)
    assert found.uncertainty is not None
    return found.uncertainty


def test_the_dew_point_is_as_uncertain_as_both_instruments() -> None:
    assert sqrt(0.5**2 + 0.5**2) * 0.9 < dew_uncertainty("thermo", "hygro") < 2


def test_each_instrument_left_out_makes_the_dew_point_less_certain() -> None:
    both = dew_uncertainty("thermo", "hygro")
    assert both < dew_uncertainty("thermo") < dew_uncertainty()
    assert both < dew_uncertainty("hygro") < dew_uncertainty()


@pytest.mark.parametrize(
    ("used", "days"),
    [("2026-11-20T09:00+01:00", 131), ("2027-03-31T23:59+02:00", 0), ("2027-04-01T00:01+02:00", -1)],
)
def test_a_product_may_be_used_to_the_end_of_its_last_day(used: str, days: float) -> None:
    assert bonding(bonded(laid_at=used, batches=[{"expires": "2027-03-31"}]), "expiry_margin") == days


def test_the_use_by_date_and_the_day_of_use_must_both_be_known() -> None:
    assert (
        bonding(bonded(laid_at="2026-11-20T09:00Z"), "expiry_margin")
        == "missing expires at frame.bonding.0.batches"
    )
    assert bonding(bonded(batches=[{"expires": "2027-03-31"}]), "expiry_margin") == (
        "missing at at frame.bonding.0.laid_at"
    )


@pytest.mark.parametrize(("pressed", "left"), [("09:34", 6), ("09:40", 0), ("09:45", -5), ("09:20", 20)])
def test_pieces_are_pressed_on_within_the_open_time(pressed: str, left: float) -> None:
    work = bonded(laid_at="2026-11-19T09:20+01:00", pressed_at=f"2026-11-19T{pressed}+01:00")
    assert bonding(work, "open_time_left") == left


@pytest.mark.parametrize(
    ("keys", "said"),
    [
        ({"pressed_at": "2026-11-19T09:34Z"}, "missing at at frame.bonding.0.laid_at"),
        ({"laid_at": "2026-11-19T09:20Z"}, "missing pressed_at at frame.bonding.0.pressed_at"),
        (
            {"laid_at": "2026-11-19T09:20Z", "pressed_at": "2026-11-19T09:34Z", "product": "silent"},
            "missing open_minutes at frame.bonding.0.product",
        ),
        (
            {"laid_at": "2026-11-19T09:20Z", "pressed_at": "2026-11-19T09:19Z"},
            "missing pressed_before_laid at frame.bonding.0.pressed_at",
        ),
    ],
)
def test_an_open_time_that_cannot_be_told_is_not_shown(keys: dict[str, Any], said: str) -> None:
    assert bonding(bonded(**keys), "open_time_left") == said
