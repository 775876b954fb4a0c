"""How results look on a terminal of 80 columns, with and without colour."""

from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from textwrap import wrap

from rich.console import Console
from rich.markup import escape
from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn, TimeRemainingColumn
from rich.table import Table

from revealbook.present.nonconformities import Entry, Point
from revealbook.present.problems import line
from revealbook.present.register import Row
from revealbook.present.words import N_, Words
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


def print_problems(problems: Iterable[Problem], words: Words) -> None:
    """Print problems, one a line, with file and line."""
    console = err()
    for problem in problems:
        console.print(escape(line(problem, words)), soft_wrap=True)


def openings_table(rows: Iterable[Row], words: Words) -> Table:
    """Give the table of openings with counts by outcome."""
    table = Table(
        box=None, pad_edge=False, padding=(0, 2, 0, 0), header_style="bold", show_edge=False, expand=True
    )
    table.add_column(words.say(N_("opening")), no_wrap=True)
    table.add_column(words.say(N_("outcome")), no_wrap=True)
    for shape in MARKS.values():
        table.add_column(shape, justify="right", no_wrap=True)
    table.add_column(words.say(N_("place")), overflow="ellipsis", no_wrap=True, ratio=1)
    for row in rows:
        by_outcome = {count.outcome: count.number for count in row.counts}
        numbers = [str(by_outcome.get(outcome) or "·") for outcome in MARKS]
        outcome_cell = f"{MARKS[row.outcome]} {row.outcome_word}"
        table.add_row(escape(row.mark), outcome_cell, *numbers, escape(row.place), style=_STYLES[row.outcome])
    return table


def legend(words: Words, labels: dict[Outcome, str]) -> str:
    """Say what the shapes mean."""
    return "   ".join(f"{MARKS[outcome]} {words.say(labels[outcome])}" for outcome in MARKS)


def block(entry: Entry, words: Words, width: int = 78) -> str:
    """Give a nonconformity or open point as a block that a fitter understands without the manual."""
    head = f"{MARKS[entry.outcome]} {entry.number or entry.mark}  {entry.requirement}"
    lines = wrap(head, width, subsequent_indent="    ")
    for point in entry.points:
        lines += wrap(_point(point, words), width, initial_indent="    ", subsequent_indent="      ")
        lines.append(f"      {point.place}")
    if entry.gone_on:
        lines += wrap(entry.gone_on, width, initial_indent="    ", subsequent_indent="      ")
    lines += wrap(words.say("What to do: {remedy}", remedy=entry.remedy), width, initial_indent="    ",
                  subsequent_indent="      ")  # fmt: skip
    for accepted in entry.accepted:
        said = words.say(
            "Accepted by concession: {by}, {at}. {reason}",
            by=accepted.by,
            at=accepted.at,
            reason=accepted.reason,
        )
        lines += wrap(said, width, initial_indent="    ", subsequent_indent="      ")
    lines.append(f"    {words.say('rule {rule}, {grade}', rule=entry.rule_id, grade=entry.grade)}")
    return "\n".join(lines)


def _point(point: Point, words: Words) -> str:
    subject = f"{point.subject}: " if point.subject else ""
    if point.outcome is Outcome.NOT_SHOWN:
        return f"{subject}{point.found}"
    distance = f" ({point.off_by})" if point.off_by else ""
    return words.say("{subject}{found}; required: {required}{distance}", subject=subject, found=point.found,
                     required=point.required, distance=distance)  # fmt: skip
