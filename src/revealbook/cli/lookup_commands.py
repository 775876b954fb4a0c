"""The commands of looking up filed packs: index, find, trace, story, page."""

from pathlib import Path
from typing import Annotated, Literal

import typer

lookup = typer.Typer(rich_markup_mode=None)


@lookup.command(
    short_help="Make a page to look at without a terminal.",
    epilog="""\b
Examples:
  revealbook page --archive /srv/packs --to /srv/register.html
  revealbook page --archive packs --site larch-court --to larch-court.html""",
)
def page(
    *,
    archive: Annotated[Path, typer.Option("--archive", metavar="DIR", help="The archive's folder.")],
    to: Annotated[Path, typer.Option("--to", metavar="FILE", help="The HTML file to write.")],
    site: Annotated[
        list[str] | None, typer.Option("--site", metavar="ID", help="Only this site; may be repeated.")
    ] = None,
    language: Annotated[
        Literal["en", "de"], typer.Option("--language", help="The language of the page.")
    ] = "en",
) -> None:
    """Write the archive's register as one HTML file: search, filters, details.

    It needs no server, no network and no program. Beside the archive, each
    opening leads to its page in its pack.
    """
    from revealbook.cli.page import run

    raise typer.Exit(run(archive, to, site or [], language))
