from math import pi
from typing import Any

import pytest
from tests.builders import build

from revealbook.measures.bead_width import pressed_width_mm, pressed_width_path
from revealbook.measures.method import Method
from revealbook.measures.reading import Missing

PROFILES = {"products": {"profiles": [{"id": "p", "bead_thickness_mm": 3}, {"id": "silent"}]}}


def left(method: Method | None = None, profile: str = "p", **beads: Any) -> Any:
    pieces = {"left": {"profile": profile, "beads": beads}}
    return build({"frame": {"pieces": pieces}}, PROFILES, method)


def test_a_width_that_was_seen_goes_first() -> None:
    work = left(width_mm=9, height_mm=9, pressed_width_mm=15, pressed_thickness_mm=3)
    assert pressed_width_mm(work, "left") == (15, 15)
    assert pressed_width_path(work, "left")[-1] == "pressed_width_mm"


def test_a_bead_of_9_by_9_pressed_to_3_is_between_a_triangle_and_half_an_ellipse() -> None:
    work = left(width_mm=9, height_mm=9)
    assert pressed_width_mm(work, "left") == pytest.approx((13.5, 81 * pi / 4 / 3))
    assert pressed_width_path(work, "left")[-1] == "width_mm"


def test_the_thickness_that_was_read_goes_before_that_of_the_data_sheet() -> None:
    work = left(width_mm=9, height_mm=9, pressed_thickness_mm=2.7)
    assert pressed_width_mm(work, "left") == pytest.approx((15, 81 * pi / 4 / 2.7))


@pytest.mark.parametrize(
    ("beads", "profile", "absent"),
    [
        ({"height_mm": 9}, "p", "width_mm"),
        ({"width_mm": 9}, "p", "height_mm"),
        ({"width_mm": 9, "height_mm": 9}, "silent", "pressed_width_mm"),
    ],
)
def test_what_a_pressed_width_needs_is_named(beads: dict[str, Any], profile: str, absent: str) -> None:
    place = ("frame", "pieces", "left", "beads", absent)
    assert pressed_width_mm(left(None, profile, **beads), "left") == Missing(("left",), absent, place)


def test_rule_sets_of_format_1_take_the_width_as_laid() -> None:
    work = left(Method(computations=1), width_mm=9, height_mm=9, pressed_width_mm=15)
    assert pressed_width_mm(work, "left") == (9, 9)
    assert pressed_width_path(work, "left")[-1] == "width_mm"
