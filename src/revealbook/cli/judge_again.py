"""`revealbook judge-again`: a pack judged from what it carries."""

from collections.abc import Iterable
from pathlib import Path

import typer

from revealbook.archive.again import Again, judge_again, judge_today
from revealbook.archive.opened import NotAPack
from revealbook.cli.exit_codes import DOES_NOT_CONFORM, UNUSABLE, WELL
from revealbook.cli.terminal import plain, print_problems
from revealbook.present.agreement import Difference
from revealbook.present.words import words_in
from revealbook.source.problem import Problem


def run(pack: Path, *, today: bool, rule_set: str | None) -> int:
    """Judge a pack again; give 0 if it agrees with itself, 1 if not."""
    try:
        again = judge_again(pack)
    except NotAPack as reason:
        typer.echo(plain(str(reason)), err=True)
        return UNUSABLE
    if isinstance(again, tuple):
        print_problems(again, words_in("en"))
        typer.echo(
            "What the pack carries cannot be judged; it is not what was judged when it was made.", err=True
        )
        return UNUSABLE
    later = judge_today(pack, rule_set) if today or rule_set else ()
    problems = [one for one in later if isinstance(one, Problem)]
    if problems:
        print_problems(problems, words_in("en"))
        typer.echo("The pack cannot be judged by today's rules.", err=True)
        return UNUSABLE
    _tell_of(pack, again)
    if today or rule_set:
        differing = [one for one in later if isinstance(one, Difference)]
        _tell("By today's rules nothing would be judged differently.", "By today's rules:", differing)
    return WELL if again.agrees else DOES_NOT_CONFORM


def _tell_of(pack: Path, again: Again) -> None:
    """Say what was judged and how far it agrees."""
    rules, number = again.judged.rule_set, len(again.judged.openings)
    openings = words_in("en").count(number, "1 opening", "{number} openings")
    typer.echo(f"{pack}: {openings}, {rules.id} {rules.edition}")
    _tell(
        "The findings inside are those that the records give.", "The findings inside differ:", again.findings
    )
    if again.other_version:
        version = plain(again.other_version)
        typer.echo(f"Made by version {version}: values and fingerprint are compared, wording and pages not.")
        _tell("The pages show the fingerprint of what is inside.", "The pages differ:", again.pages)
    else:
        _tell("The pages say what the records give.", "The pages differ:", again.pages)
    if again.uncalled:
        typer.echo("Files inside that are not accounted for, stand there twice or are missing:")
    for path in again.uncalled:
        typer.echo(f"  {plain(path)}")


def _tell(agreed: str, differing: str, differences: Iterable[Difference]) -> None:
    told = list(differences)
    typer.echo(differing if told else agreed)
    for one in told:
        where = " ".join(filter(None, (one.mark, one.rule)))
        typer.echo(plain(f"  {where or 'the pack'}: {one.kept} -> {one.now}"))
