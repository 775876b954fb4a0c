"""One piece of a proof, done in a process of its own: a file hashed, and judged again if it is a pack."""

from pathlib import Path
from typing import NamedTuple

from revealbook.archive.again import Again, judge_again
from revealbook.archive.disk import digest_of
from revealbook.archive.opened import NotAPack
from revealbook.present.words import N_


class Work(NamedTuple):
    """A file to be proved: where it is, the digest it should have, whether it is a pack."""

    file: str
    sha512: str
    pack: bool


class Result(NamedTuple):
    """What proving a file gave.

    Attributes:
        wrong: what is wrong with it, as a text to be translated; empty if nothing is.
        signed: of a pack, whether it carries signatures that hold; None if they cannot be checked here.
        why: what the system says of a file that cannot be read.
    """

    wrong: str = ""
    signed: bool | None = False
    why: str = ""


def prove_one(work: Work) -> Result:
    """Prove one file."""
    file = Path(work.file)
    try:
        if digest_of(file) != work.sha512:
            return Result(N_("was changed"))
        return _judged(file) if work.pack else Result()
    except OSError as error:
        return Result(N_("cannot be read: {why}"), why=error.strerror or str(error))


def _judged(pack: Path) -> Result:
    try:
        again = judge_again(pack)
    except NotAPack:
        return Result(N_("is the file that was filed, but cannot be opened as a pack"))
    if not isinstance(again, Again):
        return Result(N_("is the file that was filed, but what it carries cannot be judged by this version"))
    if not again.agrees:
        return Result(N_("is the file that was filed, but does not agree with itself"))
    return _signed(pack)


def _signed(pack: Path) -> Result:
    try:
        from revealbook.archive.signatures import check_signatures  # noqa: PLC0415 - an extra
    except ImportError:
        return Result(signed=None)
    checked = check_signatures(pack.read_bytes())
    if not checked.signatures:
        return Result()
    if checked.good:
        return Result(signed=True)
    return Result(N_("is the file that was filed, but a signature in it does not hold"))
