from typing import Any

import pytest
from tests.builders import bonded, build

from revealbook.measures.air import Air, air_read


def test_the_climate_gathers_every_reading_of_the_air_in_order() -> None:
    work = build(
        {
            "frame": {
                "bonding": bonded(
                    laid_at="2026-11-19T09:00Z", pressed_at="2026-11-19T09:15Z", air_c=8, rh_pct=70
                )
            },
            "seals": {
                "events": [{"at": "2026-11-20T09:00Z", "air_c": 9}, {"air_c": 1}, {"at": "2026-11-21T09:00Z"}]
            },
            "climate": [{"at": "2026-11-18T09:00Z", "air_c": 7}, {"at": "2026-11-18T10:00Z", "rh_pct": 70}],
        }
    )
    assert [(air.at.day, air.at.minute, air.air_c, air.rh_pct) for air in air_read(work.opening)] == [
        (18, 0, 7, None),
        (19, 15, 8, 70),
        (20, 0, 9, None),
    ]


def test_bonding_that_does_not_say_when_it_was_pressed_was_read_when_it_began() -> None:
    (air,) = air_read(build({"frame": {"bonding": bonded(laid_at="2026-11-19T09:00Z", air_c=8)}}).opening)
    assert air.at.hour == 9


@pytest.mark.parametrize(
    ("one", "other", "kept"),
    [
        ({"air_c": 5, "rh_pct": 60}, {"air_c": 3, "rh_pct": 90}, (3, 90)),
        ({"air_c": 3, "rh_pct": 90}, {"air_c": 5, "rh_pct": 60}, (3, 90)),
        ({"air_c": 5}, {"air_c": 5, "rh_pct": 60}, (5, 60)),
        ({"air_c": 5, "rh_pct": 60}, {"air_c": 5}, (5, 60)),
    ],
)
def test_of_two_readings_at_one_moment_the_colder_counts(
    one: Any, other: Any, kept: tuple[float, float]
) -> None:
    moments = ("2026-11-19T09:00+01:00", "2026-11-19T08:00+00:00")
    read = [{"at": at} | air for at, air in zip(moments, (one, other), strict=True)]
    (air,) = air_read(build({"climate": read}).opening)
    assert isinstance(air, Air)
    assert (air.air_c, air.rh_pct) == kept
