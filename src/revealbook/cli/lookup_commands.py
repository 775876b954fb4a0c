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


@lookup.command(
    short_help="Tell how one opening was fixed.",
    epilog="""\b
Examples:
  revealbook story --archive /srv/packs larch-court/W-2.07
  revealbook story --archive /srv/packs larch-court/W-2.07 --format json
  revealbook story --archive /srv/packs larch-court/W-2.07 --language de""",
)
def story(
    opening: Annotated[str, typer.Argument(metavar="SITE/MARK", help="The opening.")],
    *,
    archive: Annotated[Path, typer.Option("--archive", metavar="DIR", help="The archive's folder.")],
    form: Annotated[
        Literal["text", "json"], typer.Option("--format", help="For readers or for programs.")
    ] = "text",
    language: Annotated[
        Literal["en", "de"], typer.Option("--language", help="The language of the story.")
    ] = "en",
) -> None:
    """Tell how one opening was fixed, by whom, with what and in what weather.

    Told from the records in its latest pack, judged again; then which versions
    were filed, what changed in them, and what claims and repairs came after.
    What was not recorded is said to be not shown. What is said of loads and
    adhesives is indicative and defers to the supplier and licensed practice.
    """
    from revealbook.cli.story import run

    raise typer.Exit(run(archive, opening, language, form))
