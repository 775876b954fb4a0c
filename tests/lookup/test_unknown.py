"""Where nothing is found, what nothing filed has is named, with the nearest name that something has."""

from typing import Any

import pytest

from revealbook.archive.store import Archive
from revealbook.lookup.database import Database
from revealbook.lookup.find import find
from revealbook.lookup.index import refresh
from revealbook.lookup.question import Question


@pytest.mark.parametrize(
    ("asked", "what", "nearest"),
    [
        ({"batch": "7741"}, "batch", "Example Frame Bond, batch 7714"),
        ({"person": "adaa"}, "person", "Ada Laibung"),
        ({"product": "frame-bont"}, "product", "Example Frame Bond"),
        ({"rule": "frame-overlop"}, "rule", "frame-overlap"),
        ({"mark": "W-22"}, "mark", "W-2"),
        ({"serial": "LC-78"}, "serial", "LC-77"),
        ({"site": "elmm"}, "site", "elm"),
        ({"words": "schlafzimmr"}, "word", "schlafzimmer"),
        ({"batch": "nothing like it"}, "batch", None),
    ],
)
def test_the_nearest_known_name_is_suggested(
    archive: Archive, database: Database, asked: dict[str, Any], what: str, nearest: str | None
) -> None:
    refresh(archive, database)
    answer = find(database, Question(**asked))
    assert answer.found == ()
    assert (what, nearest) in [(one.what, one.nearest) for one in answer.unknown]


def test_nothing_is_called_unknown_if_each_part_is_known(archive: Archive, database: Database) -> None:
    refresh(archive, database)
    answer = find(database, Question(mark="W-2", batch="7714"))
    assert (answer.found, answer.unknown) == ((), ())
