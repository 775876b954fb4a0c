"""The commands of what is done before the work: setting out, cutting list, blank records."""

from pathlib import Path
from typing import Annotated, Literal

import typer

from revealbook.cli.arguments import SiteFolder

before_work = typer.Typer(rich_markup_mode=None)


@before_work.command(
    "set-out",
    short_help="Where to cut, drill and support.",
    epilog="""\b
Examples:
  revealbook set-out larch-court
  revealbook set-out larch-court --opening A-0.01 --to A-0.01.pdf""",
)
def set_out(
    site: SiteFolder,
    *,
    opening: Annotated[
        list[str] | None,
        typer.Option("--opening", metavar="MARK", help="Only this opening; may be repeated."),
    ] = None,
    to: Annotated[
        Path | None,
        typer.Option("--to", metavar="FILE", help="The PDF; SITE/pack/<id>-setting-out.pdf if left out."),
    ] = None,
    format_: Annotated[
        Literal["pdf", "json"], typer.Option("--format", help="Sheets, or JSON on the terminal.")
    ] = "pdf",
    waste: Annotated[
        float | None,
        typer.Option("--waste", metavar="PCT", min=0, max=200, help="One waste for all materials, in %."),
    ] = None,
) -> None:
    """Say before the work where to cut, drill and support, and what to bring."""
    from revealbook.cli.set_out import Asked, run

    raise typer.Exit(run(site, Asked(tuple(opening or ()), to, format_ == "json", waste)))


@before_work.command(
    short_help="Make the cutting list from stock lengths.",
    epilog="Example: revealbook cut larch-court --kerf 4 --offcut frame-profile:1250",
)
def cut(
    site: SiteFolder,
    *,
    opening: Annotated[
        list[str] | None,
        typer.Option("--opening", metavar="MARK", help="Only this opening; may be repeated."),
    ] = None,
    to: Annotated[
        Path | None,
        typer.Option("--to", metavar="FILE", help="The PDF; SITE/pack/<id>-cutting-list.pdf if left out."),
    ] = None,
    format_: Annotated[
        Literal["pdf", "json"], typer.Option("--format", help="A list to print, or JSON on the terminal.")
    ] = "pdf",
    kerf: Annotated[int, typer.Option("--kerf", metavar="MM", min=0, max=20, help="The saw's cut.")] = 4,
    usable: Annotated[
        int, typer.Option("--usable", metavar="MM", min=1, help="Keep offcuts from this length.")
    ] = 500,
    offcut: Annotated[
        list[str] | None,
        typer.Option("--offcut", metavar="PROFILE:MM", help="An offcut in the store; may be repeated."),
    ] = None,
) -> None:
    """Make the site's cutting list from stock lengths, with the least order proved."""
    from revealbook.cli.set_out import Asked, offcuts, run_cut
    from revealbook.setting_out.site_cuts import Saw

    try:
        store = offcuts(offcut or [])
    except ValueError as error:
        raise typer.BadParameter(str(error)) from error
    saw = Saw(kerf_mm=kerf, usable_offcut_mm=usable, offcuts_mm=store)
    raise typer.Exit(run_cut(site, Asked(tuple(opening or ()), to, format_ == "json"), saw))


@before_work.command(
    short_help="Make blank records from a schedule.",
    epilog="Example: revealbook openings larch-court schedule.xlsx",
)
def openings(
    site: SiteFolder,
    schedule: Annotated[
        Path,
        typer.Argument(
            metavar="SCHEDULE", help="CSV or XLSX: mark, building, floor, room, width_mm, height_mm, ..."
        ),
    ],
) -> None:
    """Make a blank record for each opening of a schedule; records that are there stay as they are."""
    from revealbook.cli.set_out import run_openings

    raise typer.Exit(run_openings(site, schedule))
