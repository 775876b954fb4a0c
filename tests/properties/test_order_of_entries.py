"""The order in which entries stand in a record decides nothing, also where two of them compete."""

from random import Random
from typing import Any

from tests.properties.whole_records import (
    Keys,
    Whole,
    at,
    leaves,
    outcomes,
    parts,
    put,
    records,
    shipped,
    some,
)

MEANT = frozenset({("frame", "order")})
"""Lists whose order is what they say."""
NAMES = ("ada", "ben", "cleo", "dov")


def lists(opening: dict[str, Any]) -> list[Keys]:
    """Give the lists of a record with more than one entry and no meaning in their order."""
    named = [path for path in parts(opening) if path not in MEANT and isinstance(at(opening, path), list)]
    return [path for path in named if len(at(opening, path)) > 1]


def shuffled(opening: dict[str, Any], draw: Random) -> dict[str, Any]:
    """Give a record with all its lists in another order, the inner ones first."""
    for path in sorted(lists(opening), key=len, reverse=True):
        entries = list(at(opening, path))
        opening = put(opening, path, draw.sample(entries, len(entries)))
    return opening


def competing(whole: Whole, draw: Random) -> Whole:
    """Give a record in which an entry stands twice, told differently for the same moment."""
    named = [path for path in parts(whole.opening) if isinstance(at(whole.opening, path), list)]
    told = [
        path for path in named if at(whole.opening, path) and isinstance(at(whole.opening, path)[0], dict)
    ]
    path = draw.choice([path for path in told if path[-1] != "photos"])
    entries = at(whole.opening, path)
    again = draw.choice(entries)
    place = draw.choice([place for place in leaves(again) if place[0] not in {"at", "id", "rule"}])
    return whole._replace(
        opening=put(whole.opening, path, [*entries, put(again, place, _other(at(again, place), draw))])
    )


def _other(value: Any, draw: Random) -> Any:
    if isinstance(value, bool):
        return not value
    if isinstance(value, int | float):
        return type(value)(value * draw.choice((0.5, 0.9, 1.1, 2)))
    return draw.choice(NAMES) if value in NAMES else None


def assert_order_decides_nothing(wholes: list[Whole]) -> None:
    draw, found = Random(1), []
    for whole in wholes:
        before = outcomes(whole.opening, whole.around, whole.rules)
        after = outcomes(shuffled(whole.opening, draw), whole.around, whole.rules)
        if before is not None and after is not None:
            found += [(whole.name, rule) for rule in before if before[rule] is not after[rule]]
    assert found == []


def test_shuffled_entries_are_judged_alike() -> None:
    assert_order_decides_nothing([*shipped(), *some(list(records()), 100)])


def test_where_two_entries_compete_their_order_decides_nothing() -> None:
    draw = Random(2)
    full = [whole for whole in shipped() if whole.opening.get("seals")]
    assert_order_decides_nothing(some([competing(draw.choice(full), draw) for _ in range(1000)], 150))
