"""The step: an archive to the proof that it is what was filed, or to what is not.

Three things are proved of each site: that its folder is as the standard asks and every file is the one that
was written; that the chain of heads holds together, and holds heads that somebody noted on paper; that each
pack, judged again, agrees with itself, and its signatures hold.
"""

import json
from collections.abc import Callable, Iterable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from datetime import datetime
from multiprocessing import get_context
from pathlib import Path

from revealbook.archive.chain import BEFORE_THE_FIRST
from revealbook.archive.file import FILING, PACKS
from revealbook.archive.fixity import Fault, Structure, root_faults, structure
from revealbook.archive.holds import holds, kind
from revealbook.archive.layout import STORE
from revealbook.archive.proof_work import Result, Work, prove_one
from revealbook.archive.proved import Proved
from revealbook.archive.refusal import Refused
from revealbook.archive.store import Archive, Version, versions_of
from revealbook.present.words import N_

Progress = Callable[[int, int, str], None]
_LEAST_DIGITS = 16
"""A head from paper is compared by at least so many of its digits."""


@dataclass(frozen=True, slots=True)
class SiteProof:
    """What was proved of a site.

    Attributes:
        site: its id.
        versions: its versions; none if its inventory cannot be read.
        files: how many content files were looked for.
        packs: how many packs were judged again.
        signed: how many of them carry signatures that hold.
        unchecked: packs whose signatures could not be checked here, because the extra is not installed.
        noted: numbers of the versions that have a head that was noted elsewhere.
        faults: everything that is not as it was written.
    """

    site: str
    versions: tuple[Version, ...]
    files: int
    packs: int
    signed: int
    unchecked: int
    noted: tuple[int, ...]
    faults: tuple[Fault, ...]


@dataclass(frozen=True, slots=True)
class Proof:
    """What was proved of an archive.

    Attributes:
        faults: what is wrong with the store itself.
        sites: what was proved of each site.
        since: when the earliest of its checks was made; before today if a broken-off proof was gone on with.
    """

    faults: tuple[Fault, ...]
    sites: tuple[SiteProof, ...]
    since: datetime

    @property
    def sound(self) -> bool:
        """Whether everything is as it was filed."""
        return not any(self.all_faults())

    def all_faults(self) -> Iterator[Fault]:
        """Give what is wrong, the store first."""
        yield from self.faults
        for site in self.sites:
            yield from site.faults


def prove(
    archive: Archive,
    sites: Sequence[str],
    proved: Proved,
    *,
    heads: Iterable[tuple[str, str]] = (),
    jobs: int = 2,
    seen: Progress | None = None,
) -> Proof:
    """Prove an archive, or some of its sites.

    Args:
        archive: the archive; it is only read.
        sites: the sites; all if none is named.
        proved: what an earlier proof, broken off, has proved already; it is added to.
        heads: heads that were noted elsewhere, by site; some digits from the beginning are enough.
        jobs: processes to share the work.
        seen: told after each file and pack.

    Raises:
        Refused: the archive holds no such site, or a head is too short to tell anything.
    """
    noted = [(site, _digits(head)) for site, head in heads]
    for site in sites:
        if not archive.folder(site).is_dir():
            raise Refused(f"The archive holds no site {site!r}.")
    asked = dict.fromkeys((*(sites or archive.sites()), *(site for site, _ in noted)))
    chosen = [site for site in asked if archive.folder(site).is_dir()]
    gone = tuple(
        Fault(site, site, N_("is not in the archive, though a head of it was noted"))
        for site in asked
        if site not in chosen
    )
    looked = {site: structure(archive.path, site) for site in chosen}
    work = {site: tuple(_work(archive.path, site, looked[site])) for site in chosen}
    together = [one for of_site in work.values() for one in of_site]
    results = iter(tuple(_worked(together, proved, jobs, seen)))
    done = {site: [(one, next(results)) for one in of_site] for site, of_site in work.items()}
    return Proof(
        (*root_faults(archive.path), *gone),
        tuple(_site_proof(archive.path, site, looked[site], done[site], noted) for site in chosen),
        proved.since,
    )


def _digits(head: str) -> str:
    digits = "".join(head.split()).casefold()
    if len(digits) < _LEAST_DIGITS or set(digits) - set("0123456789abcdef"):
        raise Refused(
            f"{head!r} is no head: at least {_LEAST_DIGITS} of its digits, 0-9 and a-f, are needed."
        )
    return digits


def _work(archive: Path, site: str, found: Structure) -> Iterator[Work]:
    """Give what is to be done for a site: each content file hashed, each pack judged again."""
    if found.inventory is None:
        return
    digests = {path: digest for digest, paths in found.inventory.manifest.items() for path in paths}
    packs = {
        digest
        for block in found.inventory.blocks
        for path, digest in block.state.items()
        if path.startswith(PACKS)
    }
    for path in found.present:
        file = archive / STORE / site / path
        yield Work(str(file), digests[path], pack=digests[path] in packs)


def _worked(work: Sequence[Work], proved: Proved, jobs: int, seen: Progress | None) -> Iterator[Result]:
    """Do the work that no earlier proof has done, side by side, and remember what was found sound."""
    known = [proved.of(one) for one in work]
    rest = [one for one, earlier in zip(work, known, strict=True) if earlier is None]
    results = _side_by_side(rest, jobs)
    for number, (one, earlier) in enumerate(zip(work, known, strict=True), 1):
        result = earlier or next(results)
        if earlier is None and not result.wrong:
            proved.remember(one, result)
        if seen:
            seen(number, len(work), one.file)
        yield result


def _side_by_side(work: Sequence[Work], jobs: int) -> Iterator[Result]:
    if jobs <= 1 or len(work) <= 1:
        yield from map(prove_one, work)
        return
    with ProcessPoolExecutor(min(jobs, len(work)), get_context("spawn")) as pool:
        yield from pool.map(prove_one, work, chunksize=max(1, min(32, len(work) // (4 * jobs))))


def _site_proof(
    archive: Path,
    site: str,
    found: Structure,
    done: Sequence[tuple[Work, Result]],
    noted: Sequence[tuple[str, str]],
) -> SiteProof:
    faults, here = list(found.faults), [head for of, head in noted if of == site]
    if found.inventory is None:
        faults += [_unheld(site, head, 0) for head in here]
        return SiteProof(site, (), 0, 0, 0, 0, (), tuple(faults))
    versions = versions_of(found.inventory)
    for one, result in done:
        if not result.wrong:
            continue
        path = Path(one.file).relative_to(archive / STORE / site).as_posix()
        what = holds(found.inventory, path)
        facts = {"why": result.why} if result.why else {}
        faults.append(Fault(site, f"{site}/{path}", result.wrong, what, one.sha512, facts))
    faults += _broken_chain(archive, found, versions)
    held = {head: _holding(versions, head) for head in here}
    faults += [_unheld(site, head, len(versions)) for head, number in held.items() if number is None]
    packs = [result.signed for one, result in done if one.pack]
    return SiteProof(
        site, versions, len(done), len(packs), packs.count(True), packs.count(None),
        tuple(sorted({number for number in held.values() if number})), tuple(faults),
    )  # fmt: skip


def _broken_chain(archive: Path, found: Structure, versions: Sequence[Version]) -> Iterator[Fault]:
    """Hold what each filing noted as the head before it against the chain as it is now."""
    inventory = found.inventory
    for before, version in zip((None, *versions), versions, strict=False):
        digest = version.state.get(FILING)
        if inventory is None or digest is None:
            continue
        path = inventory.manifest[digest][0]
        try:
            noted = json.loads((archive / STORE / inventory.site / path).read_bytes())["head_before"]
        except (OSError, ValueError, KeyError, TypeError):
            continue  # told as missing or changed
        if noted != (before.head if before else BEFORE_THE_FIRST):
            yield Fault(
                inventory.site,
                f"{inventory.site}/{path}",
                N_("notes another head before version {number} than the history has now"),
                (kind(FILING),),
                facts={"number": version.number},
            )


def _holding(versions: Iterable[Version], head: str) -> int | None:
    """Give the number of the version with a head, if any has it."""
    return next((version.number for version in versions if version.head.startswith(head)), None)


def _unheld(site: str, head: str, versions: int) -> Fault:
    text = N_(
        "has no version with the head {head}: its history of {number} versions was rewritten or taken back "
        "since that head was noted, or the head is another site's"
    )
    if versions == 1:
        text = N_(
            "has no version with the head {head}: its history of 1 version was rewritten or taken back "
            "since that head was noted, or the head is another site's"
        )
    return Fault(site, site, text, facts={"head": head, "number": versions})
