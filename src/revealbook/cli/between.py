"""`revealbook history --between`: what differs between two versions of a site."""

import json
from collections.abc import Mapping, Sequence
from dataclasses import asdict
from pathlib import Path

import typer

from revealbook.archive.difference import Change, differences
from revealbook.archive.file import FINDINGS
from revealbook.archive.refusal import Refused
from revealbook.archive.store import Archive, Version
from revealbook.cli.exit_codes import DOES_NOT_CONFORM, UNUSABLE, WELL
from revealbook.cli.file import tell_refused
from revealbook.cli.terminal import folded, plain
from revealbook.records.load import OPENINGS

FORMAT = "revealbook-differences-1"


def run(path: Path, site: str | None, between: tuple[int, int], output: str) -> int:
    """Tell what differs; give 0 if nothing does, 1 if something does, 2 if there is no such version."""
    if output not in {"text", "json"}:
        typer.echo(f"{output} is no format; there are: text, json.", err=True)
        return UNUSABLE
    if site is None:
        typer.echo("--between compares two versions of one site; name the site.", err=True)
        return UNUSABLE
    try:
        archive = Archive.open(path)
        old, new = (archive.version(site, number) for number in between)
        found = differences(_files(archive, site, old, new), _files(archive, site, new, old))
    except Refused as refused:
        tell_refused(refused)
        return UNUSABLE
    typer.echo(_json(site, between, found) if output == "json" else _text(site, between, found))
    return DOES_NOT_CONFORM if found else WELL


def _files(archive: Archive, site: str, version: Version, other: Version) -> Mapping[str, bytes]:
    """Read what a comparison needs: records and findings, and of the rest what is not the same."""
    read = (f"{OPENINGS}/", FINDINGS)
    return {
        path: file.read_bytes()
        for path, file in archive.contents(site, version.number).items()
        if path.startswith(read) or other.state.get(path) != version.state[path]
    }


def _json(site: str, between: tuple[int, int], found: Sequence[Change]) -> str:
    plainly = {"format": FORMAT, "site": site, "between": between, "changes": [asdict(one) for one in found]}
    return json.dumps(plainly, ensure_ascii=False, indent=1)


def _text(site: str, between: tuple[int, int], found: Sequence[Change]) -> str:
    old, new = between
    if not found:
        return f"{site}: nothing differs between version {old} and version {new}."
    rows = [f"{site}: {len(found)} differences between version {old} and version {new}"]
    mark = None
    for one in found:
        if one.mark != mark:
            mark = one.mark
            rows.append(plain(mark) or "the whole site")
        rows += folded(f"{one.about} {one.what}: {_change(one)}", "  ")
    return "\n".join(rows)


def _change(one: Change) -> str:
    if one.before is None:
        return "added" if one.after == "there" else f"added, {one.after}"
    if one.after is None:
        return "withdrawn" if one.before == "there" else f"withdrawn, was {one.before}"
    return f"{one.before} -> {one.after}"
