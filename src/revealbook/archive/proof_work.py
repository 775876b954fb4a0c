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


def prove_one(work: Work) -> tuple[str, bool | None]:
    """Prove one file.

    Returns:
        What is wrong with it, empty if nothing is; and, of a pack, whether it carries signatures: None if
        they cannot be checked here.
    """
    file = Path(work.file)
    try:
        if digest_of(file) != work.sha512:
            return N_("was changed"), False
        return _judged(file) if work.pack else ("", False)
    except OSError as error:
        return f"cannot be read: {error.strerror or error}", False


def _judged(pack: Path) -> tuple[str, bool | None]:
    try:
        again = judge_again(pack)
    except NotAPack:
        return N_("is the file that was filed, but cannot be opened as a pack"), False
    if not isinstance(again, Again):
        return N_("is the file that was filed, but what it carries cannot be judged by this version"), False
    if not again.agrees:
        return N_("is the file that was filed, but does not agree with itself"), False
    return _signed(pack)


def _signed(pack: Path) -> tuple[str, bool | None]:
    try:
        from revealbook.archive.signatures import check_signatures  # noqa: PLC0415 - an extra
    except ImportError:
        return "", None
    checked = check_signatures(pack.read_bytes())
    if not checked.signatures:
        return "", False
    if checked.good:
        return "", True
    return N_("is the file that was filed, but a signature in it does not hold"), False
