"""A site judged as a whole, for the commands that need all its records."""

from pathlib import Path

from revealbook import api
from revealbook.cli.terminal import print_problems, progress
from revealbook.present.words import words_in
from revealbook.rules.judged import JudgedSite


def judged_site(site: Path) -> JudgedSite | None:
    """Judge a site; None once its problems are told: half its records would say something else."""
    with progress("checking") as seen:
        checked = api.check(site, seen)
    if checked.judged is None or checked.problems:
        print_problems(checked.problems, words_in("en"))
        return None
    return checked.judged
