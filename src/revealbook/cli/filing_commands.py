"""The commands of filing packs, their versions, sending and receiving, proof."""

from pathlib import Path
from typing import Annotated

import typer

filing = typer.Typer(rich_markup_mode=None)

ArchiveFolder = Annotated[Path, typer.Option("--archive", metavar="DIR", help="The archive's folder.")]
By = Annotated[
    str | None, typer.Option("--by", metavar="NAME", help="Who files; the user's name if left out.")
]
Note = Annotated[str, typer.Option("--note", metavar="TEXT", help="Why, in a few words.")]


@filing.command(
    short_help="File packs in an archive.",
    epilog="""\b
Examples:
  revealbook file larch-court --archive /srv/packs --by "Ada Fensterlein"
  revealbook file signed.pdf --photos larch-court/photos --archive /srv/packs""",
)
def file(
    given: Annotated[
        list[Path], typer.Argument(metavar="SITE_OR_PACK...", help="Site folders, or packs as PDF.")
    ],
    *,
    archive: ArchiveFolder,
    photos: Annotated[
        Path | None, typer.Option("--photos", metavar="FOLDER", help="Photographs; SITE/photos if left out.")
    ] = None,
    by: By = None,
    note: Note = "",
    without_photos: Annotated[
        bool, typer.Option("--without-photos", help="File even if photographs lack; they are named.")
    ] = False,
) -> None:
    """File packs, each site as a new version; nothing that was filed is lost.

    A pack is judged again first, and refused if it does not agree with
    itself. A site folder means its pack, SITE/pack/<id>.pdf, or all volumes
    there. Filing the same again changes nothing. The archive is made if it
    does not exist. Read docs/archive.md for what lies where.
    """
    from revealbook.cli.file import Asked, run

    raise typer.Exit(run(given, Asked(archive, photos, by, note, without_photos)))


@filing.command(
    short_help="Which versions does an archive hold?",
    epilog="""\b
Examples:
  revealbook history --archive /srv/packs
  revealbook history larch-court --archive /srv/packs""",
)
def history(
    site: Annotated[
        str | None, typer.Argument(metavar="[SITE]", help="A site's id; all sites if left out.")
    ] = None,
    *,
    archive: ArchiveFolder,
) -> None:
    """List the sites of an archive, or one site's versions: when, who, why, and the head of each."""
    from revealbook.cli.history import run

    raise typer.Exit(run(archive, site))
