"""`revealbook find`: openings that answer a question, with the pack and page of each."""

import json
from collections.abc import Iterator, Sequence
from dataclasses import asdict, dataclass, replace
from pathlib import Path
from tempfile import mkdtemp
from textwrap import wrap
from typing import Any, Literal, NamedTuple

import typer
from rich.markup import escape
from rich.table import Table

from revealbook.archive.refusal import Refused
from revealbook.archive.store import Archive
from revealbook.cli.exit_codes import UNUSABLE, WELL
from revealbook.cli.file import tell_refused
from revealbook.cli.indexing import LookedInto, looked_into
from revealbook.cli.page import write_found
from revealbook.cli.terminal import MARKS, WIDTH, out, plain
from revealbook.cli.viewer import show
from revealbook.lookup.find import find, terms_of
from revealbook.lookup.question import Answer, Found, Question, Unknown
from revealbook.lookup.sheet import Pages, copy_sheet, pack_of, sheet_name, sheet_pages

NOTHING_FOUND = 1
_ALL = 1_000_000
"""A page holds everything that was found, however many the terminal lists."""
_FEW = 5
"""For so many openings, pack and page are told below the table."""
_WIDEST_NAME = 26
COPY = (
    "Copied pages are for reading: without tags, not PDF/A, and without the records that a pack carries. "
    "The pack itself is the evidence."
)


@dataclass(frozen=True, slots=True)
class Asked:
    """What was asked on the command line, but for the question itself."""

    archive: Path
    index: str | None
    most: int
    sheets: Path | None
    show: bool
    page: Path | None
    language: str
    form: Literal["text", "json"]


class Placed(NamedTuple):
    """Where an opening's sheet is."""

    found: Found
    pack: Path | None
    pages: Pages | None


def run(question: Question, asked: Asked) -> int:
    """Find; give 0, 1 if nothing was found or a site could not be read, 2 if there is no such archive."""
    whole = True
    try:
        with looked_into(asked.archive, asked.index) as looked:
            all_found = find(looked.index, question, _ALL if asked.page else asked.most)
            answer = replace(all_found, found=all_found.found[: asked.most])
            if asked.form == "json":
                _print_json(looked, question, answer)
            else:
                _print(looked.archive, answer, question)
            written = []
            if asked.sheets or (asked.show and not asked.page):
                folder = asked.sheets or Path(mkdtemp(prefix="revealbook-sheets-"))
                written = _copy(looked.archive, answer.found, folder)
            if asked.page:
                parts = _parts(question)
                whole = write_found(looked.archive, asked.page, all_found.found, parts, asked.language)
                written = [asked.page]
            if asked.show:
                show(written)
    except Refused as refused:
        tell_refused(refused)
        return UNUSABLE
    return WELL if answer.found and whole and not looked.unread else NOTHING_FOUND


def _print(archive: Archive, answer: Answer, question: Question) -> None:
    for said in _remarks(answer):
        for line in wrap(plain(said), WIDTH, subsequent_indent="  "):
            typer.echo(line, err=True)
    if not answer.found:
        return
    out().print(_table(answer.found, versions=question.all_versions))
    if len(answer.found) <= _FEW:
        for one in answer.found:
            for line in _details(_placed(archive, one)):
                typer.echo(line)
    more = "" if answer.number == len(answer.found) else f"; the first {len(answer.found)} are shown"
    typer.echo(f"{answer.number} {'opening' if answer.number == 1 else 'openings'}{more}")


def _remarks(answer: Answer) -> Iterator[str]:
    for one in answer.unknown:
        yield _unknown(one)
    if not answer.found:
        known = "Each part of the question is known, but n" if not answer.unknown else "N"
        yield f"{known}o opening was found."


def _unknown(one: Unknown) -> str:
    near = f" Did you mean {one.nearest}?" if one.nearest else ""
    if one.what == "word":
        return f"Nothing filed says “{one.asked}”; it was left out of the question.{near}"
    return f"Nothing filed has the {one.what} {one.asked}.{near}"


def _table(found: Sequence[Found], *, versions: bool) -> Table:
    table = Table(
        box=None, pad_edge=False, padding=(0, 2, 0, 0), header_style="bold", show_edge=False, expand=True
    )
    names = [plain(f"{one.site}/{one.mark}") for one in found]
    width = min(_WIDEST_NAME, max(map(len, names)))
    table.add_column("opening", min_width=width, max_width=width, overflow="fold")
    table.add_column("outcome", no_wrap=True)
    if versions:
        table.add_column("version", no_wrap=True)
    table.add_column("last work", no_wrap=True)
    table.add_column("building / floor / room", overflow="ellipsis", no_wrap=True, ratio=1)
    for name, one in zip(names, found, strict=True):
        filed = f"{one.since}" if one.since == one.until else f"{one.since}-{one.until}"
        cells = [name, f"{MARKS[one.outcome]} {one.outcome}"]
        cells += [filed] if versions else []
        cells += [one.last or "-", f"{'claim, ' if _claimed(one) else ''}{place(one)}"]
        table.add_row(*(escape(plain(cell)) for cell in cells))
    return table


def _claimed(found: Found) -> bool:
    return any(one.kind == "claim" for one in found.later)


def place(found: Found) -> str:
    """Say where an opening is in little room: building, floor, room."""
    return " / ".join(name or "-" for name in (found.building, found.floor, found.room))


def _placed(archive: Archive, found: Found) -> Placed:
    pack = pack_of(archive, found)
    return Placed(found, pack, sheet_pages(pack, found.mark) if pack else None)


def _details(placed: Placed) -> Iterator[str]:
    one = placed.found
    yield plain(f"{one.site}/{one.mark}" + (f", serial {one.serial}" if one.serial else ""))
    for later in one.later:
        yield from wrap(
            plain(f"{later.kind} {later.day}: {later.said}"),
            WIDTH,
            initial_indent="  ",
            subsequent_indent="    ",
        )
    if placed.pack is None:
        yield f"  version {one.until}; which pack holds it is not known"
        return
    page = f", page {placed.pages.first}" if placed.pages else ""
    yield f"  version {one.until}{page}:"
    yield f"  {plain(str(placed.pack))}"


def _copy(archive: Archive, found: Sequence[Found], folder: Path) -> list[Path]:
    """Copy the sheet of every opening that was found into a folder; give the copies."""
    copies = []
    for one in found:
        placed = _placed(archive, one)
        if placed.pack is None or placed.pages is None:
            typer.echo(plain(f"{one.site}/{one.mark}: its pack has no bookmark for it; not copied"), err=True)
            continue
        copies.append(folder / sheet_name(one))
        copy_sheet(placed.pack, placed.pages, copies[-1])
    typer.echo(plain(f"{folder}: {len(copies)} {'sheet' if len(copies) == 1 else 'sheets'}"), err=True)
    for line in wrap(COPY, WIDTH):
        typer.echo(line, err=True)
    return copies


def _parts(question: Question) -> dict[str, Any]:
    """Give the parts of a question that were asked."""
    return {name: value for name, value in asdict(question).items() if value not in (None, "", False)}


def _print_json(looked: LookedInto, question: Question, answer: Answer) -> None:
    terms = terms_of(looked.index, answer.found)
    plain_answer = {
        "question": _parts(question),
        "understood": dict(answer.understood),
        "number": answer.number,
        "found": [_plain(looked.archive, one, terms[one.id]) for one in answer.found],
        "unknown": [asdict(one) for one in answer.unknown],
        "sites_not_in_the_index": [one.site for one in looked.unread],
    }
    typer.echo(json.dumps(plain_answer, ensure_ascii=False, indent=1, default=str))


def _plain(archive: Archive, one: Found, terms: Sequence[tuple[str, str]]) -> dict[str, Any]:
    said = {key: value for key, value in one._asdict().items() if key not in ("id", "terms", "later")}
    by_kind: dict[str, list[str]] = {}
    for kind, name in terms:
        by_kind.setdefault(kind, []).append(name)
    later = [later._asdict() for later in one.later]
    pack = pack_of(archive, one)
    return {**said, "pack_file": str(pack) if pack else None, "later": later, "shared": by_kind}
