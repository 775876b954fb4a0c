"""What a question says of the place, in English and German."""

import pytest

from revealbook.lookup.keys import words
from revealbook.lookup.place import Place, understood


def asked(text: str, *buildings: str) -> Place:
    return understood(words(text), lambda key: key in buildings)


@pytest.mark.parametrize(
    ("text", "building", "floor", "rest"),
    [
        ("block B second floor bedroom", "b", "2", ("bedroom",)),
        ("bedroom, 2nd floor, house B", "b", "2", ("bedroom",)),
        ("Haus B, 2. OG, Schlafzimmer", "b", "2", ("schlafzimmer",)),
        ("floor 3", None, "3", ()),
        ("ground floor kitchen", None, "0", ("kitchen",)),
        ("EG Küche", None, "0", ("kuche",)),
        ("2. UG", None, "-2", ()),
        ("batch 0412", None, None, ("batch", "0412")),
        ("", None, None, ()),
    ],
)
def test_building_and_floor_are_told_from_other_words(
    text: str, building: str | None, floor: str | None, rest: tuple[str, ...]
) -> None:
    found = asked(text)
    assert (found.building, found.floor) == (building, floor)
    assert tuple(word for word in found.words if word != "floor") == rest


def test_a_long_name_is_a_building_only_if_there_is_one() -> None:
    assert asked("house linden", "linden").building == "linden"
    assert asked("house linden").words == ("house", "linden")


def test_only_the_first_building_and_floor_count() -> None:
    found = asked("block B block C floor 1 floor 2")
    assert (found.building, found.floor) == ("b", "1")
    assert found.words == ("block", "c", "floor", "2")
