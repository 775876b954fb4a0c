"""The commands. Each imports what it needs when it runs, so that `--help` comes at once."""

import sys
from collections.abc import Mapping
from io import TextIOWrapper
from pathlib import Path
from typing import Annotated, Literal

import typer

from revealbook import __version__
from revealbook.cli.arguments import SiteFolder
from revealbook.cli.before_work import before_work
from revealbook.cli.exit_codes import UNUSABLE
from revealbook.cli.filing_commands import filing
from revealbook.cli.inspection_commands import inspection
from revealbook.cli.lookup_commands import lookup
from revealbook.cli.proving_commands import proving
from revealbook.cli.signing_commands import signing

app = typer.Typer(
    name="revealbook",
    no_args_is_help=True,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["-h", "--help"]},
    help="Prove the hidden work of window mounting: check records, make handover packs.",
    epilog="""\b
Exit status of check:
  0  nothing that was judged fails to conform
  1  something does not conform
  2  input could not be used
Other commands: 0 done, 2 not done; their own help says what else.

\b
Begin here: revealbook begin larch-court""",
)
for more in (before_work, signing, filing, proving, lookup, inspection):
    app.add_typer(more)


def _version(*, asked: bool) -> None:
    if asked:
        typer.echo(f"revealbook {__version__}")
        raise typer.Exit


@app.callback()
def _options(
    *,
    _version: Annotated[
        bool, typer.Option("--version", callback=_version, is_eager=True, help="Print the version.")
    ] = False,
) -> None:
    pass


@app.command(
    short_help="Make a new site folder.",
    epilog="Example: revealbook begin larch-court --first W-1.01",
)
def begin(
    folder: Annotated[Path, typer.Argument(metavar="FOLDER", help="The folder to make.")],
    first: Annotated[
        str, typer.Option("--first", metavar="MARK", help="Mark of the first opening.")
    ] = "W-1.01",
) -> None:
    """Make a new site folder with a commented site file and a blank record."""
    from revealbook.cli.begin import run

    raise typer.Exit(run(folder, first))


@app.command(
    short_help="Judge every opening: what does not conform?",
    epilog="""\b
Examples:
  revealbook check larch-court
  revealbook check larch-court --opening W-2.07 --open
  revealbook check larch-court --format json > findings.json""",
)
def check(
    site: SiteFolder,
    opening: Annotated[
        list[str] | None,
        typer.Option("--opening", metavar="MARK", help="Only this opening; may be repeated."),
    ] = None,
    open_: Annotated[
        bool, typer.Option("--open", help="Also list what is undecided or was not shown.")
    ] = False,
    strict: Annotated[
        bool, typer.Option("--strict", help="Exit 1 also if anything is undecided or not shown.")
    ] = False,
    format_: Annotated[
        Literal["text", "json"], typer.Option("--format", help="For people or for machines.")
    ] = "text",
) -> None:
    """Judge every opening and say what does not conform, where, and what to do."""
    from revealbook.cli.check import Asked, run

    raise typer.Exit(run(site, Asked(tuple(opening or ()), open_, strict, format_ == "json")))


@app.command(
    short_help="Make the handover pack as a PDF.",
    epilog="""\b
Examples:
  revealbook pack larch-court --to larch-court.pdf
  revealbook pack larch-court --volumes storey --to packs""",
)
def pack(
    site: SiteFolder,
    to: Annotated[
        Path | None,
        typer.Option(
            "--to", metavar="PATH", help="The PDF, or the folder for volumes; below SITE/pack if left out."
        ),
    ] = None,
    volumes: Annotated[
        Literal["building", "storey"] | None,
        typer.Option("--volumes", help="One PDF for each of these, and an index; for large sites."),
    ] = None,
    jobs: Annotated[
        int,
        typer.Option("--jobs", min=1, max=64, metavar="N", help="How many volumes to render side by side."),
    ] = 2,
) -> None:
    """Make the handover pack of a site as one PDF, or as volumes with an index.

    Exit status 0 says that the pack was written, also if something does not
    conform: ask `check` for that. Nothing is written as long as a record
    cannot be used, because a pack of half the records would hide the rest.
    A volume whose records have not changed is not rendered again.
    """
    from revealbook.cli.pack import Asked, run

    raise typer.Exit(run(site, Asked(to, volumes, jobs)))


@app.command(
    name="judge-again",
    short_help="Judge a pack from itself.",
    epilog="""\b
Examples:
  revealbook judge-again larch-court.pdf
  revealbook judge-again larch-court.pdf --today""",
)
def judge_again(
    pack: Annotated[Path, typer.Argument(metavar="PACK", help="A handover pack, as PDF.")],
    today: Annotated[
        bool, typer.Option("--today", help="Also say what today's edition of its rules judges differently.")
    ] = False,
    set_: Annotated[
        str | None, typer.Option("--set", metavar="NAME", help="Also judge by this shipped rule set.")
    ] = None,
) -> None:
    """Judge a pack again from the records and rules inside it.

    Says whether findings and pages agree with what the records give.
    Exit status 0 if they do, 1 if not, 2 if the file is no pack.
    """
    from revealbook.cli.judge_again import run

    raise typer.Exit(run(pack, today=today, rule_set=set_))


RulesOfSite = Annotated[
    Path | None, typer.Option("--site", metavar="SITE", help="The rules in force on this site.")
]
SetName = Annotated[str, typer.Option("--set", metavar="NAME", help="A shipped rule set.")]
Edition = Annotated[
    str | None, typer.Option("--edition", metavar="EDITION", help="Its edition; the newest if left out.")
]
RulesOfPack = Annotated[
    str | None,
    typer.Option(
        "--pack",
        metavar="PACK",
        help="The rules that a pack carries: a PDF; with --archive a filed site's id.",
    ),
]
RulesOfArchive = Annotated[
    Path | None, typer.Option("--archive", metavar="DIR", help="The archive that --pack names a site of.")
]


def _one_of(options: Mapping[str, object]) -> None:
    """Refuse options that answer the same question differently; one of them would be ignored in silence."""
    named = [name for name, value in options.items() if value is not None]
    if len(named) > 1:
        raise typer.BadParameter(f"{' and '.join(named)} cannot go together.")


@app.command(
    short_help="List the rules in force.",
    epilog="""\b
Examples:
  revealbook rules
  revealbook rules --site larch-court --stage frame
  revealbook rules --set published-limits --edition 2026-11
  revealbook rules --between 2026-11 2026-12
  revealbook rules --set published-limits --unread
  revealbook rules --pack larch-court.pdf""",
)
def rules(
    *,
    site: RulesOfSite = None,
    set_: SetName = "common-practice",
    edition: Edition = None,
    stage: Annotated[
        str | None, typer.Option("--stage", metavar="STAGE", help="Only rules of this stage.")
    ] = None,
    between: Annotated[
        tuple[str, str] | None,
        typer.Option("--between", metavar="OLD NEW", help="Show what differs between two editions of --set."),
    ] = None,
    not_read: Annotated[
        bool, typer.Option("--unread", help="List the keys of a record that no rule in force reads, and why.")
    ] = False,
    pack: RulesOfPack = None,
    archive: RulesOfArchive = None,
) -> None:
    """List the rules in force by stage of the work: id, grade, limit."""
    from revealbook.cli.rules import Which, run_between, run_list, run_unread

    _one_of({"--site": site, "--pack": pack, "--between": between})
    _one_of({"--between": between, "--unread": not_read or None, "--stage": None if between else stage})
    if not_read:
        raise typer.Exit(run_unread(Which(set_, edition, site, pack, archive)))
    if between:
        raise typer.Exit(run_between(set_, between, stage))
    raise typer.Exit(run_list(Which(set_, edition, site, pack, archive), stage))


@app.command(
    short_help="Explain one rule.",
    epilog="""\b
Examples:
  revealbook explain foam-set-before-trim --site larch-court
  revealbook explain first-hole --set common-practice --edition 2026-11
  revealbook explain first-hole --pack larch-court.pdf
  revealbook explain first-hole --pack larch-court --archive /srv/packs""",
)
def explain(
    rule: Annotated[str, typer.Argument(metavar="RULE", help="The rule's id.")],
    *,
    site: RulesOfSite = None,
    set_: SetName = "common-practice",
    edition: Edition = None,
    pack: RulesOfPack = None,
    archive: RulesOfArchive = None,
) -> None:
    """Say what a rule requires, what it rests on, why it matters and what to do about it."""
    from revealbook.cli.rules import Which, run_explain

    _one_of({"--site": site, "--pack": pack})
    raise typer.Exit(run_explain(rule, Which(set_, edition, site, pack, archive)))


@app.command(
    short_help="Print a JSON Schema, for editors.",
    epilog="Example: revealbook schema record > record.schema.json",
)
def schema(
    kind: Annotated[
        str,
        typer.Argument(metavar="KIND", help="site, record, claim, repair, re-measurement, rules or overlay."),
    ],
) -> None:
    """Print the JSON Schema of a kind of file, for editors."""
    from revealbook.cli.schema import run

    raise typer.Exit(run(kind))


@app.command(
    short_help="Can this machine make packs?",
    epilog="Example: revealbook doctor",
)
def doctor() -> None:
    """Say whether this machine can make packs, and what to install if not."""
    from revealbook.cli.doctor import run

    raise typer.Exit(run())


def main() -> None:
    """Run the command line; no traceback ever reaches a user for a fault of the input."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):
            stream.reconfigure(errors="replace")  # a terminal that lacks a sign shows ? for it
    try:
        app(prog_name="revealbook")
    except OSError as error:
        named = f"{error.filename}: " if error.filename else ""
        typer.echo(f"{named}{error.strerror or error}", err=True)
        raise SystemExit(UNUSABLE) from error
