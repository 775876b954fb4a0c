"""Why an archive does not do what it was asked: each message is a whole sentence for a person."""

from collections.abc import Iterable
from pathlib import Path

from revealbook.source.nearest import nearest


class Refused(Exception):  # noqa: N818 - it reads as the sentence it is
    """What was asked is not done, and nothing was changed; the message says why."""


class NotAnArchive(Refused):
    """The folder is no archive."""


class Damaged(Refused):
    """Something in the archive is not what was written there."""


class Busy(Refused):
    """Somebody else is filing the same site just now; the message says who."""


def refuse_existing(target: Path) -> None:
    """Refuse a file that is there already: nothing is written over it.

    Raises:
        Refused: it is there.
    """
    if target.exists():
        raise Refused(f"{target} is there already, and is not overwritten.")


def no_opening(site: str, mark: str, marks: Iterable[str]) -> Refused:
    """Give the refusal of an opening that a site does not have, with the nearest mark that it has."""
    near = nearest(mark, marks)
    hint = f" Did you mean {near}?" if near else ""
    return Refused(f"{site} has no opening {mark}.{hint}")
