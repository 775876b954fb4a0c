"""Building and floor are understood among the words of a question."""

import pytest

from revealbook.lookup.keys import words
from revealbook.lookup.place import Place, understood

NOBODY_KNOWS: frozenset[str] = frozenset()


def place(asked: str, known: frozenset[str] = NOBODY_KNOWS) -> Place:
    return understood(words(asked), known.__contains__)


@pytest.mark.parametrize(
    ("asked", "building", "floor", "rest"),
    [
        ("block B second floor bedroom", "b", "2", ("bedroom",)),
        ("Haus B, 2. OG, Küche", "b", "2", ("kuche",)),
        ("house B floor 2", "b", "2", ()),
        ("EG Küche", None, "0", ("kuche",)),
        ("2OG", None, "2", ()),
        ("2. UG", None, "-2", ()),
        ("ground floor", None, "0", ()),
        ("batch 7714", None, None, ("batch", "7714")),
    ],
)
def test_a_place_in_words(asked: str, building: str | None, floor: str | None, rest: tuple[str, ...]) -> None:
    assert place(asked) == Place(building, floor, rest)


def test_a_long_name_is_a_building_only_if_one_is_called_so() -> None:
    assert place("house martin").building is None
    assert place("house martin", frozenset({"martin"})).building == "martin"


def test_only_the_first_building_and_floor_are_taken() -> None:
    assert place("block A block B") == Place("a", None, ("block", "b"))
