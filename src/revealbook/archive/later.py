"""Later records read for joining: claims, repairs and re-measurements, each under an id of its own."""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import UTC
from pathlib import Path

from revealbook.archive.file import AFTERWARDS
from revealbook.archive.refusal import Refused
from revealbook.present.problems import line
from revealbook.present.words import words_in
from revealbook.records.afterwards import Claim, Repair, load_afterwards
from revealbook.records.part import photos_named
from revealbook.records.record import Sheet
from revealbook.records.remeasurement import Remeasurement, load_remeasurement
from revealbook.source.problem import Problem
from revealbook.source.read import read


@dataclass(frozen=True, slots=True)
class LaterRecord:
    """A record that joins an opening after its pack was filed.

    Attributes:
        site: the site's id.
        mark: the opening's mark.
        id: the record's own id, once per site; its file in the archive is called after it.
        kind: claim, repair or re-measurement.
        content: the file's bytes as they were read.
        photos: names of the photographs it names, in order.
    """

    site: str
    mark: str
    id: str
    kind: str
    content: bytes
    photos: tuple[str, ...] = ()

    @property
    def path(self) -> str:
        """Its place in the archive."""
        return f"{AFTERWARDS}{self.id}.yaml"


def read_later(path: Path) -> LaterRecord:
    """Read a later record, whichever kind it is.

    A re-measurement says nothing of its kind and has no id; it is called after its mark and time.

    Raises:
        Refused: the file cannot be used; the message tells every problem.
    """
    loaded = load_later(path)
    if isinstance(loaded[0], Problem):
        said = [line(problem, words_in("en")) for problem in loaded]
        raise Refused("\n".join([*said, "The record was not joined."]))
    record, sheet = loaded
    photos = tuple(sorted({named.photo.file for named in photos_named(record)}))
    if isinstance(record, Remeasurement):
        return LaterRecord(record.site, record.mark, _id_of(record), "re-measurement", sheet.raw, photos)
    return LaterRecord(record.site, record.mark, record.id, record.kind, sheet.raw, photos)


def later_files(paths: Iterable[str]) -> list[str]:
    """Give those of a version's files that are later records, in order of path."""
    return sorted(path for path in paths if path.startswith(AFTERWARDS) and path.endswith(".yaml"))


def load_later(path: Path) -> tuple[Claim | Repair | Remeasurement, Sheet] | tuple[Problem, ...]:
    """Read a later record of whichever kind; everything that keeps it from being used, if anything does."""
    return load_remeasurement(path) if _is_remeasurement(path) else load_afterwards(path)


def _is_remeasurement(path: Path) -> bool:
    document = read(path, str(path))
    data = None if isinstance(document, Problem) else document.data
    return isinstance(data, dict) and "kind" not in data and "readings" in data


def _id_of(record: Remeasurement) -> str:
    """Call a re-measurement after its mark and the moment at which it was taken."""
    if record.at is None:
        raise Refused("The re-measurement does not say when it was taken; write `at` into it.")
    mark = re.sub(r"[^A-Za-z0-9._+-]", "-", record.mark)
    return f"remeasured-{mark}-{record.at.astimezone(UTC):%Y%m%dT%H%MZ}"
