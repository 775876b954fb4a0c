"""The commands of the clerk's desk: sample, compare, question."""

from pathlib import Path
from typing import Annotated, Literal

import typer

from revealbook.cli.arguments import SiteFolder

inspection = typer.Typer(rich_markup_mode=None)


@inspection.command(
    short_help="Draw openings to measure again.",
    epilog="""\b
Examples:
  revealbook sample larch-court --building B
  revealbook sample larch-court --aql 4.0 --by fitter --seed 20261124
  revealbook sample larch-court --records again""",
)
def sample(
    site: SiteFolder,
    *,
    aql: Annotated[
        Literal["1.0", "1.5", "2.5", "4.0", "6.5"],
        typer.Option(
            "--aql", metavar="PCT", help="Quality limit: 1.0, 1.5, 2.5, 4.0 or 6.5 % nonconforming."
        ),
    ] = "2.5",
    seed: Annotated[
        int | None,
        typer.Option(
            "--seed", metavar="N", min=0, help="Draw the same sample again; drawn afresh if left out."
        ),
    ] = None,
    by: Annotated[
        list[str] | None,
        typer.Option(
            "--by", metavar="PART", help="Divide by elevation, fitter, building or floor; repeatable."
        ),
    ] = None,
    building: Annotated[
        str | None, typer.Option("--building", metavar="NAME", help="The lot is this building.")
    ] = None,
    floor: Annotated[
        str | None, typer.Option("--floor", metavar="NAME", help="The lot is this floor.")
    ] = None,
    fitter: Annotated[
        str | None, typer.Option("--fitter", metavar="ID", help="The lot is this fitter's work.")
    ] = None,
    to: Annotated[
        Path | None,
        typer.Option("--to", metavar="FILE", help="The PDF; SITE/pack/<id>-inspection.pdf if left out."),
    ] = None,
    records: Annotated[
        Path | None,
        typer.Option("--records", metavar="FOLDER", help="Also write a blank re-measurement per opening."),
    ] = None,
    show_values: Annotated[
        bool, typer.Option("--show-values", help="Print the fitter's values too; not blind then.")
    ] = False,
    format_: Annotated[
        Literal["pdf", "json"], typer.Option("--format", help="Sheets, or JSON on the terminal.")
    ] = "pdf",
) -> None:
    """Draw a sample of openings and make the sheets for measuring them again.

    Beside the PDF stands the sample as JSON, for `compare --sample`. Rules
    of grade critical are listed for inspection on every opening: a sample
    is no answer to them.
    """
    from revealbook.cli.sample import Asked, run
    from revealbook.inspection.draw import KEYS, Chosen

    parts = tuple(key for key in KEYS if key in (by or ()))
    if unknown := set(by or ()) - set(KEYS):
        raise typer.BadParameter(f"--by is one of {', '.join(KEYS)}, not {', '.join(sorted(unknown))}")
    chosen = Chosen(building, floor, fitter)
    asked = Asked(aql, seed, parts, chosen, to, records, blind=not show_values, json=format_ == "json")
    raise typer.Exit(run(site, asked))


@inspection.command(
    short_help="Hold re-measurements against the records.",
    epilog="""\b
Examples:
  revealbook compare larch-court again/B-1.01.yaml
  revealbook compare larch-court again/*.yaml --sample pack/sample.json""",
)
def compare(
    site: SiteFolder,
    remeasurements: Annotated[
        list[Path], typer.Argument(metavar="REMEASUREMENT...", help="Re-measurement records, as YAML.")
    ],
    *,
    sample: Annotated[
        Path | None,
        typer.Option("--sample", metavar="FILE", help="The sample as JSON: also accept or reject its lot."),
    ] = None,
    to: Annotated[
        Path | None, typer.Option("--to", metavar="FILE", help="Also write what was found as a PDF.")
    ] = None,
    format_: Annotated[
        Literal["text", "json"], typer.Option("--format", help="For people or for machines.")
    ] = "text",
) -> None:
    """Hold an inspector's readings against the fitter's, and accept or reject.

    A reading differs if the two lie further apart than their combined
    uncertainty. Exit status 1 if a reading differs, a rule does not conform
    by the inspector's value, or the lot is rejected.
    """
    from revealbook.cli.compare import Asked, run

    raise typer.Exit(run(site, Asked(tuple(remeasurements), sample, to, format_ == "json")))


@inspection.command(
    short_help="What in these records is worth a question?",
    epilog="Example: revealbook question larch-court",
)
def question(
    site: SiteFolder,
    format_: Annotated[
        Literal["text", "json"], typer.Option("--format", help="For people or for machines.")
    ] = "text",
) -> None:
    """Ask about readings that repeat, photographs used twice, times that clash.

    These are questions to talk over, no findings: they change no outcome,
    and the exit status is 0 whenever the records could be read.
    """
    from revealbook.cli.question import run

    raise typer.Exit(run(site, json=format_ == "json"))
