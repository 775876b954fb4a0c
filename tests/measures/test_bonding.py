"""Which application holds each part now, and what follows for its waits, weather and open time."""

from typing import Any

import pytest
from tests.builders import bonded, build, taken, values

from revealbook.measures.bonding import adhesives, carrying, lasting
from revealbook.measures.reading import Missing
from revealbook.measures.work import Work

SITE = {
    "products": {
        "adhesives": [
            {"id": "bond", "open_minutes": 20, "air_min_c": 5, "moisture_max_pct": 4, "needs_primer": False,
             "load_after": [{"air_c": 0, "hours": 24}, {"air_c": 30, "hours": 24}],
             "cover_after": [{"air_c": 0, "hours": 48}, {"air_c": 30, "hours": 48}]},
            {"id": "other", "open_minutes": 5, "moisture_max_pct": 2, "needs_primer": True},
        ]
    }
}  # fmt: skip
DAY = "2026-11-19T{}+01:00"


def application(*of: str, laid: str = "09:00", pressed: str | None = "09:15", **keys: Any) -> dict[str, Any]:
    at = pressed and DAY.format(pressed)
    return {
        "of": list(of),
        "product": "bond",
        "laid_at": DAY.format(laid),
        "pressed_at": at,
        "air_c": 10,
    } | keys


BY_PIECE = [
    application("bottom", laid="09:00", pressed="09:15"),
    application("left", laid="09:18", pressed="09:33"),
    application("right", laid="09:36", pressed="09:51"),
    application("top", laid="09:54", pressed="10:10"),
]
ALL = application("bottom", "left", "right", "top")
READ_AT = ("19T18", "20T04", "20T13", "20T23", "21T08", "21T13")
STEADY = [{"at": f"2026-11-{at}:00+01:00", "air_c": 10} for at in READ_AT]


def work(*bonding: dict[str, Any], anew: list[dict[str, Any]] | None = None, **more: Any) -> Work:
    opening: dict[str, Any] = {
        "frame": {"bonding": list(bonding)},
        "window": {"set_at": "2026-11-20T12:00+01:00"},
        "covering": {"at": "2026-11-21T12:00+01:00"},
        "climate": STEADY,
        **more,
    }
    if anew is not None:
        opening["nonconformities"] = [{"id": "NC-1", "what": "out of level", "correction": {"bonding": anew}}]
    return build(opening, SITE)


def held(of: Work) -> dict[tuple[str, ...], Any]:
    return {
        one.subject: f"missing {one.what}" if isinstance(one, Missing) else f"{one.pressed_at:%H:%M}"
        for one in lasting(of)
    }


def test_one_application_of_all_four_pieces_is_the_bond_as_a_whole() -> None:
    assert held(work(ALL)) == {("bonding",): "09:15"}


def test_pieces_bonded_one_by_one_have_each_their_own_time() -> None:
    assert list(held(work(*BY_PIECE)).values()) == ["09:15", "09:33", "09:51", "10:10"]


def test_a_piece_bonded_anew_counts_from_then_and_the_others_from_before() -> None:
    again = application("left", laid="14:00", pressed="14:12")
    assert held(work(ALL, anew=[again])) == {
        ("bonding", "bottom", "right", "top"): "09:15",
        ("bonding", "left"): "14:12",
    }
    assert held(work(again, ALL)) == held(work(ALL, anew=[again]))


def test_a_piece_that_nobody_recorded_as_bonded_is_not_shown() -> None:
    assert held(work(application("bottom", "left", "right"))) == {
        ("bonding", "bottom", "left", "right"): "09:15",
        ("bonding", "top"): "missing no_application",
    }
    assert held(work()) == {("bonding",): "missing bonding"}


def test_supports_plinth_and_joints_count_where_they_were_bonded() -> None:
    found = held(work(ALL, application("supports", "joints", pressed="11:00")))
    assert found == {("bonding",): "09:15", ("bonding", "supports", "joints"): "11:00"}
    carried = carrying(work(ALL, application("supports", "joints", pressed="11:00")))
    assert [one.subject for one in carried] == [("bonding",), ("bonding", "supports")]


def test_an_application_without_its_time_or_its_parts_leaves_open_which_is_the_last() -> None:
    assert held(work(ALL, anew=[application("left", pressed=None)])) == {
        ("bonding", "bottom", "right", "top"): "09:15",
        ("bonding", "left"): "missing pressed_at",
    }
    assert held(work(ALL, anew=[application()])) == {("bonding",): "missing of"}


def test_of_two_applications_at_one_moment_both_count() -> None:
    other = ALL | {"product": "other"}
    assert {
        one.applied.recorded.product for one in lasting(work(ALL, other)) if not isinstance(one, Missing)
    } == {
        "bond",
        "other",
    }


def test_the_wait_before_loading_counts_from_the_last_application_of_each_piece() -> None:
    assert values(work(ALL), "load_wait_margin") == {(): pytest.approx(2.75)}
    anew = [application("left", laid="14:00", pressed="14:12")]
    found = values(work(ALL, anew=anew), "load_wait_margin")
    assert found["bonding", "left"] == pytest.approx(-2.2)
    assert found["bonding", "bottom", "right", "top"] == pytest.approx(2.75)


def test_the_wait_before_covering_counts_from_the_last_application_of_each_piece() -> None:
    anew = [application("left", laid="14:00", pressed="14:12")]
    found = values(work(ALL, anew=anew), "cover_wait_margin")
    assert found["bonding", "left"] == pytest.approx(-2.2)
    assert found["bonding", "bottom", "right", "top"] == pytest.approx(2.75)


def test_a_frame_bonded_piece_by_piece_in_70_minutes_keeps_an_open_time_of_20() -> None:
    assert list(values(work(*BY_PIECE), "open_time_left").values()) == [5, 5, 5, 4]
    at_once = work(application("bottom", "left", "right", "top", laid="09:00", pressed="10:10"))
    assert values(at_once, "open_time_left") == {("bonding",): -50}


def test_the_weather_of_a_correction_counts_as_well() -> None:
    anew = [application("left", pressed="14:12", air_c=3)]
    found = values(work(ALL, anew=anew), "air_margin")
    assert found["bonding",] == 5
    assert found["bonding", "NC-1", "left"] == -2


def test_every_batch_has_its_own_use_by_date() -> None:
    two = [{"number": "0412", "expires": "2027-03-31"}, {"number": "0398", "expires": "2026-11-18"}]
    found = values(work(ALL | {"batches": two}), "expiry_margin")
    assert found["bonding", "batch 0398"] == -1
    assert found["bonding", "batch 0412"] == 132
    unread = [{"number": "0412", "expires": "2027-03-31"}, {}]
    assert values(work(ALL | {"batches": unread}), "expiry_margin")["bonding", "batch 2"] == (
        "missing expires at frame.bonding.0.batches.1.expires"
    )


def test_each_adhesive_used_is_held_against_its_own_data_sheet() -> None:
    sides = application("left", "right", product="other")
    both = work(ALL, sides, survey={"moisture_pct": 3, "substrate": "concrete"})
    assert values(both, "moisture_margin") == {("bond",): 1, ("other",): -1}
    assert [path for _, path in adhesives(both)] == [
        ("frame", "bonding", 0, "product"),
        ("frame", "bonding", 1, "product"),
    ]
    assert values(both, "primer_asked_for") == {(): True}
    assert values(work(ALL), "primer_asked_for") == {(): False}
    assert values(work(ALL, application("left", product=None)), "primer_asked_for") == {
        (): "missing needs_primer at frame.bonding.1.product"
    }


def test_removing_the_moment_of_a_new_bonding_never_makes_the_wait_long_enough() -> None:
    anew = application("left", laid="14:00", pressed="14:12")
    short = values(work(ALL, anew=[anew]), "load_wait_margin")["bonding", "left"]
    assert short < 0
    for key in ("pressed_at", "of"):
        found = taken(work(ALL, anew=[anew | {key: None}]), "load_wait_margin")
        assert any(isinstance(one, Missing) for one in found), key


def test_the_same_application_twice_changes_nothing() -> None:
    assert values(work(*bonded(**{**ALL, "of": ["bottom", "left", "right", "top"]})), "load_wait_margin") == {
        (): pytest.approx(2.75)
    }


def test_an_opened_cartridge_is_used_up_within_the_days_of_its_data_sheet() -> None:
    site = {"products": {"adhesives": [{"id": "bond", "days_once_opened": 7}, {"id": "other"}]}}
    batches = [
        {"number": "1", "opened_at": "2026-11-18T09:00+01:00"},
        {"opened_at": "2026-11-11T09:00+01:00"},
        {},
    ]
    both = [ALL | {"batches": batches}, ALL | {"product": "other"}, ALL | {"product": None}]
    assert list(values(build({"frame": {"bonding": both}}, site), "opened_margin").items()) == [
        (("bonding", "batch 1"), 6),
        (("bonding", "batch 2"), -1),
        (("bonding", "batch 3"), "missing opened_at at frame.bonding.0.batches.2.opened_at"),
        (("bonding",), "missing product at frame.bonding.2.product"),
    ]
