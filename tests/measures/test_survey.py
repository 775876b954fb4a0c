from math import sqrt
from typing import Any

import pytest
from tests.builders import bonded, build, details, reading, taken, value, values

from revealbook.measures.method import Method
from revealbook.measures.reading import Missing, Reading

TAPE = {"instruments": [{"id": "tape-1", "measures": "length", "uncertainty": 1}]}


def test_sizes_are_held_against_nominal_without_sign() -> None:
    work = build(
        {
            "opening": {"mark": "A", "width_mm": 1230},
            "survey": {
                "widths_mm": {"top": 1232, "middle": 1230, "bottom": 1225.5},
                "instruments": ["tape-1"],
            },
        },
        TAPE,
    )
    assert values(work, "width_deviation") == {("top",): 2, ("middle",): 0, ("bottom",): 4.5}
    first = taken(work, "width_deviation")[0]
    assert first.path == ("survey", "widths_mm", "top")
    assert details(first) == {"measured_mm": 1232, "nominal_mm": 1230}
    assert first.uncertainty == 1  # type: ignore[union-attr]


def test_each_size_that_was_not_read_is_missing_by_itself() -> None:
    work = build({"opening": {"mark": "A", "height_mm": 1480}, "survey": {"heights_mm": {"middle": 1481}}})
    assert values(work, "height_deviation") == {
        ("left",): "missing left at survey.heights_mm.left",
        ("middle",): 1,
        ("right",): "missing right at survey.heights_mm.right",
    }


def test_without_a_nominal_size_no_deviation_is_known() -> None:
    work = build({"survey": {"widths_mm": {"top": 1232}}})
    assert set(values(work, "width_deviation").values()) == {"missing width_mm at opening.width_mm"}


def test_heights_left_and_right_are_compared() -> None:
    work = build({"survey": {"heights_mm": {"left": 1482, "right": 1485}, "instruments": ["tape-1"]}}, TAPE)
    found = reading(work, "height_difference")
    assert found.value == 3
    assert found.uncertainty == pytest.approx(sqrt(2))
    assert details(found) == {"left_mm": 1482, "right_mm": 1485}


@pytest.mark.parametrize("side", ["left", "right"])
def test_one_height_is_no_difference(side: str) -> None:
    other = {"left": "right", "right": "left"}[side]
    work = build({"survey": {"heights_mm": {side: 1482}}})
    assert value(work, "height_difference") == f"missing {other} at survey.heights_mm.{other}"


def test_the_rack_of_an_opening_comes_from_its_diagonals() -> None:
    survey = {"diagonals_mm": {"rising": 1925, "falling": 1921}, "instruments": ["tape-1"]}
    work = build({"opening": {"mark": "A", "width_mm": 1230}, "survey": survey}, TAPE)
    found = reading(work, "opening_rack")
    assert found.value == pytest.approx((1925**2 - 1921**2) / (4 * 1230))
    assert found.uncertainty == pytest.approx(sqrt(1925**2 + 1921**2) / (2 * 1230), rel=1e-3)


def test_the_rack_has_no_sign() -> None:
    one, other = (
        value(
            build(
                {
                    "opening": {"mark": "A", "width_mm": 1230},
                    "survey": {"diagonals_mm": {"rising": rising, "falling": falling}},
                }
            ),
            "opening_rack",
        )
        for rising, falling in ((1925, 1921), (1921, 1925))
    )
    assert one == other > 0


@pytest.mark.parametrize(
    ("opening", "said"),
    [
        ({}, "missing width_mm at opening.width_mm"),
        ({"opening": {"mark": "A", "width_mm": 1230}}, "missing rising at survey.diagonals_mm.rising"),
        (
            {"opening": {"mark": "A", "width_mm": 1230}, "survey": {"diagonals_mm": {"rising": 1925}}},
            "missing falling at survey.diagonals_mm.falling",
        ),
        (
            {
                "opening": {"mark": "A", "width_mm": 1230},
                "survey": {"diagonals_mm": {"rising": 1000, "falling": 1000}},
            },
            "missing diagonals_fit_no_opening at survey.diagonals_mm",
        ),
    ],
)
def test_a_rack_that_cannot_be_computed_is_missing(opening: dict[str, object], said: str) -> None:
    assert value(build(opening), "opening_rack") == said


def test_moisture_is_held_against_the_adhesive_that_was_used() -> None:
    site = {
        "products": {
            "adhesives": [{"id": "bond", "moisture_max_pct": 4, "needs_primer": True}, {"id": "other"}]
        }
    }
    survey = {"moisture_pct": 3.1, "substrate": "solid masonry"}
    assert value(
        build({"survey": survey, "frame": {"bonding": bonded(product="bond")}}, site), "moisture_margin"
    ) == (pytest.approx(0.9))
    other = build({"survey": survey, "frame": {"bonding": bonded(product="other")}}, site)
    assert value(other, "moisture_margin") == "missing moisture_max_pct at frame.bonding.0.product"
    assert value(other, "primer_asked_for") == "missing needs_primer at frame.bonding.0.product"
    assert value(build({}, site), "moisture_margin") == "missing moisture_pct at survey.moisture_pct"
    assert value(build({"survey": survey}, site), "moisture_margin").startswith("missing moisture_max_pct")
    assert value(build({"frame": {"bonding": bonded(product="bond")}}, site), "primer_asked_for") is True


@pytest.mark.parametrize(
    ("name", "key", "measured"),
    [
        ("substrate_flatness", "out_of_flat_mm", 2),
        ("straightedge_length", "straightedge_mm", 1000),
        ("wall_plumb", "out_of_plumb_mm", 4),
        ("substrate_dry", "dry", False),
        ("primed", "primed", True),
    ],
)
def test_what_stands_in_the_survey_is_read(name: str, key: str, measured: object) -> None:
    assert value(build({"survey": {key: measured}}), name) == measured
    assert value(build(), name) == f"missing {key} at survey.{key}"


def test_nominal_sizes_are_read_from_the_opening() -> None:
    work = build({"opening": {"mark": "A", "width_mm": 1230}})
    assert value(work, "nominal_width") == 1230
    assert value(work, "nominal_height") == "missing height_mm at opening.height_mm"


def test_flatness_is_held_between_the_columns_of_the_table() -> None:
    (found,) = taken(build({"survey": {"out_of_flat_mm": 3, "straightedge_mm": 2000}}), "flatness_reserve")
    assert isinstance(found, Reading)
    assert found.value == pytest.approx(5 + (10 - 5) / 3 - 3)
    (missing,) = taken(build({"survey": {"out_of_flat_mm": 3}}), "flatness_reserve")
    assert isinstance(missing, Missing)
    assert missing.what == "straightedge_mm"


ADHESIVE = {"id": "bond", "moisture_max_pct": 4, "moisture_limits": [{"substrate": "timber", "max_pct": 18}]}


@pytest.mark.parametrize(
    ("substrate", "said"),
    [
        ("solid masonry", 4 - 3.5),
        ("aerated concrete", 4 - 3.5),
        ("timber", 18 - 3.5),
        ("other", "missing moisture_limit_of_substrate at frame.bonding.0.product"),
        (None, "missing substrate at survey.substrate"),
    ],
)
def test_moisture_is_held_against_the_limit_of_its_substrate(substrate: str | None, said: object) -> None:
    opening = {
        "survey": {"moisture_pct": 3.5, "substrate": substrate},
        "frame": {"bonding": bonded(product="bond")},
    }
    assert value(build(opening, {"products": {"adhesives": [ADHESIVE]}}), "moisture_margin") == said


def test_steel_takes_up_no_moisture() -> None:
    assert values(build({"survey": {"moisture_pct": 3.5, "substrate": "steel"}}), "moisture_margin") == {}


def test_rule_sets_of_format_1_hold_every_substrate_against_one_limit() -> None:
    opening = {
        "survey": {"moisture_pct": 3.5, "substrate": "timber"},
        "frame": {"bonding": bonded(product="bond")},
    }
    work = build(opening, {"products": {"adhesives": [ADHESIVE]}}, Method(computations=1))
    assert value(work, "moisture_margin") == 0.5


@pytest.mark.parametrize(
    ("dry", "brushed", "said"),
    [
        (True, "dry", {(): True}),
        (True, "damp", {(): False}),
        (True, "not brushed", {(): False}),
        (True, None, {(): "missing brushed at survey.brushed"}),
        (False, "damp", {}),
        (None, None, {}),
    ],
)
def test_only_an_adhesive_that_asks_for_it_needs_brushing_dry(
    *, dry: bool | None, brushed: str | None, said: dict[Any, Any]
) -> None:
    opening = {"survey": {"brushed": brushed}, "frame": {"bonding": bonded(product="bond")}}
    site = {"products": {"adhesives": [{"id": "bond", "needs_dry_brushing": dry}]}}
    assert values(build(opening, site), "brushed_as_asked") == said
