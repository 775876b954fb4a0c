"""A statement of heads, to be printed, signed by hand and kept: what was proved, how to check it later."""

import shlex
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime

from revealbook.present.faults import Held, say_held
from revealbook.present.words import N_, Words

_GROUP, _GROUPS_A_LINE = 4, 4
_LISTED = 200
"""So many faults are listed on paper; the proof that the file carries has all of them."""


@dataclass(frozen=True, slots=True)
class ProvedSite:
    """What was proved of a site.

    Attributes:
        site: its id.
        name: its name, or its id if nobody knows.
        versions: how many versions.
        head: the head of the latest one; empty if there is none that can be read.
        filed: when that was filed.
        by: by whom.
        files, packs: how many files were hashed, and how many packs judged again.
        signed: packs with signatures that hold.
        unchecked: packs whose signatures could not be checked.
        noted: versions whose heads were noted earlier, and hold.
        faults: how many.
    """

    site: str
    name: str
    versions: int
    head: str
    filed: datetime | None
    by: str
    files: int
    packs: int
    signed: int
    unchecked: int
    noted: tuple[int, ...]
    faults: int


@dataclass(frozen=True, slots=True)
class ProvedFault:
    """What is not as it was filed: where, what that holds, and what is wrong as a text with its facts."""

    path: str
    held: tuple[Held, ...]
    text: str
    facts: dict[str, object]


@dataclass(frozen=True, slots=True)
class ProvedArchive:
    """What was proved of an archive.

    Attributes:
        name, path: what it is called, and where it is.
        there: how many sites it holds.
        begun, finished: when the proof was made, with zones.
        program: name and version of the program.
        sites: the sites that were proved.
        faults: all faults.
    """

    name: str
    path: str
    there: int
    begun: datetime
    finished: datetime
    program: str
    sites: tuple[ProvedSite, ...]
    faults: tuple[ProvedFault, ...]


@dataclass(frozen=True, slots=True)
class StatedSite:
    """A site on the statement: its name, facts, its head in lines of groups, and what its code says."""

    name: str
    facts: tuple[tuple[str, str], ...]
    head: tuple[tuple[str, ...], ...]
    code: str
    code_title: str


@dataclass(frozen=True, slots=True)
class Statement:
    """What a statement shows.

    Attributes:
        name: the archive.
        sound: whether everything is as it was filed.
        verdict, detail: the same as a sentence, and what it leaves open.
        facts: which archive, when, with what.
        method: what was done.
        faults: what is not as it was filed: path, what it holds, what is wrong with it.
        more: that there are more faults; empty if all are listed.
        sites: the sites with their heads.
        command: the command that holds the first head against the archive, in parts that stay whole; none
            without a head.
        from_file: the command that holds all heads of the file against it.
    """

    name: str
    sound: bool
    verdict: str
    detail: str
    facts: tuple[tuple[str, str], ...]
    method: str
    faults: tuple[tuple[str, str, str], ...]
    more: str
    sites: tuple[StatedSite, ...]
    command: tuple[str, ...]
    from_file: str


def statement(proved: ProvedArchive, file: str, words: Words) -> Statement:
    """Give what a statement shows.

    Args:
        proved: what was proved.
        file: what the statement's file is called.
        words: the reader's language.
    """
    archive = f"--archive {shlex.quote(proved.path)}"
    with_head = next((site for site in proved.sites if site.head), None)
    number = len(proved.faults)
    return Statement(
        name=proved.name,
        sound=not number,
        verdict=words.count(
            number, N_("Not as it was filed: 1 fault."), N_("Not as it was filed: {number} faults.")
        ) if number else words.say(N_("Everything that was looked at is as it was filed.")),
        detail=" ".join(_left_open(proved, words)),
        facts=tuple(_facts(proved, words)),
        method=_method(proved, words),
        faults=tuple(
            (one.path, say_held(one.held, words) or "–", words.say(one.text, **one.facts))
            for one in proved.faults[:_LISTED]
        ),
        more=_more(number - _LISTED, words),
        sites=tuple(_stated(site, words) for site in proved.sites),
        command=_command(with_head, archive) if with_head else (),
        from_file=f"revealbook prove {archive} --heads-from {shlex.quote(file)}",
    )  # fmt: skip


def _more(number: int, words: Words) -> str:
    if number <= 0:
        return ""
    return words.say(N_("And {number} more; the proof inside this file lists all."), number=number)


def _command(site: ProvedSite, archive: str) -> tuple[str, ...]:
    return f"revealbook prove {shlex.quote(site.site)} {archive}", f'--head "{site.site}={site.head}"'


def _left_open(proved: ProvedArchive, words: Words) -> Iterator[str]:
    """Say what the verdict does not cover."""
    if len(proved.sites) < proved.there:
        yield words.say(
            N_("Looked at: {number} of {there} sites; nothing is said of the others."),
            number=len(proved.sites), there=proved.there,
        )  # fmt: skip
    if unchecked := sum(site.unchecked for site in proved.sites):
        yield words.count(
            unchecked,
            N_("The signatures of 1 pack were not checked."),
            N_("The signatures of {number} packs were not checked."),
        )


def _method(proved: ProvedArchive, words: Words) -> str:
    if any(site.unchecked for site in proved.sites):
        return words.say(
            N_("Every file was hashed and held against the list of its version, every pack judged again from "
               "what it carries, and the chain of heads computed anew.")
        )  # fmt: skip
    return words.say(
        N_("Every file was hashed and held against the list of its version, every pack judged again from "
           "what it carries, every signature in it checked, and the chain of heads computed anew.")
    )  # fmt: skip


def _facts(proved: ProvedArchive, words: Words) -> Iterator[tuple[str, str]]:
    yield words.say(N_("Archive")), f"{proved.name} ({proved.path})"
    begun, finished = _moment(proved.begun, words), _moment(proved.finished, words)
    at = finished
    if proved.begun < proved.finished and begun != finished:
        at = words.say(N_("{begun} to {finished}"), begun=begun, finished=finished)
    yield words.say(N_("Proved")), at
    yield words.say(N_("With")), proved.program
    yield (
        words.say(N_("Sites")),
        words.say(N_("{number} of {there}"), number=len(proved.sites), there=proved.there),
    )


def _moment(at: datetime, words: Words) -> str:
    """Write a moment with its zone: paper travels."""
    zone = at.isoformat()[-6:] if at.utcoffset() else ""
    return f"{words.moment(at)} UTC{zone}"


def _stated(site: ProvedSite, words: Words) -> StatedSite:
    return StatedSite(
        name=site.name,
        facts=tuple(_site_facts(site, words)),
        head=grouped(site.head),
        code=f"{site.site}={site.head}" if site.head else "",
        code_title=words.say(N_("QR code: id and head of {site}"), site=site.site),
    )


def _site_facts(site: ProvedSite, words: Words) -> Iterator[tuple[str, str]]:
    yield words.say(N_("Id")), site.site
    if site.filed is None:
        yield words.say(N_("Versions")), words.say(N_("none: its list of files cannot be read"))
    else:
        yield (
            words.say(N_("Latest version")),
            words.say(
                N_("{number}, filed {moment} by {name}"),
                number=site.versions, moment=_moment(site.filed, words), name=site.by,
            ),
        )  # fmt: skip
    yield words.say(N_("Looked at")), ", ".join(_looked_at(site, words))
    if site.noted:
        numbers = words.listed([str(number) for number in site.noted])
        yield (
            words.say(N_("Heads noted earlier")),
            words.count(
                len(site.noted), N_("that of version {numbers} holds"),
                N_("those of versions {numbers} hold"), numbers=numbers,
            ),
        )  # fmt: skip
    if site.faults:
        yield (
            words.say(N_("Faults")),
            words.count(site.faults, N_("1, listed above"), N_("{number}, listed above")),
        )


def _looked_at(site: ProvedSite, words: Words) -> Iterator[str]:
    yield words.count(site.versions, N_("1 version"), N_("{number} versions"))
    yield words.count(site.files, N_("1 file"), N_("{number} files"))
    yield words.count(site.packs, N_("1 pack judged again"), N_("{number} packs judged again"))
    if site.signed:
        yield words.count(
            site.signed,
            N_("1 pack with signatures that hold"),
            N_("{number} packs with signatures that hold"),
        )
    if site.unchecked:
        yield words.say(N_("signatures not checked"))
    elif site.packs and not site.signed:
        yield words.say(N_("no pack signed"))


def grouped(head: str) -> tuple[tuple[str, ...], ...]:
    """Give a head in lines of groups that people read out and compare."""
    groups: Sequence[str] = [head[start : start + _GROUP] for start in range(0, len(head), _GROUP)]
    lines = range(0, len(groups), _GROUPS_A_LINE)
    return tuple(tuple(groups[start : start + _GROUPS_A_LINE]) for start in lines)
