from tests.builders import build, taken

from revealbook.measures.catalogue_wall import WALL_SIDE
from revealbook.measures.catalogue_window import WINDOW_SIDE


def test_names_stand_once_over_both_sides() -> None:
    names = [measure.name for measure in (*WALL_SIDE, *WINDOW_SIDE)]
    assert len(set(names)) == len(names)


def test_the_measures_stand_in_the_order_of_the_work() -> None:
    names = [measure.name for measure in WINDOW_SIDE]
    order = ["window_undamaged", "window_plumb", "foam_after_tape", "photographs", "cover_wait_margin"]
    assert [name for name in names if name in order] == order


def test_numbers_of_two_measures_of_one_reading_agree() -> None:
    work = build({"window": {"out_of_plumb_mm": 1.5, "height_mm": 1000}})
    (total,), (slope,) = taken(work, "window_plumb"), taken(work, "window_plumb_slope")
    assert total[1] == slope[1] == 1.5
