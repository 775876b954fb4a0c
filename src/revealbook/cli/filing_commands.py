"""The commands of filing packs, their versions, sending and receiving, proof."""

from pathlib import Path
from typing import Annotated

import typer

from revealbook.cli.arguments import ArchiveFolder

filing = typer.Typer(rich_markup_mode=None)

By = Annotated[
    str | None, typer.Option("--by", metavar="NAME", help="Who files; the user's name if left out.")
]
WithoutPhotos = Annotated[
    bool, typer.Option("--without-photos", help="Go on if photographs lack; filing.json names them.")
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
    without_photos: WithoutPhotos = False,
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
    short_help="Join a claim or repair to an opening.",
    epilog="""\b
Examples:
  revealbook join claim-2036-1.yaml --archive /srv/packs --photos pictures
  revealbook join again/W-2.07.yaml --archive /srv/packs --by "Cleo Lot\"""",
)
def join(
    record: Annotated[
        Path, typer.Argument(metavar="RECORD", help="A claim, repair or re-measurement, as YAML.")
    ],
    *,
    archive: ArchiveFolder,
    photos: Annotated[
        Path | None,
        typer.Option("--photos", metavar="FOLDER", help="Photographs; photos beside it if left out."),
    ] = None,
    by: By = None,
    note: Note = "",
    without_photos: WithoutPhotos = False,
) -> None:
    """Join a later record to an opening that was filed, as a new version of its site.

    Nothing filed is changed, and a record that is there is never overwritten:
    a correction is a record of its own, which refers to the first one.
    """
    from revealbook.cli.file import Asked
    from revealbook.cli.join import run

    raise typer.Exit(run(record, Asked(archive, photos, by, note, without_photos)))


@filing.command(
    short_help="Which versions does an archive hold?",
    epilog="""\b
Examples:
  revealbook history --archive /srv/packs
  revealbook history larch-court --archive /srv/packs
  revealbook history larch-court --archive /srv/packs --between 1 2""",
)
def history(
    site: Annotated[
        str | None, typer.Argument(metavar="[SITE]", help="A site's id; all sites if left out.")
    ] = None,
    *,
    archive: ArchiveFolder,
    between: Annotated[
        tuple[int, int] | None,
        typer.Option("--between", metavar="OLD NEW", help="Tell what differs between two versions."),
    ] = None,
    output: Annotated[
        str, typer.Option("--format", metavar="FORMAT", help="Of --between: text or json.")
    ] = "text",
) -> None:
    """List the sites of an archive, or one site's versions: when, who, why, and the head of each."""
    if between:
        from revealbook.cli.between import run as run_between

        raise typer.Exit(run_between(archive, site, between, output))
    from revealbook.cli.history import run

    raise typer.Exit(run(archive, site))


@filing.command(
    short_help="Send a site's pack or filed version.",
    epilog="""\b
Examples:
  revealbook send larch-court --to larch-court.zip
  revealbook send signed.pdf --photos larch-court/photos --to signed.zip
  revealbook send larch-court --archive /srv/packs --to larch-court.zip
  revealbook send larch-court --archive /srv/packs --version 1 --to old.zip""",
)
def send(
    given: Annotated[
        str,
        typer.Argument(
            metavar="SITE", help="A site folder or a pack as PDF; with --archive the id of a filed site."
        ),
    ],
    *,
    to: Annotated[Path, typer.Option("--to", metavar="FILE.zip", help="The file to write.")],
    archive: Annotated[
        Path | None, typer.Option("--archive", metavar="DIR", help="Send what is filed there.")
    ] = None,
    version: Annotated[
        int | None,
        typer.Option("--version", metavar="N", help="With --archive: which version; the latest if left out."),
    ] = None,
    photos: Annotated[
        Path | None,
        typer.Option("--photos", metavar="FOLDER", help="Not filed: photographs; SITE/photos if left out."),
    ] = None,
    by: Annotated[
        str | None, typer.Option("--by", metavar="NAME", help="Not filed: who sends; else the user's name.")
    ] = None,
    note: Annotated[str, typer.Option("--note", metavar="TEXT", help="Not filed: why, in a few words.")] = "",
    without_photos: Annotated[
        bool, typer.Option("--without-photos", help="Not filed: go on if photographs lack.")
    ] = False,
) -> None:
    """Write a site with everything in it as one file, a zipped BagIt bag.

    Without --archive it is a pack that nobody has filed yet, with all that it
    refers to: SITE/pack/<id>.pdf, all volumes there, or the PDF that is named.
    With --archive it is one version of a site, as it was filed.

    The file is read back and its packs are judged again before it is said to
    be good. A filed version always gives the same bytes.
    """
    from revealbook.cli.send import Asked, run

    raise typer.Exit(run(Asked(given, to, archive, version, photos, by, note, without_photos)))


@filing.command(
    short_help="Check what was sent, and file it.",
    epilog="""\b
Examples:
  revealbook receive larch-court.zip
  revealbook receive larch-court.zip --archive /srv/packs --by "Cleo Lot\"""",
)
def receive(
    file: Annotated[Path, typer.Argument(metavar="FILE.zip", help="What `revealbook send` wrote.")],
    *,
    archive: Annotated[
        Path | None, typer.Option("--archive", metavar="DIR", help="File it there; only check if left out.")
    ] = None,
    by: By = None,
) -> None:
    """Check a file from `revealbook send`: nothing missing, added or changed.

    It is looked through before anything is unpacked, held against its digests,
    and its packs are judged again. With --archive all of it is then filed as one
    version; what the archive holds already changes nothing.
    """
    from revealbook.cli.receive import run

    raise typer.Exit(run(file, archive, by))
