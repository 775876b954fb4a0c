"""The filed sites of an archive as its page lists them: versions, packs with links, pages of openings."""

from collections.abc import Callable, Collection, Iterator
from pathlib import Path
from urllib.parse import quote

from revealbook.archive.file import PACKS
from revealbook.archive.store import Archive, Version
from revealbook.lookup.filed import Entry, filed_openings
from revealbook.lookup.sheet import bookmarks, titles_of
from revealbook.present.listed import FiledPack, FiledSite, FiledVersion, ListedOpening, listed_opening
from revealbook.present.words import N_, Words

Pages = dict[str, dict[int, tuple[str, int]]]
"""By an opening's mark and a version's number: name of the pack, and the page on which its sheet begins."""


def list_site(
    archive: Archive,
    site: str,
    words: Words,
    *,
    beside: Path,
    kept: Callable[[Entry], bool] = lambda entry: entry.latest,
) -> tuple[FiledSite, tuple[ListedOpening, ...]]:
    """Give a site and its openings as they were filed.

    Args:
        archive: where it is filed.
        site: its id.
        words: the reader's language.
        beside: the folder in which the page will lie; packs below it are linked.
        kept: which of the filed openings are listed, each as the last of those; if left out, as filed last.

    Raises:
        Refused: the archive holds no such site, or a version without facts cannot be judged.
        Damaged: what the archive holds is not what was written.
    """
    filed = filed_openings(archive, site)
    entries = {entry.facts.mark: entry for entry in filed.entries if kept(entry)}
    pages = opening_pages(archive, site, entries)
    listed = tuple(
        listed_opening(entry.facts, words, entry.later, pages.get(mark, {}))
        for mark, entry in entries.items()
    )
    versions = tuple(_version(archive, site, version, words, beside) for version in archive.versions(site))
    return FiledSite(site, filed.name, versions, tuple(_later(entries.values(), words))), listed


def damaged_site(site: str, why: str, words: Words) -> FiledSite:
    """Give a site whose openings cannot be listed, with the reason in place of its versions.

    Args:
        site: its id.
        why: a whole sentence.
        words: the reader's language.
    """
    return FiledSite(site, site, (), (words.say(N_("Its openings are not listed: {why}"), why=why),))


def _version(archive: Archive, site: str, version: Version, words: Words, beside: Path) -> FiledVersion:
    said = words.say(
        N_("Version {number}, filed {moment} by {name}: {message}"),
        number=version.number, moment=words.moment(version.created), name=version.user,
        message=version.message,
    )  # fmt: skip
    packs = (FiledPack(pack, _href(file, beside)) for pack, file in _packs(archive, site, version))
    return FiledVersion(version.number, said, version.head, tuple(packs))


def _later(entries: Collection[Entry], words: Words) -> Iterator[str]:
    told = [(later, entry.facts.mark) for entry in entries for later in entry.later]
    for later, mark in sorted(told, key=lambda one: one[0].day):
        text = N_("{day}, claim {id} on {mark}: {said}")
        if later.kind == "repair":
            text = N_("{day}, repair {id} on {mark}: {said}")
        yield words.say(text, day=later.day, id=later.id, mark=mark, said=later.said)


def opening_pages(archive: Archive, site: str, marks: Collection[str]) -> Pages:
    """Find the sheets of openings in all filed packs of a site, by the bookmarks of the packs.

    Args:
        archive: where it is filed.
        site: its id.
        marks: the openings' marks.

    Raises:
        Refused: the archive holds no such site.
        Damaged: its inventory is not the one that was written.
    """
    titles = titles_of(marks)
    read: dict[Path, dict[str, int]] = {}
    found: Pages = {}
    for version in archive.versions(site):
        for name, file in _packs(archive, site, version):
            if file not in read:
                read[file] = {titles[title]: page for title, page in bookmarks(file) if title in titles}
            for mark, page in read[file].items():
                found.setdefault(mark, {})[version.number] = (name, page)
    return found


def _packs(archive: Archive, site: str, version: Version) -> list[tuple[str, Path]]:
    files = sorted(archive.contents(site, version.number).items())
    return [(path.removeprefix(PACKS), file) for path, file in files if path.startswith(PACKS)]


def _href(file: Path, folder: Path) -> str:
    """Give the address of a file relative to a folder above it; empty if it does not lie below."""
    inside, above = file.resolve(), folder.resolve()
    if not inside.is_relative_to(above):
        return ""
    return quote(inside.relative_to(above).as_posix())
