from math import sqrt

import pytest
from tests.builders import build

from revealbook.measures.method import METHOD_OF_FORMAT_1, Method
from revealbook.measures.reading import Missing, Reading
from revealbook.measures.work import each, look, one

TOOLS = {
    "instruments": [
        {"id": "tape-1", "measures": "length", "uncertainty": 1},
        {"id": "tape-2", "measures": "length", "uncertainty": 2.5},
        {"id": "level-1", "measures": "deviation", "uncertainty": 0.4},
    ]
}


def test_a_path_is_followed_as_far_as_it_goes() -> None:
    work = build({"frame": {"pieces": {"left": {"holes_mm": [180, 815]}}}})
    assert work.look("frame", "pieces", "left", "holes_mm", 1) == 815
    assert work.look("frame", "pieces", "right", "holes_mm", 1) is None
    assert work.look("survey", "widths_mm", "top") is None
    assert look(None, ("anything",)) is None
    assert look(work.opening, ()) is work.opening


def test_a_key_that_no_record_can_have_is_a_fault_of_the_program() -> None:
    with pytest.raises(AttributeError):
        build({"survey": {}}).look("survey", "widths")


def test_the_coarsest_instrument_that_was_used_counts() -> None:
    work = build({"survey": {"instruments": ["tape-1", "tape-2", "level-1"]}}, TOOLS)
    assert work.uncertainty("survey", "length") == 2.5
    assert work.uncertainty("survey", "deviation") == 0.4


def test_uncertainties_of_several_readings_add_in_quadrature() -> None:
    work = build({"survey": {"instruments": ["tape-1"]}}, TOOLS)
    assert work.uncertainty("survey", "length", 2) == pytest.approx(sqrt(2))


def test_without_a_named_instrument_the_sites_coarsest_counts() -> None:
    work = build({"survey": {"instruments": ["level-1"]}, "frame": {}}, TOOLS)
    assert work.uncertainty("survey", "length") == 2.5
    assert work.uncertainty("frame", "length", 2) == pytest.approx(2.5 * sqrt(2))
    assert (
        work.uncertainty("window", "deviation") == 0.5
    )  # the method's: coarser than the level that is listed


def test_without_any_instrument_on_site_the_methods_own_uncertainty_counts() -> None:
    work = build({"frame": {}})
    kinds = {"length": 1, "deviation": 0.5, "temperature": 1, "humidity": 5, "flow": None}
    assert {kind: work.uncertainty("frame", kind) for kind in kinds} == kinds


def test_in_the_first_edition_no_instrument_meant_no_uncertainty() -> None:
    first = Method.model_construct(**METHOD_OF_FORMAT_1)
    assert build({"frame": {}}, TOOLS, first).uncertainty("frame", "length") is None


def test_a_short_part_slopes_over_the_length_that_can_be_read() -> None:
    assert [build().sloping_over(length) for length in (600, 1000, 1400)] == [1000, 1000, 1400]
    assert build(method=Method.model_construct(**METHOD_OF_FORMAT_1)).sloping_over(600) == 600


def test_products_are_known_by_kind_and_id() -> None:
    work = build(site={"products": {"tapes": [{"id": "x", "sd_m": 40}], "foams": [{"id": "x", "sd_m": 2}]}})
    assert work.product("tapes", "x").sd_m == 40
    assert work.product("foams", "x").sd_m == 2
    assert work.product("tapes", "y") is None
    assert work.product("tapes", None) is None


def test_false_and_nought_are_readings() -> None:
    work = build({"survey": {"sound": False, "out_of_flat_mm": 0}})
    assert one(work, (), ("survey", "sound")) == Reading((), False, ("survey", "sound"))
    assert one(work, (), ("survey", "out_of_flat_mm")) == Reading((), 0, ("survey", "out_of_flat_mm"))


def test_an_empty_list_is_not_a_missing_one() -> None:
    assert list(each(build({"seals": {"events": []}}), "seals", "events")) == []
    assert each(build({"seals": {}}), "seals", "events") == Missing((), "events", ("seals", "events"))
