"""The commands of looking up filed packs: index, find, trace, story, page."""

from datetime import datetime
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
    short_help="Which other openings share the cause?",
    epilog="""\b
Examples:
  revealbook trace --archive /srv/packs --opening larch-court/W-2.07
  revealbook trace --archive /srv/packs --batch 7714 --most 100
  revealbook trace --archive /srv/packs --fitter ada --day 2026-11-20""",
)
def trace(
    *,
    archive: Annotated[Path, typer.Option("--archive", metavar="DIR", help="The archive's folder.")],
    opening: Annotated[
        str | None, typer.Option("--opening", metavar="SITE/MARK", help="What does this one share?")
    ] = None,
    batch: Annotated[
        str | None, typer.Option("--batch", metavar="B", help="Where was this batch used?")
    ] = None,
    fitter: Annotated[
        str | None, typer.Option("--fitter", metavar="P", help="Name or id: what did this one do?")
    ] = None,
    day: Annotated[
        datetime | None,
        typer.Option("--day", metavar="D", formats=["%Y-%m-%d"], help="With --fitter: on this day only."),
    ] = None,
    most: Annotated[int, typer.Option("--most", metavar="N", min=1, help="How many to list.")] = 20,
    index: Annotated[
        str | None,
        typer.Option("--index", metavar="WHERE", help="A file or postgresql:// address; if not the usual."),
    ] = None,
    form: Annotated[
        Literal["text", "json"], typer.Option("--format", help="For readers or for programs.")
    ] = "text",
) -> None:
    """List the openings that share a cause, and say why each is listed.

    Causes are: a batch of adhesive, foam or tape; a fitter on a day; weather
    below the limit; a rule that is not met. Ranked by the sum of log(N / n)
    over what is shared: N openings are filed, n of them have the cause, so
    that what is rare weighs more. What was not recorded is not found. A shared
    cause says where to look first: it is indicative, and defers to the
    supplier's written instructions and licensed practice.
    """
    from revealbook.cli.trace import Asked, run

    raise typer.Exit(run(Asked(archive, index, opening, batch, fitter, day, most), form))


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
