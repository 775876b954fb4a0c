"""How results look on a terminal of 80 columns, with and without colour."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import contextmanager
from functools import partial
from itertools import groupby
from textwrap import wrap

import typer
from rich.console import Console
from rich.markup import escape
from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn, TimeRemainingColumn
from rich.table import Table

from revealbook.present.nonconformities import NOT_YET_DUE_REMEDY, Accepted, Entry, Point
from revealbook.present.problems import line
from revealbook.present.register import Row
from revealbook.present.words import N_, Words
from revealbook.render.failure import RenderFailed
from revealbook.rules.finding import Outcome
from revealbook.source.problem import Problem

MARKS = {
    Outcome.CONFORMS: "●",
    Outcome.DOES_NOT_CONFORM: "■",
    Outcome.UNDECIDED: "◐",
    Outcome.NOT_SHOWN: "○",
    Outcome.DOES_NOT_APPLY: "–",
}
"""A shape for each outcome, told apart without colour."""
NOT_YET_DUE_MARK = "◌"
"""The shape of what is not shown and has still to come."""
WIDTH = 78
"""Columns that running text fills."""
_WIDEST_MARK = 20
_BOUND = "\u00a0"
_STYLES = dict.fromkeys(Outcome, "") | {Outcome.DOES_NOT_CONFORM: "bold"}


def out() -> Console:
    """Give the console for results; plain text if it is no terminal."""
    return Console(highlight=False, soft_wrap=False)


def err() -> Console:
    """Give the console for problems and progress."""
    return Console(stderr=True, highlight=False)


@contextmanager
def progress(what: str) -> Iterator[Callable[[int, int, str], None]]:
    """Show a bar on a terminal while something long is done; nothing elsewhere."""
    console = err()
    columns = (TextColumn("{task.description}"), BarColumn(), MofNCompleteColumn(), TimeRemainingColumn())
    with Progress(*columns, console=console, transient=True, disable=not console.is_terminal) as bar:
        task = bar.add_task(what, total=None)
        yield lambda done, total, _name: bar.update(task, completed=done, total=total)


def print_problems(problems: Sequence[Problem], words: Words) -> None:
    """Print problems, one a line, with file and line; then how many there are."""
    console = err()
    for problem in problems:
        console.print(escape(line(problem, words)), soft_wrap=True)
    if problems:
        files = len({problem.place.file for problem in problems})
        number = words.count(len(problems), N_("1 problem"), N_("{number} problems"))
        said = words.count(
            files,
            N_("{problems} in 1 file; what could not be used was not judged."),
            N_("{problems} in {number} files; what could not be used was not judged."),
            problems=number,
        )
        console.print(escape(said), style="bold", soft_wrap=True)


def tell_failed(failed: RenderFailed) -> None:
    """Say why nothing was rendered."""
    for problem in failed.problems:
        typer.echo(problem, err=True)


def plain(text: str) -> str:
    """Take out of a record's text what would steer the terminal instead of being shown."""
    return "".join(sign if sign.isprintable() else " " for sign in text)


def openings_table(rows: Iterable[Row], words: Words) -> Table:
    """Give the table of openings with counts by outcome.

    Marks and outcomes are never cut; a mark too long for its column runs on in a second line.
    """
    listed = tuple(rows)
    coming = any(row.not_yet_due for row in listed)
    table = Table(
        box=None, pad_edge=False, padding=(0, 2, 0, 0), header_style="bold", show_edge=False, expand=True
    )
    table.add_column(words.say(N_("opening")), max_width=_WIDEST_MARK, overflow="fold")
    table.add_column(words.say(N_("outcome")), no_wrap=True)
    for shape in MARKS.values():
        table.add_column(shape, justify="right", no_wrap=True)
    if coming:
        table.add_column(NOT_YET_DUE_MARK, justify="right", no_wrap=True)
        table.add_column(words.say(N_("stage")), no_wrap=True)
    table.add_column(words.say(N_("place")), overflow="ellipsis", no_wrap=True, ratio=1)
    for row in listed:
        by_outcome = {count.outcome: count.number for count in row.counts}
        numbers = [str(by_outcome.get(outcome) or "·") for outcome in MARKS]
        coming_only = row.outcome is Outcome.NOT_SHOWN and not by_outcome.get(row.outcome)
        shape = NOT_YET_DUE_MARK if coming_only else MARKS[row.outcome]
        outcome_cell = f"{shape} {row.outcome_word}"
        if coming:
            numbers += [str(row.not_yet_due or "·"), row.stage]
        place = escape(plain(row.place))
        table.add_row(escape(row.mark), outcome_cell, *numbers, place, style=_STYLES[row.outcome])
    return table


def legend(words: Words, labels: dict[Outcome, str], *, coming: str = "") -> str:
    """Say what the shapes mean, with a word for what is not yet due if there is any; shapes stay whole."""
    shapes = [f"{MARKS[outcome]} {words.say(labels[outcome])}" for outcome in MARKS]
    shapes += [f"{NOT_YET_DUE_MARK} {words.say(coming)}"] if coming else []
    said = (shape.replace(" ", _BOUND) for shape in shapes)
    return "\n".join(wrap("   ".join(said), WIDTH)).replace(_BOUND, " ")


def block(entry: Entry, words: Words, width: int = WIDTH) -> str:
    """Give a nonconformity or open point as a block that a fitter understands without the manual."""
    paragraph = partial(_paragraph, width=width)
    head = f"{MARKS[entry.outcome]} {entry.number or entry.mark}  {entry.requirement}"
    lines = wrap(plain(head), width, subsequent_indent="    ")
    for point in entry.points:
        lines += paragraph(_point(point, words))
        lines += _where(point, width)
    if entry.gone_on:
        lines += paragraph(entry.gone_on)
    lines += paragraph(words.say(N_("What to do: {remedy}"), remedy=entry.remedy))
    for accepted in entry.accepted:
        lines += paragraph(_concession(accepted, words))
    rule = words.say(N_("rule {rule}, {grade}"), rule=entry.rule_id, grade=entry.grade)
    return "\n".join([*lines, f"    {rule}"])


def still_to_come(told: Iterable[Entry], words: Words) -> str:
    """List what is not yet due by opening and stage; what to do about it is said once."""
    lines = wrap(words.say(NOT_YET_DUE_REMEDY), WIDTH)
    for (mark, stage), of_stage in groupby(told, key=lambda one: (one.mark, one.stage)):
        rules = ", ".join(one.rule_id for one in of_stage)
        lines += folded(f"{NOT_YET_DUE_MARK} {mark}  {stage}: {rules}", "")
    return "\n".join(lines)


def _paragraph(text: str, width: int) -> list[str]:
    return wrap(plain(text), width, initial_indent="    ", subsequent_indent="      ")


def folded(text: str, indent: str) -> list[str]:
    """Fold a text into lines that fit, each line after the first two columns further in; names stay whole."""
    further = f"{indent}  "
    return wrap(plain(text), WIDTH, initial_indent=indent, subsequent_indent=further, break_on_hyphens=False)


def _where(point: Point, width: int) -> list[str]:
    """Say where it stands or should stand: file and line, then the keys down to it."""
    keys = "".join(f"[{part + 1}]" if isinstance(part, int) else f".{part}" for part in point.path)[1:]
    both = f"      {plain(point.place)}  {keys}"
    return [both] if len(both) <= width else [f"      {plain(point.place)}", f"        {keys}"]


def _concession(accepted: Accepted, words: Words) -> str:
    """Say who accepted a nonconformity, when and why, as far as that was recorded."""
    nobody = words.say(N_("nobody is named"))
    who = ", ".join(filter(None, (accepted.by or nobody, accepted.at, accepted.covers)))
    return words.say(N_("Accepted by concession: {who}. {reason}"), who=who, reason=accepted.reason).strip()


def _point(point: Point, words: Words) -> str:
    subject = f"{point.subject}: " if point.subject else ""
    if point.outcome is Outcome.NOT_SHOWN and not point.off_by:
        return f"{subject}{point.found}"
    distance = f" ({point.off_by})" if point.off_by else ""
    return words.say(N_("{subject}{found}; required: {required}{distance}"), subject=subject,
                     found=point.found, required=point.required, distance=distance)  # fmt: skip
