from typing import Any

import pytest
from tests.builders import full_opening
from tests.rules.changes import put

from revealbook.records.opening import Opening
from revealbook.records.record import Record, Sheet
from revealbook.records.sizes_off import sizes_off

SHEET = Sheet("openings/W-1.01.yaml", (1, 1, None), b"")


def off(data: Any) -> list[tuple[object, object, object]]:
    record = Record(Opening.model_validate(data), SHEET)
    return [tuple(one.facts[key] for key in ("key", "value", "slip")) for one in sizes_off(record)]  # type: ignore[misc]


def changed(**changes: float) -> list[tuple[object, object, object]]:
    data = full_opening()
    for path, value in changes.items():
        put(data, path.replace("__", "."), value)
    return off(data)


def test_the_conforming_record_is_all_in_millimetres() -> None:
    assert changed() == []


@pytest.mark.parametrize(
    ("path", "typed", "slip"),
    [
        ("window__width_mm", 237.6, "cm"),
        ("survey__widths_mm__top", 240.2, "cm"),
        ("frame__pieces__bottom__length_mm", 256.5, "cm"),
        ("frame__pieces__left__length_mm", 59.1, "in"),
        ("opening__height_mm", 150, "cm"),
        ("survey__heights_mm__left", 11000, None),
        ("frame__pieces__left__length_mm", 14360, "ten"),
        ("window__height_mm", 500, None),
    ],
)
def test_a_size_in_another_unit_is_told_where_the_others_say_so(
    path: str, typed: float, slip: str | None
) -> None:
    assert changed(**{path: typed}) == ([(path.rsplit("__", 1)[-1], typed, slip)] if slip else [])


def test_of_two_sizes_the_nominal_one_is_believed() -> None:
    assert off({"opening": {"mark": "W", "width_mm": 1230}, "survey": {"widths_mm": {"top": 123}}}) == [
        ("top", 123, "cm")
    ]
    assert off({"opening": {"mark": "W", "width_mm": 1230}}) == []


def test_a_short_opening_is_no_slip_of_its_long_bottom_piece() -> None:
    small = {
        "opening": {"mark": "W", "width_mm": 400},
        "frame": {"pieces": {"bottom": {"length_mm": 560}}},
        "window": {"width_mm": 376},
    }
    assert off(small) == []
