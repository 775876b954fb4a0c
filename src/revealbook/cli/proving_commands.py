"""The command of proving an archive."""

from pathlib import Path
from typing import Annotated, Literal

import typer

from revealbook.cli.arguments import ArchiveFolder

proving = typer.Typer(rich_markup_mode=None)


@proving.command(
    short_help="Is an archive still what was filed?",
    epilog="""\b
Examples:
  revealbook prove --archive /srv/packs
  revealbook prove larch-court --archive /srv/packs --head larch-court=5f3c...
  revealbook prove --archive /srv/packs --copy /mnt/backup --format json
  revealbook prove --archive /srv/packs --statement heads-2026-11.pdf
  revealbook prove --archive /srv/packs --heads-from heads-2026-11.pdf""",
)
def prove(
    sites: Annotated[
        list[str] | None, typer.Argument(metavar="[SITE...]", help="Sites; all of them if left out.")
    ] = None,
    *,
    archive: ArchiveFolder,
    head: Annotated[
        list[str] | None,
        typer.Option("--head", metavar="SITE=HEAD", help="A head noted on paper; may be repeated."),
    ] = None,
    heads_from: Annotated[
        list[Path] | None,
        typer.Option(
            "--heads-from",
            metavar="FILE",
            help="An earlier statement, PDF, whose heads are to hold; may be repeated.",
        ),
    ] = None,
    statement: Annotated[
        Path | None,
        typer.Option("--statement", metavar="FILE", help="Write heads and proof as PDF, to print and sign."),
    ] = None,
    language: Annotated[
        Literal["en", "de"], typer.Option("--language", help="The language of the statement.")
    ] = "en",
    copy: Annotated[
        list[Path] | None,
        typer.Option(
            "--copy", metavar="DIR", exists=True, help="Look here for what is lost; may be repeated."
        ),
    ] = None,
    state: Annotated[
        Path | None,
        typer.Option("--state", metavar="FILE", help="What a broken-off proof has proved already."),
    ] = None,
    afresh: Annotated[
        bool, typer.Option("--afresh", help="Do not go on with a broken-off proof; prove all anew.")
    ] = False,
    jobs: Annotated[
        int, typer.Option("--jobs", min=1, max=64, metavar="N", help="How many processes share the work.")
    ] = 2,
    format_: Annotated[
        Literal["text", "json"], typer.Option("--format", help="For people or for machines.")
    ] = "text",
) -> None:
    """Prove that an archive is what was filed, and name what is not.

    Every file is hashed, every pack judged again, every signature checked, and
    the chain of versions computed anew. A head that was noted on paper shows
    that history was not rewritten or taken back. A proof that is broken off
    goes on where it stopped. A damaged file is named with what it holds, and
    with another copy that could restore it if one is found. A statement is a
    PDF with all heads, to be printed, signed and kept elsewhere; of an unsound
    archive it lists the faults.
    Exit status 0: all as it was filed, 1: not, 2: it could not be proved.
    """
    from revealbook.cli.prove import Asked, run

    asked = Asked(
        tuple(sites or ()), tuple(head or ()), tuple(copy or ()), state, afresh, jobs, format_ == "json",
        tuple(heads_from or ()), statement, language,
    )  # fmt: skip
    raise typer.Exit(run(archive, asked))
