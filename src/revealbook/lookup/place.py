"""Where words of a question name a building or a floor: `block B second floor bedroom`."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from revealbook.lookup.keys import pieces
from revealbook.present.place_words import ALONE, BELOW, BUILDING, FLOOR, RANKS, TOGETHER

_SHORT = 3
"""A name of a building that nobody knows is taken for one up to this length; longer, it is a word."""


@dataclass(frozen=True, slots=True)
class Place:
    """What a question says of the place, and its other words.

    Attributes:
        building: key of the building, if one is named.
        floor: key of the floor, if one is named.
        words: the words that name neither, as keys.
    """

    building: str | None
    floor: str | None
    words: tuple[str, ...]


def understood(asked: Sequence[str], is_building: Callable[[str], bool]) -> Place:
    """Find building and floor among the words of a question.

    Args:
        asked: the words, as keys.
        is_building: whether a key is that of a building that is known.
    """
    building, floor, rest = None, None, []
    at = 0
    while at < len(asked):
        one, following = asked[at], asked[at + 1] if at + 1 < len(asked) else ""
        if building is None and one in BUILDING and _names_one(following, is_building):
            building, at = following, at + 2
        elif floor is None and (beside := _beside(one, following)) is not None:
            floor, at = beside, at + 2
        elif floor is None and (alone := _alone(one)) is not None:
            floor, at = alone, at + 1
        else:
            rest.append(one)
            at += 1
    return Place(building, floor, tuple(rest))


def _names_one(key: str, is_building: Callable[[str], bool]) -> bool:
    return 0 < len(key) <= _SHORT or (bool(key) and is_building(key))


def _beside(one: str, other: str) -> str | None:
    """Give the floor that two words name together: `second floor`, `floor 2`, `2. UG`."""
    for number, word in ((one, other), (other, one)):
        level = RANKS.get(number.replace("_", "")) or (str(int(number)) if number.isdecimal() else None)
        if level is not None and word in FLOOR:
            return level
        if level is not None and word in BELOW and number.isdecimal():
            return f"-{level}"
    return None


def _alone(one: str) -> str | None:
    """Give the floor that a word names by itself: `EG`, `2OG`."""
    together = "".join(pieces(one))
    return ALONE.get(one) or TOGETHER.get(together)
