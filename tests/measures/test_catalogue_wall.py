from typing import get_args

from tests.builders import build, taken

from revealbook.measures.catalogue_wall import FIXING_ORDER, SCREWS, SEATING, WALL_SIDE
from revealbook.records.frame import FixingOrder, Seating
from revealbook.records.supports import Screws


def test_choices_are_those_of_the_record() -> None:
    assert (get_args(Seating), get_args(FixingOrder), get_args(Screws)) == (SEATING, FIXING_ORDER, SCREWS)
    choices = {measure.name: measure.choices for measure in WALL_SIDE if measure.choices}
    assert choices == {"seating": SEATING, "fixing_order": FIXING_ORDER, "plinth_screws": SCREWS}


def test_names_stand_once() -> None:
    names = [measure.name for measure in WALL_SIDE]
    assert len(set(names)) == len(names)


def test_what_is_missing_lies_in_a_section_of_the_wall_side() -> None:
    sections = {"opening", "survey", "frame", "supports", "plinth", "window"}
    for measure in WALL_SIDE:
        for outcome in taken(build(), measure.name):
            assert outcome.path[0] in sections, measure.name
