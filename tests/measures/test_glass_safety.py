from typing import Any

from tests.builders import build, value

from revealbook.measures.work import Work


def glazed(**keys: Any) -> Work:
    return build({"window": {"glass_safety": keys}})


def test_the_higher_of_sill_and_guard_counts() -> None:
    assert value(glazed(sill_above_floor_mm=150, guard_height_mm=900), "guard_height") == 900
    assert value(glazed(sill_above_floor_mm=850), "guard_height") == 850
    missing = "missing sill_above_floor_mm at window.glass_safety.sill_above_floor_mm"
    assert value(glazed(drop_m=3), "guard_height") == missing


def test_one_laminated_pane_is_enough_and_an_unknown_one_is_none() -> None:
    assert value(glazed(inner_pane="toughened", outer_pane="laminated safety"), "laminated_panes") == 1
    assert value(glazed(inner_pane="toughened", outer_pane="annealed"), "laminated_panes") == 0
    missing = "missing outer_pane at window.glass_safety.outer_pane"
    assert value(glazed(inner_pane="toughened"), "laminated_panes") == missing


def test_glass_keeps_people_from_falling_only_where_the_record_says_so() -> None:
    assert value(glazed(drop_m=3), "fall_protection") is False
    assert value(glazed(fall_protection=True), "fall_protection") is True
    assert value(build(), "fall_looked_at") is False
