"""`revealbook prove`: an archive held against what was filed."""

import json
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path

import typer
from platformdirs import user_cache_path

from revealbook.archive.copies import find_copies
from revealbook.archive.fixity import Fault
from revealbook.archive.proof import Proof, SiteProof, prove
from revealbook.archive.proof_data import noted_heads, proof_data
from revealbook.archive.proved import Proved
from revealbook.archive.refusal import Refused, refuse_existing
from revealbook.archive.store import Archive
from revealbook.cli.exit_codes import DOES_NOT_CONFORM, UNUSABLE, WELL
from revealbook.cli.file import tell_refused
from revealbook.cli.moment import moment
from revealbook.cli.printed import write_sheets
from revealbook.cli.terminal import folded, plain, progress
from revealbook.making.statement import make_statement


@dataclass(frozen=True, slots=True)
class Asked:
    """What was asked on the command line."""

    sites: Sequence[str] = ()
    heads: Sequence[str] = ()
    copies: Sequence[Path] = ()
    state: Path | None = None
    afresh: bool = False
    jobs: int = 2
    as_json: bool = False
    earlier: Sequence[Path] = ()
    statement: Path | None = None
    language: str = "en"


def run(path: Path, asked: Asked) -> int:
    """Prove; give 0 if everything is as it was filed, 1 if not, 2 if it could not be proved."""
    try:
        if asked.statement:  # at once, not after a long proof; it may be the only one with its heads
            refuse_existing(asked.statement)
        archive = Archive.open(path)
        heads = [*map(_head, asked.heads), *_heads_from(asked)]
        proved = _earlier(path, asked)
        with progress("proving") as seen:
            found = prove(archive, asked.sites, proved, heads=heads, jobs=asked.jobs, seen=seen)
    except Refused as refused:
        tell_refused(refused)
        return UNUSABLE
    copies = find_copies({fault.sha512 for fault in found.all_faults()}, asked.copies)
    if asked.as_json:
        typer.echo(json.dumps(proof_data(found, copies), ensure_ascii=False, indent=1))
    else:
        _tell(found, copies, looked=bool(asked.copies))
    if asked.statement and not _state(asked.statement, archive, found, copies, asked):
        return UNUSABLE
    proved.finish()
    return WELL if found.sound else DOES_NOT_CONFORM


def _state(target: Path, archive: Archive, found: Proof, copies: Mapping[str, Path], asked: Asked) -> bool:
    """Write the statement; give whether it was written."""
    made = moment()
    return write_sheets(
        target,
        lambda: make_statement(
            archive, found, made, copies=copies, file=target.name, language=asked.language
        ),
        aside=asked.as_json,
    )


def _heads_from(asked: Asked) -> Iterator[tuple[str, str]]:
    """Give the heads of earlier statements; of the sites that were named if any were."""
    for file in asked.earlier:
        heads = noted_heads(file)
        for site in asked.sites:
            if site not in heads:
                raise Refused(f"{file} notes no head of {site}.")
        yield from ((site, head) for site, head in heads.items() if not asked.sites or site in asked.sites)


def _earlier(archive: Path, asked: Asked) -> Proved:
    """Give what a proof that was broken off has proved, unless it is not to count."""
    name = sha256(str(archive.resolve()).encode()).hexdigest()[:16]
    file = asked.state or user_cache_path("revealbook") / "proofs" / f"{name}.jsonl"
    if asked.afresh:
        Proved(file).finish()
    proved = Proved.read(file)
    if len(proved):
        since = proved.since.isoformat(" ", "minutes")
        typer.echo(f"Going on with the proof begun {since}: {_number(len(proved), 'file')} proved.", err=True)
    return proved


def _head(given: str) -> tuple[str, str]:
    site, sign, head = given.rpartition("=")
    if not sign:
        raise Refused(f"{given!r} does not say whose head it is; write SITE=HEAD.")
    return site, head


def _tell(proof: Proof, copies: Mapping[str, Path], *, looked: bool) -> None:
    for fault in proof.faults:
        _tell_fault(fault, copies)
    for site in proof.sites:
        typer.echo(plain(f"{site.site}: {_said(site)}"))
        if site.versions:
            typer.echo(f"  head {site.versions[-1].head}")
        for number in site.noted:
            typer.echo(f"  version {number} still has the head that was noted")
        for fault in site.faults:
            _tell_fault(fault, copies)
    lost = [fault for fault in proof.all_faults() if fault.sha512]
    if lost and not looked:
        typer.echo("Name other copies with --copy DIR to see which of them holds what is lost here.")
    number = sum(1 for _ in proof.all_faults())
    typer.echo(
        "Everything is as it was filed."
        if proof.sound
        else f"Not as it was filed: {number} fault{'s' if number != 1 else ''}."
    )


def _said(site: SiteProof) -> str:
    said = [
        _number(len(site.versions), "version"),
        _number(site.files, "file"),
        f"{_number(site.packs, 'pack')} judged again",
    ]
    if site.signed:
        said.append(f"{_number(site.signed, 'pack')} with signatures that hold")
    if site.unchecked:
        said.append("signatures not checked (pip install 'revealbook[sign]')")
    return ", ".join(said)


def _number(number: int, what: str) -> str:
    return f"{number} {what}{'' if number == 1 else 's'}"


def _tell_fault(fault: Fault, copies: Mapping[str, Path]) -> None:
    held = f" ({fault.holds})" if fault.holds else ""
    rows = folded(f"■ {fault.path}{held} {fault.what}", "  ")
    if fault.sha512 in copies:
        rows += folded(f"the same content lies at {copies[fault.sha512]}", "    ")
    for row in rows:
        typer.echo(row)
