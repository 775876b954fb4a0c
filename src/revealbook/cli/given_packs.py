"""The packs that a site folder or a PDF on the command line means, judged again."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from revealbook.archive.given import GivenPack, read_pack
from revealbook.archive.opened import NotAPack, open_pack
from revealbook.archive.refusal import Refused
from revealbook.archive.together import by_site, differing, put_together
from revealbook.cli.terminal import progress
from revealbook.present.problems import line
from revealbook.present.volumes import VOLUMES_FILE, read_lines
from revealbook.present.words import words_in
from revealbook.records.load import load_site, look_into
from revealbook.source.problem import Problem


@dataclass(frozen=True, slots=True)
class _Batch:
    """Packs that were given in one word: those of a site folder, or a file."""

    packs: tuple[Path, ...]
    site: Path | None = None


def read_given(given: Sequence[Path]) -> list[tuple[Path | None, tuple[GivenPack, ...]]]:
    """Judge all packs again and put each site's together, with its folder if one was given.

    Args:
        given: site folders, which mean the packs in them, and packs; an index means its volumes as well.

    Raises:
        Refused: there is no pack, it is older than its records, or it does not agree with itself.
    """
    batches = [_batch(one) for one in given]
    loose: list[GivenPack] = []
    read: list[tuple[Path | None, tuple[GivenPack, ...]]] = []
    total, done = sum(len(batch.packs) for batch in batches), 0
    with progress("judging again") as seen:
        for batch in batches:
            packs = []
            for path in batch.packs:
                packs.append(read_pack(path))
                done += 1
                seen(done, total, path.name)
            if batch.site:
                _refuse_older(batch.site, packs)
                read.append((batch.site, tuple(packs)))
            else:
                loose += packs
    return read + [(None, packs) for packs in by_site(loose)]


def _refuse_older(site: Path, packs: Sequence[GivenPack]) -> None:
    """Refuse a pack whose records have changed since in the site folder."""
    if said := differing(site, put_together(packs)):
        listed = "".join(f"\n  {one}" for one in said)
        raise Refused(
            f"The pack of {site} is not of the records as they are now; make it again with"
            f" `revealbook pack`, or name the PDF to take it as it is:{listed}"
        )


def _batch(given: Path) -> _Batch:
    """Find the packs that a site folder or a file means."""
    if not given.is_dir():
        return _Batch(_with_volumes(given))
    site_id = _site_id(given)
    whole, index = (given / "pack" / f"{site_id}{part}.pdf" for part in ("", "-index"))
    if whole.is_file() and index.is_file():
        raise Refused(f"There are both {whole} and {index}; name the one to be filed.")
    if not whole.is_file() and not index.is_file():
        raise Refused(f"{given} has no pack at {whole}; `revealbook pack {given}` makes it.")
    return _Batch((whole,) if whole.is_file() else _with_volumes(index), given)


def _site_id(folder: Path) -> str:
    looked = look_into(folder)
    loaded = (looked,) if isinstance(looked, Problem) else load_site(looked)
    if isinstance(loaded, tuple):
        raise Refused("\n".join(line(problem, words_in("en")) for problem in loaded))
    return loaded.site.id


def _with_volumes(pack: Path) -> tuple[Path, ...]:
    """Give a pack and, if it is an index, the volumes it names that lie beside it."""
    try:
        named = open_pack(pack).carried.get(VOLUMES_FILE)
        lines = read_lines(named) if named else ()
    except NotAPack as reason:
        raise Refused(str(reason)) from reason
    except ValueError:
        return (pack,)  # judging it again says what is wrong with it
    beside = (pack.parent / Path(one.file).name for one in lines)
    return (pack, *(file for file in beside if file.is_file()))
