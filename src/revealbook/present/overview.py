"""The site at a glance: outcomes by opening and stage, nonconformities by rule and by week."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

from revealbook.measures.reading import Path
from revealbook.measures.work import look
from revealbook.present import labels
from revealbook.present.words import N_, Words
from revealbook.rules.finding import Outcome, worst
from revealbook.rules.judged import JudgedOpening, JudgedSite
from revealbook.rules.rule import STAGES


@dataclass(frozen=True, slots=True)
class Cell:
    """The worst outcome of a stage on an opening, and how many rules gave it."""

    outcome: Outcome
    word: str
    number: int


@dataclass(frozen=True, slots=True)
class Share:
    """One bar of a bar chart: its name, number, and length as a share of the longest."""

    name: str
    said: str
    number: int
    share: float


@dataclass(frozen=True, slots=True)
class Overview:
    """The site at a glance.

    Attributes:
        stages: the stages that the rules in force have, in words.
        rows: per opening its mark and a cell for each stage.
        by_rule: nonconformities by rule, the most frequent first.
        by_week: nonconformities by the week in which the work was done.
    """

    stages: tuple[str, ...]
    rows: tuple[tuple[str, tuple[Cell, ...]], ...]
    by_rule: tuple[Share, ...]
    by_week: tuple[Share, ...]


def overview(site: JudgedSite, words: Words) -> Overview:
    """Give a site's overview."""
    present = {held.rule.stage for held in site.rule_set.rules}
    stages = tuple(stage for stage in STAGES if stage in present)
    said = {held.id: words.say(held.rule.requirement) for held in site.rule_set.rules}
    rules = Counter(rule_id for rule_id, _ in _breaches(site))
    weeks = Counter(_week(at, words) for _, at in _breaches(site))
    return Overview(
        stages=tuple(words.say(labels.STAGES[stage]) for stage in stages),
        rows=tuple((one.mark, tuple(_cell(one, stage, words) for stage in stages)) for one in site.openings),
        by_rule=_shares([(rule, said[rule], number) for rule, number in rules.most_common()]),
        by_week=_shares([(week, "", weeks[week]) for week in sorted(weeks)]),
    )


def _cell(judged: JudgedOpening, stage: str, words: Words) -> Cell:
    of_stage = [one for one in judged.judgements if one.held.rule.stage == stage]
    outcome = worst({one.outcome for one in of_stage})
    giving = [one for one in of_stage if one.outcome is outcome]
    due = any(one.due for one in giving)
    return Cell(outcome, labels.outcome(outcome, words, due=due or not giving), len(giving))


def _shares(numbers: list[tuple[str, str, int]]) -> tuple[Share, ...]:
    most = max((number for _, _, number in numbers), default=1)
    return tuple(Share(name, said, number, number / most) for name, said, number in numbers)


def _breaches(site: JudgedSite) -> Iterator[tuple[str, datetime | None]]:
    for one in site.openings:
        for judgement in one.with_outcome(Outcome.DOES_NOT_CONFORM):
            first = next(found for found in judgement.findings if found.outcome is Outcome.DOES_NOT_CONFORM)
            yield judgement.rule_id, moment_of(one, first.reading.path)


def moment_of(judged: JudgedOpening, path: Path) -> datetime | None:
    """Give when the work at a place of the record was done: the nearest `at` above it, if any is there."""
    opening = judged.record.opening
    for length in range(len(path), 0, -1):
        part = look(opening, path[:length])
        for key in ("at", "laid_at", "set_at", "fitted_at"):
            at = getattr(part, key, None)
            if isinstance(at, datetime):
                return at
    return None


def _week(at: datetime | None, words: Words) -> str:
    if at is None:
        return words.say(N_("undated"))
    year, week, _ = at.isocalendar()
    return words.say(N_("{year}, week {week}"), year=year, week=f"{week:02}")
