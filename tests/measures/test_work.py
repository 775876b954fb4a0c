from math import sqrt

import pytest
from tests.builders import build

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


def test_without_a_named_instrument_no_uncertainty_is_stated() -> None:
    work = build({"survey": {"instruments": ["level-1"]}, "frame": {}}, TOOLS)
    assert work.uncertainty("survey", "length") is None
    assert work.uncertainty("frame", "length") is None
    assert work.uncertainty("window", "length") is None


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
