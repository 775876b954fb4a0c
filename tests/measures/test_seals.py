from typing import Any

import pytest
from tests.builders import build, details, taken, value, values

from revealbook.measures.reading import Missing
from revealbook.measures.seals import dated
from revealbook.measures.tapes import subject_of
from revealbook.measures.work import Work

SITE = {
    "instruments": [{"id": "tape-1", "measures": "length", "uncertainty": 1}],
    "products": {
        "foams": [
            {
                "id": "foam",
                "trim_after": [{"air_c": 0, "hours": 6}, {"air_c": 20, "hours": 2}],
                "needs_dampening": True,
            },
            {"id": "slow foam", "trim_after": [{"air_c": 0, "hours": 24}, {"air_c": 20, "hours": 24}]},
            {"id": "dry foam", "needs_dampening": False},
        ],
        "tapes": [{"id": "in", "sd_m": 40}, {"id": "out", "sd_m": 0.5}, {"id": "silent"}],
    },
}
INNER, FOAM, TRIM, OUTER = "inner tape", "foam", "trim", "outer tape"


def event(step: str | None, at: str | None, **keys: Any) -> dict[str, Any]:
    """Give an event; `at` is a day of November 2026 and a time, as `20 10:30`."""
    moment = None if at is None else f"2026-11-{at}+01:00".replace(" ", "T")
    product = {INNER: "in", OUTER: "out", FOAM: "foam"}.get(step or "")
    read = {"air_c": 10} if step == TRIM else {}
    return {"step": step, "at": moment, "product": product} | read | keys


def sealed(*events: dict[str, Any], secured: str | None = "20 10:00") -> Work:
    at = None if secured is None else f"2026-11-{secured}+01:00".replace(" ", "T")
    return build(
        {"window": {"secured_at": at}, "seals": {"events": list(events), "instruments": ["tape-1"]}}, SITE
    )


IN_ORDER = (
    event(INNER, "20 10:20"),
    event(FOAM, "20 11:00", air_c=10),
    event(TRIM, "20 15:30"),
    event(OUTER, "20 15:50"),
)
MEASURES = ("sealing_after_securing", "foam_after_tape", "trim_wait_margin", "tape_after_trim")


def all_of(*events: dict[str, Any]) -> dict[str, list[Any]]:
    work = sealed(*events)
    return {name: list(values(work, name).values()) for name in MEASURES}


def test_the_common_order_has_every_step_after_the_one_before() -> None:
    found = all_of(*IN_ORDER)
    assert found["sealing_after_securing"] == [pytest.approx(1 / 3)]
    assert found["foam_after_tape"] == [pytest.approx(2 / 3)]
    assert found["trim_wait_margin"] == [pytest.approx(0.5)]
    assert found["tape_after_trim"] == [pytest.approx(1 / 3)]


def test_the_order_in_which_events_are_listed_does_not_matter() -> None:
    assert all_of(*reversed(IN_ORDER)) == all_of(*IN_ORDER)
    assert all_of(IN_ORDER[2], IN_ORDER[0], IN_ORDER[3], IN_ORDER[1]) == all_of(*IN_ORDER)


def test_the_outer_tape_may_come_first() -> None:
    found = all_of(event(OUTER, "20 10:20"), *IN_ORDER[1:3], event(INNER, "20 15:50"))
    assert found == all_of(*IN_ORDER)


def test_a_reading_stands_at_the_later_event_and_names_both() -> None:
    found = taken(sealed(*IN_ORDER), "foam_after_tape")[0]
    assert found.subject == ("foam",)
    assert found.path == ("seals", "events", 1, "at")
    assert details(found) == {"from": "2026-11-20T10:20:00+01:00", "to": "2026-11-20T11:00:00+01:00"}


def test_steps_at_one_moment_break_no_order() -> None:
    work = sealed(
        event(INNER, "20 10:00"), event(FOAM, "20 10:00"), event(TRIM, "20 15:00"), event(OUTER, "20 15:00")
    )
    assert value(work, "sealing_after_securing") == 0
    assert value(work, "foam_after_tape") == 0
    assert value(work, "tape_after_trim") == 0


def test_sealing_before_the_window_is_secured_is_negative() -> None:
    assert value(sealed(event(INNER, "20 09:30")), "sealing_after_securing") == -0.5
    assert value(sealed(event(INNER, "20 11:30"), event(FOAM, "20 09:00")), "sealing_after_securing") == -1


def test_foam_before_any_tape_is_negative() -> None:
    work = sealed(event(FOAM, "20 10:00"), event(INNER, "20 11:00"), event(FOAM, "20 12:00"))
    assert [one.value for one in taken(work, "foam_after_tape")] == [-1, 1]  # type: ignore[union-attr]


def test_work_that_runs_over_two_days_keeps_its_order() -> None:
    work = sealed(
        event(INNER, "20 19:30"),
        event(FOAM, "20 20:30", air_c=10),
        event(TRIM, "21 08:00"),
        event(OUTER, "21 09:00"),
    )
    assert value(work, "foam_after_tape") == 1
    assert value(work, "trim_wait_margin") == pytest.approx(7.5)
    assert value(work, "tape_after_trim") == 1


def test_the_end_of_summer_time_costs_no_hour() -> None:
    foam = event(FOAM, None, air_c=20) | {"at": "2026-10-25T01:30+02:00"}
    trim = event(TRIM, None, air_c=20) | {"at": "2026-10-25T02:30+01:00"}
    assert value(sealed(foam, trim), "trim_wait_margin") == pytest.approx(0)


def test_trim_comes_after_the_foam_has_set() -> None:
    early = sealed(event(FOAM, "20 11:00", air_c=10), event(TRIM, "20 14:00"))
    found = taken(early, "trim_wait_margin")[0]
    assert found.value == pytest.approx(-1)  # type: ignore[union-attr]
    assert found.path == ("seals", "events", 1, "at")
    assert details(found)["needed_h"] == pytest.approx(4)


def test_trim_before_any_foam_is_negative() -> None:
    work = sealed(event(TRIM, "20 10:00"), event(FOAM, "20 11:00", air_c=10), event(TRIM, "20 16:00"))
    assert [one.value for one in taken(work, "trim_wait_margin")] == [-1, pytest.approx(1)]  # type: ignore[union-attr]


def test_foam_in_two_sessions_is_trimmed_in_two() -> None:
    work = sealed(
        event(FOAM, "20 10:00", air_c=10),
        event(TRIM, "20 16:00"),
        event(FOAM, "21 10:00", air_c=10),
        event(TRIM, "21 16:00"),
    )
    assert [one.value for one in taken(work, "trim_wait_margin")] == [pytest.approx(2), pytest.approx(2)]  # type: ignore[union-attr]


def test_the_foam_that_sets_last_decides_when_it_may_be_trimmed() -> None:
    slow = event(FOAM, "20 10:00", air_c=10, product="slow foam")
    quick = event(FOAM, "20 11:00", air_c=10)
    for foams in ((slow, quick), (quick, slow)):
        assert value(sealed(*foams, event(TRIM, "20 16:00")), "trim_wait_margin") == pytest.approx(-18)


def test_one_foam_of_unknown_kind_keeps_the_wait_from_being_shown_unless_it_was_broken_anyhow() -> None:
    unknown = event(FOAM, "20 10:30", air_c=10, product=None)
    known = event(FOAM, "20 10:00", air_c=10)
    missing = "missing trim_after at seals.events.1.product"
    assert value(sealed(known, unknown, event(TRIM, "20 16:00")), "trim_wait_margin") == missing
    assert value(sealed(known, unknown, event(TRIM, "20 11:00")), "trim_wait_margin") == pytest.approx(-3)


def test_foam_that_nobody_trimmed_is_not_shown() -> None:
    late = (*IN_ORDER, event(FOAM, "20 17:00", air_c=10))
    assert values(sealed(*late), "trim_wait_margin") == {
        ("trim",): pytest.approx(0.5),
        ("foam",): "missing trim at seals.events.4.at",
    }


def test_the_second_tape_comes_after_the_very_last_trim() -> None:
    late = (*IN_ORDER, event(TRIM, "20 16:50"))
    assert value(sealed(*late), "tape_after_trim") == -1


def test_the_second_side_may_be_closed_in_two_sessions() -> None:
    events = (*IN_ORDER, event(FOAM, "21 08:00", air_c=10), event(TRIM, "21 14:00"), event(OUTER, "21 15:00"))
    assert [one.value for one in taken(sealed(*events), "tape_after_trim")] == [pytest.approx(1 / 3), 1]  # type: ignore[union-attr]


def test_tape_on_the_second_side_before_any_trim_is_held_against_the_first_trim() -> None:
    early = event(OUTER, "20 12:00")
    events = (*IN_ORDER[:2], early, IN_ORDER[2], event(TRIM, "20 17:30"), event(OUTER, "20 18:00"))
    first_trim, *_ = [one["at"] for one in events if one["step"] == TRIM]
    found = taken(sealed(*events), "tape_after_trim")
    assert [one.value for one in found] == [pytest.approx(-3.5), 0.5]  # type: ignore[union-attr]
    assert details(found[0])["from"][:16] == first_trim[:16]


def test_more_tape_on_the_first_side_is_no_second_side() -> None:
    events = (*IN_ORDER[:3], event(INNER, "20 15:40"))
    assert value(sealed(*events), "tape_after_trim") == "missing outer tape at seals.events"
    assert value(sealed(*events), "sides_closed") == 1


def test_both_tapes_before_the_foam_are_out_of_order() -> None:
    work = sealed(
        event(INNER, "20 10:20"), event(OUTER, "20 10:30"), event(FOAM, "20 11:00"), event(TRIM, "20 15:30")
    )
    assert value(work, "tape_after_trim") == -5


@pytest.mark.parametrize(
    ("left_out", "said"),
    [
        (
            0,
            {
                "foam_after_tape": pytest.approx(-4.8333333),
                "tape_after_trim": "missing inner tape at seals.events",
            },
        ),
        (
            1,
            {
                "foam_after_tape": "missing foam at seals.events",
                "trim_wait_margin": "missing foam at seals.events",
            },
        ),
        (
            2,
            {
                "trim_wait_margin": "missing trim at seals.events",
                "tape_after_trim": "missing trim at seals.events",
            },
        ),
        (3, {"tape_after_trim": "missing outer tape at seals.events"}),
    ],
)
def test_a_step_that_was_not_recorded_is_missing(left_out: int, said: dict[str, Any]) -> None:
    found = all_of(*(one for number, one in enumerate(IN_ORDER) if number != left_out))
    assert {name: found[name] for name in said} == {name: [value] for name, value in said.items()}


@pytest.mark.parametrize("step", [0, 1, 2, 3])
def test_a_step_without_its_time_leaves_the_order_open(step: int) -> None:
    events = [one | {"at": None} if number == step else one for number, one in enumerate(IN_ORDER)]
    found = [said for said in all_of(*events).values() if said == [f"missing at at seals.events.{step}.at"]]
    assert found


@pytest.mark.parametrize(
    "name", [*MEASURES, "sides_closed", "sd_ratio", "foam_without_voids", "surfaces_dampened"]
)
def test_an_event_that_does_not_say_what_was_done_leaves_everything_open(name: str) -> None:
    assert value(sealed(*IN_ORDER, event(None, "20 17:00")), name) == "missing step at seals.events.4.step"


@pytest.mark.parametrize(
    "name", [*MEASURES, "sides_closed", "sd_ratio", "tape_corner_overlap", "surfaces_dampened"]
)
def test_without_any_word_of_sealing_nothing_is_shown(name: str) -> None:
    assert value(build(), name) == "missing events at seals.events"


def test_securing_that_was_not_recorded_is_missing() -> None:
    assert (
        value(sealed(*IN_ORDER, secured=None), "sealing_after_securing")
        == "missing secured_at at window.secured_at"
    )
    assert value(sealed(), "sealing_after_securing") == "missing inner tape at seals.events"


@pytest.mark.parametrize(
    ("steps", "sides"), [((), 0), ((INNER,), 1), ((OUTER, OUTER), 1), ((INNER, OUTER), 2), ((FOAM,), 0)]
)
def test_sides_are_closed_by_tapes(steps: tuple[str, ...], sides: int) -> None:
    assert value(sealed(*(event(step, None) for step in steps)), "sides_closed") == sides


def test_the_inner_seal_is_held_against_the_outer_one() -> None:
    found = taken(sealed(*IN_ORDER), "sd_ratio")[0]
    assert found.value == 80  # type: ignore[union-attr]
    assert details(found) == {"inner_sd_m": 40, "outer_sd_m": 0.5}
    assert found.path == ("seals", "events", 0)


def test_the_weakest_places_of_both_seals_count() -> None:
    work = sealed(
        event(INNER, None), event(INNER, None, sd_m=10), event(OUTER, None), event(OUTER, None, sd_m=20)
    )
    assert value(work, "sd_ratio") == 0.5


def test_an_sd_value_of_the_event_goes_before_that_of_the_product() -> None:
    assert value(sealed(event(INNER, None, sd_m=5), event(OUTER, None)), "sd_ratio") == 10


@pytest.mark.parametrize(
    ("events", "said"),
    [
        ((event(INNER, None, product="silent"),), "missing sd_m at seals.events.0.product"),
        ((event(INNER, None, product=None),), "missing sd_m at seals.events.0.product"),
        ((event(INNER, None),), "missing outer tape at seals.events"),
        ((event(OUTER, None),), "missing inner tape at seals.events"),
        ((event(FOAM, None),), "missing inner tape at seals.events"),
    ],
)
def test_a_ratio_needs_both_sides(events: tuple[dict[str, Any], ...], said: str) -> None:
    assert value(sealed(*events), "sd_ratio") == said


def test_overlaps_are_read_of_every_tape() -> None:
    work = sealed(event(INNER, None, corner_overlap_mm=60), event(OUTER, None), event(FOAM, None))
    assert values(work, "tape_corner_overlap") == {
        ("inner tape",): 60,
        ("outer tape",): "missing corner_overlap_mm at seals.events.1.corner_overlap_mm",
    }
    assert taken(work, "tape_corner_overlap")[0].uncertainty == 1  # type: ignore[union-attr]
    assert value(sealed(event(FOAM, None)), "tape_corner_overlap") == "missing inner tape at seals.events"


def test_voids_are_read_of_every_foaming() -> None:
    work = sealed(
        event(FOAM, None, without_voids=True), event(FOAM, None, without_voids=False), event(FOAM, None)
    )
    assert [one[1] for one in taken(work, "foam_without_voids")] == [True, False, "without_voids"]


@pytest.mark.parametrize(
    ("keys", "said"),
    [
        ({"dampened": True}, [True]),
        ({"dampened": False}, [False]),
        ({}, ["missing dampened at seals.events.0.dampened"]),
        ({"product": "dry foam"}, []),
        ({"product": "slow foam"}, ["missing needs_dampening at seals.events.0.product"]),
        ({"product": None, "dampened": True}, ["missing needs_dampening at seals.events.0.product"]),
    ],
)
def test_surfaces_are_dampened_where_the_maker_asks_for_it(keys: dict[str, Any], said: list[Any]) -> None:
    assert list(values(sealed(event(FOAM, None, **keys)), "surfaces_dampened").values()) == said


def test_tape_on_the_second_side_is_held_against_the_last_trim_before_it() -> None:
    """Two trims come before the first outer tape, and one more before the second."""
    events = (
        event(INNER, "20 10:20"),
        event(FOAM, "20 11:00", air_c=10),
        event(TRIM, "20 15:30"),
        event(TRIM, "20 16:00"),
        event(OUTER, "20 16:30"),
        event(TRIM, "20 17:00"),
        event(OUTER, "20 18:00"),
    )
    found = taken(sealed(*events), "tape_after_trim")
    assert [one.value for one in found] == [0.5, 1]  # type: ignore[union-attr]


def test_an_earlier_tape_on_the_second_side_without_a_trim_before_it_came_before_the_first_one() -> None:
    events = (*IN_ORDER[:2], event(OUTER, "20 14:30"), *IN_ORDER[2:], event(TRIM, "20 15:45"))
    found = taken(sealed(*events), "tape_after_trim")
    assert [one.value for one in found] == [-1, pytest.approx(1 / 12)]  # type: ignore[union-attr]


def test_tape_at_the_moment_of_the_trim_comes_after_it() -> None:
    events = (*IN_ORDER[:3], event(OUTER, "20 15:30"), event(TRIM, "20 15:40"), event(OUTER, "20 15:50"))
    first, _ = taken(sealed(*events), "tape_after_trim")
    assert getattr(first, "value", None) == 0


def test_a_step_that_no_event_of_a_side_did_is_missing_there() -> None:
    work = sealed(event(FOAM, "20 11:00", sides=["left"]), event(TRIM, "20 15:30", sides=["left"]))
    assert dated(work, FOAM, TRIM, side="top") == Missing(subject_of("top"), FOAM, ("seals", "events"))
    assert isinstance(dated(work, FOAM, TRIM, side="left"), list)
