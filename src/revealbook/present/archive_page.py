"""An archive as one page: its openings in a register that can be searched, and its sites with their packs."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from itertools import groupby

from revealbook.present import labels
from revealbook.present.archive_page_data import page_data, slug
from revealbook.present.listed import FiledSite, ListedOpening
from revealbook.present.words import N_, Words
from revealbook.rules.finding import WORST_FIRST

Choices = tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Filter:
    """A filter: its name, its label, and its choices (value and word) in groups that may be nameless."""

    name: str
    label: str
    groups: tuple[tuple[str, Choices], ...]


@dataclass(frozen=True, slots=True)
class Mark:
    """An outcome's picture and word."""

    slug: str
    word: str


@dataclass(frozen=True, slots=True)
class ArchivePage:
    """What the page shows.

    Attributes:
        title: which archive.
        as_of: when it was looked at, and how much is in it.
        asked: what its openings were looked for by; empty if all are there.
        columns: names and labels of the register's columns.
        filters: the filters of the register.
        outcomes: the outcomes with their marks.
        sites: the sites with their packs.
        data: the openings as compact JSON, for the script: see `archive_page_data`.
    """

    title: str
    as_of: str
    asked: str
    columns: tuple[tuple[str, str], ...]
    filters: tuple[Filter, ...]
    outcomes: tuple[Mark, ...]
    sites: tuple[FiledSite, ...]
    data: str


def archive_page(
    name: str,
    sites: Sequence[FiledSite],
    openings: Sequence[ListedOpening],
    made: datetime,
    words: Words,
    *,
    asked: str = "",
) -> ArchivePage:
    """Give what the page of an archive shows.

    Args:
        name: what the archive is called.
        sites: its sites.
        openings: the openings to list, each of one of these sites.
        made: when the archive was looked at.
        words: the reader's language.
        asked: what the openings were looked for by, in words; empty if all are given.
    """
    counted = words.count(len(openings), N_("1 opening"), N_("{number} openings"))
    of_sites = words.count(len(sites), N_("1 site"), N_("{number} sites"))
    return ArchivePage(
        title=words.say(N_("Archive {name}"), name=name),
        as_of=words.say(
            N_("As of {moment} {zone}: {openings}, {sites}."),
            moment=words.moment(made), zone=made.tzname() or "", openings=counted, sites=of_sites,
        ),
        asked=words.say(N_("Only the openings that were found for: {asked}."), asked=asked) if asked else "",
        columns=_columns(words),
        filters=_filters(sites, openings, words),
        outcomes=tuple(Mark(slug(outcome), words.say(labels.OUTCOMES[outcome])) for outcome in WORST_FIRST),
        sites=tuple(sites),
        data=page_data(sites, openings, words),
    )  # fmt: skip


def _columns(words: Words) -> Choices:
    return (
        ("mark", words.say(N_("Opening"))),
        ("site", words.say(N_("Site"))),
        ("place", words.say(N_("Place"))),
        ("outcome", words.say(N_("Outcome"))),
        ("finished", words.say(N_("Finished"))),
        ("later", words.say(N_("Later"))),
    )


def _filters(
    sites: Sequence[FiledSite], openings: Sequence[ListedOpening], words: Words
) -> tuple[Filter, ...]:
    outcomes = {one.outcome for one in openings}
    said = tuple((slug(one), words.say(labels.OUTCOMES[one])) for one in WORST_FIRST if one in outcomes)
    years = {str(one.finished.year) for one in openings if one.finished}
    return (
        Filter("outcome", words.say(N_("Outcome")), (("", said),)),
        Filter("site", words.say(N_("Site")), (("", tuple((site.id, site.name) for site in sites)),)),
        _choice("building", words.say(N_("Building")), (one.building for one in openings)),
        Filter("batch", words.say(N_("Product, batch")), _batches(openings)),
        _choice("fitter", words.say(N_("Fitter")), (name for one in openings for name in one.fitters)),
        _choice("year", words.say(N_("Year")), years),
    )


def _choice(name: str, label: str, values: Iterable[str]) -> Filter:
    """A filter whose choices are the values that occur, in order."""
    return Filter(name, label, (("", tuple((value, value) for value in sorted(set(values) - {""}))),))


def _batches(openings: Sequence[ListedOpening]) -> tuple[tuple[str, Choices], ...]:
    """The batches that occur, by product; a choice's value is what the script compares with."""
    used = sorted({batch for one in openings for batch in one.batches})
    return tuple(
        (product, tuple((f"{product} / {batch}", batch) for _, batch in group))
        for product, group in groupby(used, key=lambda batch: batch[0])
    )
