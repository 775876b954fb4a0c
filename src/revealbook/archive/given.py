"""A pack given for filing: opened, judged again, and refused if it does not agree with itself."""

from collections.abc import Sequence
from dataclasses import dataclass
from hashlib import file_digest
from pathlib import Path

from revealbook.archive.again import Again, judge_opened
from revealbook.archive.disk import Digested, digest_of
from revealbook.archive.opened import NotAPack, open_pack
from revealbook.archive.refusal import Refused
from revealbook.archive.site_object import Progress
from revealbook.present.agreement import Difference
from revealbook.present.evidence import Carried, fingerprint
from revealbook.present.problems import line
from revealbook.present.volumes import VOLUMES_FILE, VolumeLine, read_lines
from revealbook.present.words import words_in
from revealbook.rules.judged import JudgedSite

_TOLD = 5
"""So many differences are told; more are counted."""


@dataclass(frozen=True, slots=True)
class GivenPack:
    """A pack that agrees with itself.

    Attributes:
        file: the PDF, with its digest from before it was looked at.
        sha256: the digest of the whole file, as an index names it.
        carried: the files inside by path.
        judged: the records inside, judged by the rules inside.
        volumes: the volumes it names, if it is the index of a site in volumes.
        made_with: the version that made it, if not this one.
        called: what it is called in the archive, if not as its file is.
    """

    file: Digested
    sha256: str
    carried: dict[str, bytes]
    judged: JudgedSite
    volumes: tuple[VolumeLine, ...] | None
    made_with: str | None
    called: str = ""

    @property
    def name(self) -> str:
        """The name by which it is filed."""
        return self.called or self.file.path.name

    @property
    def fingerprint(self) -> str:
        """The fingerprint on its cover."""
        return fingerprint(tuple(Carried(path, raw, "record") for path, raw in self.carried.items()))


def read_packs(paths: Sequence[Path], seen: Progress | None = None) -> tuple[GivenPack, ...]:
    """Open packs and judge them again; as `read_pack`.

    Args:
        paths: the packs.
        seen: told after each of them.
    """
    read = []
    for number, path in enumerate(paths, 1):
        read.append(read_pack(path))
        if seen:
            seen(number, len(paths), path.name)
    return tuple(read)


def read_pack(path: Path) -> GivenPack:
    """Open a pack and judge it again.

    Raises:
        Refused: it is no pack, cannot be judged, or does not agree with itself.
        OSError: it cannot be read.
    """
    try:
        file, whole = Digested(path, digest_of(path)), _sha256(path)
        opened = open_pack(path)
    except NotAPack as reason:
        raise Refused(str(reason)) from reason
    again = judge_opened(opened)
    if not isinstance(again, Again):
        said = [line(problem, words_in("en")) for problem in again]
        raise Refused(_listed(f"{path} is refused: what it carries cannot be judged.", said))
    if not again.agrees:
        raise Refused(_listed(f"{path} is refused: it does not agree with itself.", _disagreements(again)))
    volumes = opened.carried.get(VOLUMES_FILE)
    lines = None if volumes is None else read_lines(volumes)
    return GivenPack(file, whole, opened.carried, again.judged, lines, again.other_version)


def _disagreements(again: Again) -> list[str]:
    said = [_differs("findings", one) for one in again.findings]
    said += [_differs("pages", one) for one in again.pages]
    return said + [f"carried file: {path} is not accounted for, or lacks" for path in again.uncalled]


def _differs(where: str, one: Difference) -> str:
    subject = " ".join(filter(None, (one.mark, one.rule))) or "the pack"
    return f"{where}: {subject}: {one.kept} -> {one.now}"


def _listed(sentence: str, said: Sequence[str]) -> str:
    more = [f"  and {len(said) - _TOLD} more"] if len(said) > _TOLD else []
    return "\n".join([sentence, *(f"  {one}" for one in said[:_TOLD]), *more])


def _sha256(path: Path) -> str:
    with path.open("rb") as file:
        return file_digest(file, "sha256").hexdigest()
