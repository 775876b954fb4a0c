from tests.builders import build, details, full_opening, full_site, taken

from revealbook.measures.reading import Reading
from revealbook.present.keys import KEYS
from revealbook.present.keys_of_loads import LOAD_KEYS


def test_everything_that_a_load_is_computed_from_has_its_words() -> None:
    work = build(full_opening(), full_site())
    named: set[str] = set()
    for measure in (
        "fixing_use",
        "fixing_surplus",
        "wind_class_reserve",
        "hinge_corner_use",
        "movement_reserve",
    ):
        for found in taken(work, measure):
            assert isinstance(found, Reading), found
            named |= set(details(found))
    assert named <= set(KEYS)
    assert {"shared_use", "own_reaction_use", "wind_class_asked", "pull_n", "least_joint_mm"} <= named


def test_the_words_of_loads_are_among_all_words() -> None:
    assert LOAD_KEYS.items() <= KEYS.items()
