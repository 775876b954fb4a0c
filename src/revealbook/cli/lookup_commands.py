"""The commands of looking up filed packs: index, find, trace, story, page."""

from datetime import datetime
from pathlib import Path
from typing import Annotated, Literal

import typer

from revealbook.cli.arguments import ArchiveFolder, IndexPlace

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
    archive: ArchiveFolder,
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
    short_help="Find openings in an archive.",
    epilog="""\b
Examples:
  revealbook find --archive /srv/packs block B second floor bedroom
  revealbook find --archive /srv/packs --batch 7714
  revealbook find --archive /srv/packs --person ada --from 2026-11-20 \\
      --to 2026-11-21
  revealbook find --archive /srv/packs --mark W-2.07 --open
  revealbook find --archive /srv/packs --rule frame-overlap --sheet sheets
  revealbook find --archive /srv/packs --batch 7714 --page /srv/7714.html""",
)
def find(
    words: Annotated[
        list[str] | None, typer.Argument(metavar="[WORDS...]", help="Any words; places are understood.")
    ] = None,
    *,
    archive: ArchiveFolder,
    mark: Annotated[str | None, typer.Option("--mark", metavar="M", help="Its mark.")] = None,
    serial: Annotated[
        str | None, typer.Option("--serial", metavar="S", help="Serial number of its window.")
    ] = None,
    place: Annotated[
        str | None, typer.Option("--place", metavar="P", help="As “house B, 2nd floor, kitchen”.")
    ] = None,
    product: Annotated[
        str | None, typer.Option("--product", metavar="P", help="Name or id of a product used.")
    ] = None,
    batch: Annotated[
        str | None, typer.Option("--batch", metavar="B", help="A batch used; with --product, of that.")
    ] = None,
    fixing: Annotated[
        str | None, typer.Option("--fixing", metavar="F", help="Name or id of a fixing used.")
    ] = None,
    person: Annotated[
        str | None, typer.Option("--person", metavar="P", help="Somebody its record names.")
    ] = None,
    since: Annotated[
        datetime | None,
        typer.Option("--from", metavar="D", formats=["%Y-%m-%d"], help="Worked on then or later."),
    ] = None,
    until: Annotated[
        datetime | None,
        typer.Option("--to", metavar="D", formats=["%Y-%m-%d"], help="Worked on then or earlier."),
    ] = None,
    rule: Annotated[
        str | None, typer.Option("--rule", metavar="R", help="This rule is not simply met.")
    ] = None,
    outcome: Annotated[
        Literal["conforms", "does not conform", "undecided", "not shown"] | None,
        typer.Option("--outcome", help="Its outcome; with --rule, of that rule."),
    ] = None,
    site: Annotated[str | None, typer.Option("--site", metavar="ID", help="Only this site.")] = None,
    all_versions: Annotated[
        bool, typer.Option("--all-versions", help="Not only what was filed last of each opening.")
    ] = False,
    most: Annotated[int, typer.Option("--most", metavar="N", min=1, help="How many to list.")] = 50,
    sheet: Annotated[
        Path | None, typer.Option("--sheet", metavar="FOLDER", help="Copy each opening's sheet there.")
    ] = None,
    show: Annotated[
        bool, typer.Option("--open", help="Open the sheets, or the page, in the usual program.")
    ] = False,
    page: Annotated[
        Path | None, typer.Option("--page", metavar="FILE", help="Write all that is found as a page, HTML.")
    ] = None,
    language: Annotated[
        Literal["en", "de"], typer.Option("--language", help="The language of the page.")
    ] = "en",
    index: IndexPlace = None,
    form: Annotated[
        Literal["text", "json"], typer.Option("--format", help="For readers or for programs.")
    ] = "text",
) -> None:
    """Find openings by what was filed of them; all that is asked must hold.

    Words are looked for in everything that was written: mark, serial, place,
    names, batches, notes, what photographs show, nonconformities, claims.
    Building and floor are understood in English and German. What was filed
    since is taken in first. Status 1 if nothing was found.
    """
    from revealbook.cli.find import Asked, run
    from revealbook.lookup.question import Question
    from revealbook.rules.finding import Outcome

    question = Question(
        words=" ".join(words or ()), mark=mark, serial=serial, place=place, product=product, batch=batch,
        fixing=fixing, person=person, since=since.date() if since else None,
        until=until.date() if until else None, rule=rule, outcome=Outcome(outcome) if outcome else None,
        site=site, all_versions=all_versions,
    )  # fmt: skip
    raise typer.Exit(run(question, Asked(archive, index, most, sheet, show, page, language, form)))


@lookup.command(
    short_help="Build the index of an archive anew.",
    epilog="""\b
Examples:
  revealbook index --archive /srv/packs
  revealbook index --archive /srv/packs --index /srv/index.sqlite
  revealbook index --archive packs --index postgresql://reader@db/windows""",
)
def index(
    *,
    archive: ArchiveFolder,
    where: IndexPlace = None,
) -> None:
    """Build the index that `find` and `trace` ask, from what is filed.

    They do it themselves the first time, and take in what was filed since. The
    index is only a copy: deleted, it is built again and answers the same.
    """
    from revealbook.cli.index import run

    raise typer.Exit(run(archive, where))


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
    archive: ArchiveFolder,
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
    index: IndexPlace = None,
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
    archive: ArchiveFolder,
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
