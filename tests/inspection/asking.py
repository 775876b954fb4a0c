"""The conforming record as one or more openings, asked about."""

from collections.abc import Callable, Iterable, Mapping
from datetime import datetime
from typing import Any

from tests.present.judging import site

from revealbook.inspection.question import Evidence, Photograph, Question

Ask = Callable[[Evidence], Iterable[Question]]


def ask(
    kind: Ask,
    by_mark: Mapping[str, Mapping[str, Any]],
    photos: Mapping[str, tuple[str, str | None]] | None = None,
) -> list[Question]:
    """Ask one kind of question of openings that are the conforming record after changes.

    Photographs are given as (digest, time the camera names).
    """
    taken = {
        name: Photograph(digest, datetime.fromisoformat(at) if at else None)
        for name, (digest, at) in (photos or {}).items()
    }
    return list(kind(Evidence(site(by_mark), taken)))
