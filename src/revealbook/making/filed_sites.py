"""The filed sites of an archive as its page lists them: versions, packs with links, pages of openings."""

from collections.abc import Collection, Iterable
from pathlib import Path
from urllib.parse import quote

from revealbook.archive.again import judge_for_use
from revealbook.archive.file import PACKS
from revealbook.archive.store import Archive, Version
from revealbook.lookup.sheet import bookmarks, titles_of
from revealbook.present.listed import FiledPack, FiledSite, FiledVersion, ListedOpening, listed_opening
from revealbook.present.words import N_, Words
from revealbook.rules.judged import JudgedOpening

Pages = dict[str, dict[int, tuple[str, int]]]
"""By an opening's mark and a version's number: name of the pack, and the page on which its sheet begins."""


def list_site(
    archive: Archive, site: str, words: Words, *, beside: Path
) -> tuple[FiledSite, tuple[ListedOpening, ...]]:
    """Give a site and the openings of its latest version, judged again from the packs that were filed.

    Arguments are those of `filed_site`.

    Raises:
        Refused: the archive holds no such site, or a pack of it cannot be judged.
        Damaged: its inventory is not the one that was written.
    """
    latest = archive.versions(site)[-1]
    judged = [judge_for_use(file) for _, file in _packs(archive, site, latest)]
    stated = judged[0].judged.site.site
    openings: dict[str, JudgedOpening] = {}
    for pack in judged:  # an index carries what stands in its volumes as well
        openings |= {opening.mark: opening for opening in pack.judged.openings}
    pages = opening_pages(archive, site, openings)
    listed = (listed_opening(one, stated, words, pages.get(mark, {})) for mark, one in openings.items())
    return filed_site(archive, site, stated.name, words, beside=beside), tuple(listed)


def filed_site(
    archive: Archive, site: str, name: str, words: Words, *, beside: Path, later: Iterable[str] = ()
) -> FiledSite:
    """Give a site with all its versions.

    Args:
        archive: where it is filed.
        site: its id.
        name: what it is called.
        words: the reader's language.
        beside: the folder in which the page will lie; packs below it are linked.
        later: what was joined to the site later, in sentences.

    Raises:
        Refused: the archive holds no such site.
        Damaged: its inventory is not the one that was written.
    """
    versions = tuple(
        FiledVersion(
            version.number,
            words.say(
                N_("Version {number}, filed {moment} by {name}: {message}"),
                number=version.number, moment=words.moment(version.created), name=version.user,
                message=version.message,
            ),
            version.head,
            tuple(FiledPack(pack, _href(file, beside)) for pack, file in _packs(archive, site, version)),
        )
        for version in archive.versions(site)
    )  # fmt: skip
    return FiledSite(site, name, versions, tuple(later))


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
    names = sorted(path for path in version.state if path.startswith(PACKS))
    return [(path.removeprefix(PACKS), archive.content(site, version.number, path)) for path in names]


def _href(file: Path, folder: Path) -> str:
    """Give the address of a file relative to a folder above it; empty if it does not lie below."""
    inside, above = file.resolve(), folder.resolve()
    if not inside.is_relative_to(above):
        return ""
    return quote(inside.relative_to(above).as_posix())
