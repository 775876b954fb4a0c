"""The limits that a setting-out sheet keeps: by rule, with what the site changed."""

from collections.abc import Iterator
from dataclasses import dataclass

from revealbook.present.sources import sources
from revealbook.present.words import N_, Words
from revealbook.rules.rule_set import RuleSet
from revealbook.setting_out.bounds import Bound
from revealbook.setting_out.plan import OpeningPlan
from revealbook.setting_out.plinth import Plinth
from revealbook.setting_out.window_fixings import WindowFixings


@dataclass(frozen=True, slots=True)
class LimitLine:
    """One rule that a sheet keeps.

    Attributes:
        rule_id: its id.
        requirement: what it requires.
        limit: its limit in force.
        changed: the rule set's own limit if the site changed it, `none` if the site added the rule.
        basis: what the limit rests on, and why the site changed it.
    """

    rule_id: str
    requirement: str
    limit: str
    changed: str
    basis: str


def bounds_of(plan: OpeningPlan) -> Iterator[Bound]:
    """Give every bound that a plan keeps."""
    yield from plan.keeps.bounds.values()
    if isinstance(plan.plinth, Plinth):
        yield plan.plinth.bound
    if isinstance(plan.window, WindowFixings):
        yield from plan.window.bounds.values()


def limit_lines(plan: OpeningPlan, rule_set: RuleSet, words: Words) -> tuple[LimitLine, ...]:
    """Give the rules that a plan keeps, in the order of the work."""
    kept = {rule_id for bound in bounds_of(plan) for rule_id in bound.ids}
    return tuple(
        LimitLine(
            line.rule_id,
            line.requirement,
            line.limit,
            line.base_limit or (words.say(N_("none")) if line.reason else ""),
            f"{line.basis}. {line.reason}" if line.reason else line.basis,
        )
        for line in sources(rule_set, words).rules
        if line.rule_id in kept
    )


def guard_words(plan: OpeningPlan, words: Words) -> str:
    """Say how far inside the limits the plan stays for the tape's sake; empty if it need not."""
    guard = plan.keeps.guard
    if not guard.two_mm:
        return ""
    return words.say(
        N_(
            "Every length and position stays {one} inside its limit, every distance between two readings"
            " {two}, so that the tape's uncertainty leaves nothing undecided."
        ),
        one=words.quantity(guard.one_mm, "mm"),
        two=words.quantity(guard.two_mm, "mm"),
    )
