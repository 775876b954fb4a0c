from math import inf
from typing import Any

from tests.builders import build, value, values

from revealbook.measures.work import Work


def window(**keys: Any) -> Work:
    return build({"window": keys})


def test_a_window_is_a_fixed_light_if_every_sash_is() -> None:
    assert value(window(opening_kind="fixed"), "fixed_light") is True
    assert value(window(opening_kind="fixed", sashes=[{"kind": "side hung"}]), "fixed_light") is False
    assert value(window(sashes=[{"kind": "fixed"}, {"kind": "fixed"}]), "fixed_light") is True
    assert value(window(sashes=[{"kind": "fixed"}, {"kind": None}]), "fixed_light") is False


def test_each_sash_is_tried_and_a_fixed_light_is_not() -> None:
    work = window(
        sashes=[{"kind": "lift and slide", "tried": True}, {"kind": "fixed"}, {"kind": "side hung"}]
    )
    assert values(work, "window_tried") == {
        ("sash 1",): True,
        ("sash 3",): "missing tried at window.sashes.2.tried",
    }


def test_what_was_recorded_of_the_whole_window_counts_beside_its_sashes() -> None:
    work = window(opening_function_tried=False, sashes=[{"kind": "side hung", "tried": True}])
    assert values(work, "window_tried") == {(): False, ("sash 1",): True}


def test_a_sash_is_no_larger_than_its_window() -> None:
    work = window(width_mm=1200, height_mm=1400, sashes=[{"width_mm": 1210, "height_mm": 1300}])
    assert values(work, "sash_reserve") == {("sash 1", "width"): -10, ("sash 1", "height"): 100}


def test_a_coupling_has_fixings_on_both_sides_at_sill_and_head() -> None:
    fixings = [{"side": "bottom", "at_mm": [200, 900, 1100]}, {"side": "top", "at_mm": [200, 900]}]
    found = values(window(couplings=[{"at_mm": 1000}], fixings=fixings), "coupling_fixing_distance")
    assert found == {
        ("coupling 1", "bottom", "before"): 100,
        ("coupling 1", "bottom", "after"): 100,
        ("coupling 1", "top", "before"): 100,
        ("coupling 1", "top", "after"): inf,
    }


def test_at_a_corner_of_the_building_a_coupling_has_no_fixings_beside_it() -> None:
    work = window(couplings=[{"corner": "right", "joined": True, "sealed": True}])
    assert values(work, "coupling_fixing_distance") == {}
    assert value(work, "coupled") is True
    assert value(work, "coupled_in_line") is False
    assert values(work, "coupling_sealed") == {("coupling 1",): True}
