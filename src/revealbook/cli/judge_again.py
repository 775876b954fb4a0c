"""`revealbook judge-again`: a pack judged from what it carries."""

from collections.abc import Iterable
from pathlib import Path

import typer

from revealbook.archive.again import judge_again, judge_today
from revealbook.archive.opened import NotAPack
from revealbook.cli.exit_codes import DOES_NOT_CONFORM, UNUSABLE, WELL
from revealbook.cli.terminal import print_problems
from revealbook.present.agreement import Difference
from revealbook.present.words import words_in
from revealbook.source.problem import Problem


def run(pack: Path, *, today: bool, rule_set: str | None) -> int:
    """Judge a pack again; give 0 if it agrees with itself, 1 if not."""
    try:
        again = judge_again(pack)
        later = judge_today(pack, rule_set) if today or rule_set else ()
    except NotAPack as reason:
        typer.echo(str(reason), err=True)
        return UNUSABLE
    problems = [
        one for one in (*(again if isinstance(again, tuple) else ()), *later) if isinstance(one, Problem)
    ]
    if isinstance(again, tuple) or problems:
        print_problems(problems, words_in("en"))
        typer.echo(
            "What the pack carries cannot be judged; it is not what was judged when it was made.", err=True
        )
        return UNUSABLE
    rules = again.judged.rule_set
    typer.echo(f"{pack}: {len(again.judged.openings)} openings, {rules.id} {rules.edition}")
    _tell(
        "The findings inside are those that the records give.", "The findings inside differ:", again.findings
    )
    if again.other_version:
        typer.echo(f"Made by version {again.other_version}: values are compared, wording and pages are not.")
    else:
        _tell("The pages say what the records give.", "The pages differ:", again.pages)
    for path in again.uncalled:
        typer.echo(f"  {path}: carried without being accounted for, or missing")
    if today or rule_set:
        differing = [one for one in later if isinstance(one, Difference)]
        _tell("By today's rules nothing would be judged differently.", "By today's rules:", differing)
    return WELL if again.agrees else DOES_NOT_CONFORM


def _tell(agreed: str, differing: str, differences: Iterable[Difference]) -> None:
    told = list(differences)
    typer.echo(differing if told else agreed)
    for one in told:
        where = " ".join(filter(None, (one.mark, one.rule)))
        typer.echo(f"  {where or 'the pack'}: {one.kept} -> {one.now}")
