"""The rules on the sheet of an opening, by stage of the work: first what is open, then what conforms."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from revealbook.measures.catalogue import CATALOGUE
from revealbook.measures.catalogue_ways import WAYS
from revealbook.present import labels, left_out
from revealbook.present.found import brief, limit_in_force, requirement, to_data_sheet
from revealbook.present.verdict import Count, counts
from revealbook.present.words import N_, Words
from revealbook.rules.finding import Judgement, Outcome
from revealbook.rules.judged import JudgedOpening
from revealbook.rules.rule import STAGES

_WAYS = frozenset(measure.name for measure in WAYS)
_NUMBER = re.compile(r"\d+(?:[.,]\d+)?")


@dataclass(frozen=True, slots=True)
class RuleRow:
    """One rule that does not simply conform, with every reading it looked at."""

    rule_id: str
    requirement: str
    required: str
    outcome: Outcome
    outcome_word: str
    number: str
    readings: str


@dataclass(frozen=True, slots=True)
class Stage:
    """The rules of a stage of the work.

    Attributes:
        name: the stage.
        counts: its rules by outcome.
        open: rules that do not conform, are undecided or not shown, with their readings.
        conforming: rules that conform, each with what it requires and its readings.
        as_required: rules that ask for a yes or no and were recorded as met, a sentence each.
        not_applying: rules that do not apply, by what rules them out.
    """

    name: str
    counts: tuple[Count, ...]
    open: tuple[RuleRow, ...]
    conforming: tuple[tuple[str, str], ...]
    as_required: tuple[str, ...]
    not_applying: tuple[str, ...]


def stages(
    judged: JudgedOpening, numbers: Mapping[str, str], words: Words, people: Mapping[str, str] | None = None
) -> tuple[Stage, ...]:
    """Give the rules of an opening by stage, in the order of the work.

    Args:
        judged: the opening.
        numbers: numbers of its nonconformities by rule.
        words: the reader's language.
        people: names by id.
    """
    by_stage = ((name, [one for one in judged.judgements if one.held.rule.stage == name]) for name in STAGES)
    return tuple(
        _stage(name, rules, judged, numbers, words, people or {}) for name, rules in by_stage if rules
    )


def _stage(  # noqa: PLR0917 - a step of `stages` only
    name: str,
    rules: list[Judgement],
    judged: JudgedOpening,
    numbers: Mapping[str, str],
    words: Words,
    people: Mapping[str, str],
) -> Stage:
    conforming = [one for one in rules if one.outcome is Outcome.CONFORMS]
    settled = {Outcome.CONFORMS, Outcome.DOES_NOT_APPLY}
    return Stage(
        name=words.say(labels.STAGES[name]),
        counts=counts(JudgedOpening(judged.record, tuple(rules)).counts, words),
        open=tuple(_row(one, numbers, words) for one in rules if one.outcome not in settled),
        conforming=tuple(_met(one, words) for one in conforming if not _is_yes(one)),
        as_required=tuple(_as_required(one, words) for one in conforming if _is_yes(one)),
        not_applying=tuple(_not_applying(rules, judged, words, people)),
    )


def _met(judgement: Judgement, words: Words) -> tuple[str, str]:
    """Give what a rule requires, with its limit where the sentence does not name it, and the readings."""
    rule, said = judgement.held.rule, requirement(judgement.held, words)
    if not _names_limit(judgement, said, words):
        limit = limit_in_force(judgement.findings, rule, words)
        said = words.say(N_("{said} Here: {limit}."), said=said, limit=limit)
    return said, brief(judgement.findings, rule, words)


def _names_limit(judgement: Judgement, said: str, words: Words) -> bool:
    """Whether a sentence names the numbers of its rule's limit; of a limit by size one cannot tell which."""
    rule, named = judgement.held.rule, set(_NUMBER.findall(said))
    limit = rule.limit
    if to_data_sheet(rule):
        return True
    numbers = {words.number(abs(end)) for end in (limit.low, limit.high) if end}
    return limit.by is None and numbers <= named


def _is_yes(judgement: Judgement) -> bool:
    """Whether a rule that is met asks for a yes or no: a sentence tells it all."""
    return judgement.held.rule.limit.equals is not None


def _as_required(judgement: Judgement, words: Words) -> str:
    """Say a requirement that was recorded as met, with the parts of the opening it was recorded of."""
    parts = [labels.subject(finding.subject, words) for finding in judgement.findings]
    said = requirement(judgement.held, words)
    shown = ", ".join(filter(None, parts))
    return f"{said.rstrip('.')} ({shown})." if shown else said


def _not_applying(
    of_stage: list[Judgement], judged: JudgedOpening, words: Words, people: Mapping[str, str]
) -> Iterator[str]:
    """Say which rules do not apply and why, once for all that share the reason."""
    by_reason: dict[str, list[str]] = {}
    for one in of_stage:
        if one.outcome is Outcome.DOES_NOT_APPLY:
            reason = left_out.why(one, judged, people, words) or _why_not(one, words)
            by_reason.setdefault(reason, []).append(one.rule_id)
    for reason, rules in by_reason.items():
        yield f"{reason}: {', '.join(rules)}"


def _row(judgement: Judgement, numbers: Mapping[str, str], words: Words) -> RuleRow:
    rule = judgement.held.rule
    return RuleRow(
        rule_id=rule.id,
        requirement=requirement(judgement.held, words),
        required=limit_in_force(judgement.findings, rule, words),
        outcome=judgement.outcome,
        outcome_word=labels.outcome(judgement.outcome, words, due=judgement.due),
        number=numbers.get(rule.id, ""),
        readings=brief(judgement.findings, rule, words),
    )


def _why_not(judgement: Judgement, words: Words) -> str:
    """Say why a rule does not apply."""
    condition = judgement.ruled_out_by
    if condition and not (condition in _WAYS and condition in judgement.held.rule.applies_when):
        meaning = words.say(CATALOGUE[condition].meaning)
        return words.say(N_("ruled out: {condition}"), condition=meaning.rstrip("."))
    if judgement.held.left_out_by:
        said = N_("not a rule of {name}, by which this building is judged")
        return words.say(said, name=judgement.held.left_out_by)
    return words.say(N_("nothing of this kind on this opening"))
