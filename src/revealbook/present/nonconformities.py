"""What does not conform, is undecided or was not shown, as entries that a page or terminal prints."""

from collections.abc import Iterable
from dataclasses import dataclass

from revealbook.present import labels
from revealbook.present.found import could_have_gone_on, found, off_by, required, requirement
from revealbook.present.words import N_, Words
from revealbook.records.acceptance import Concession
from revealbook.rules.finding import Finding, Judgement, Outcome
from revealbook.rules.judged import JudgedOpening

_REMEDIES = {
    Outcome.UNDECIDED: N_(
        "Measure again with a finer instrument or more often. Until it is decided, do not count on it."
    ),
    Outcome.NOT_SHOWN: N_(
        "Look, measure and record it while it can still be seen. Once it is covered, it stays not shown "
        "unless it is opened up."
    ),
}
"""What to do where nothing is known to be wrong yet; the rule's own remedy is for what is."""
_PAST_REMEDIES = {
    Outcome.UNDECIDED: N_(
        "The moment is past and cannot be read again. Enter what a logger or a finer instrument read then. "
        "Without it, have the product's supplier vouch for it in writing, or somebody entitled accept it."
    ),
    Outcome.NOT_SHOWN: N_(
        "The moment is past and cannot be read again. Enter what was read then, here or by a logger. "
        "Without it, have the product's supplier vouch for it in writing, or somebody entitled accept it."
    ),
}
"""The same for the weather, times and amounts of work that is done."""
NOT_YET_DUE_REMEDY = N_("Nothing is missed yet. Do it, look and record it before this stage is closed.")
_READ_ONCE = frozenset({"air_c", "rh_pct", "surface_c"})
_TIMES = frozenset({"h", "min", "d"})


@dataclass(frozen=True, slots=True)
class Point:
    """One finding in words.

    Attributes:
        outcome: its outcome.
        subject: which part of the opening; may be empty.
        found: what was found, or what is missing.
        required: what the limit asks for.
        off_by: how far from the limit; may be empty.
        place: file and line of the record.
        path: the place in the record, for drawings.
    """

    outcome: Outcome
    subject: str
    found: str
    required: str
    off_by: str
    place: str
    path: tuple[str | int, ...]


@dataclass(frozen=True, slots=True)
class Accepted:
    """A concession that stands beside a nonconformity.

    Attributes:
        by: who accepted; empty if nobody is named.
        at: when, and until when if it is limited; empty if neither was recorded.
        reason: why; may be empty.
        covers: which part of the opening; empty for all of it.
        place: file and line of the record.
    """

    by: str
    at: str
    reason: str
    covers: str
    place: str


@dataclass(frozen=True, slots=True)
class Entry:
    """One rule on one opening, with everything a reader needs to act on it.

    Attributes:
        number: its number, once per pack: mark and count, as `W-2.07/1`; empty unless it does not conform.
        mark: the opening.
        rule_id: the rule.
        stage: the stage of the work, in words.
        grade: grade of the rule, in words.
        outcome: the outcome.
        outcome_word: the same in words.
        due: whether it is wrong, open or missed now; False where the work has still to bring it.
        requirement: what is required.
        why: why it matters.
        remedy: what to do about it.
        points: the findings that gave this outcome.
        accepted: concessions beside it.
        gone_on: from when the work could have gone on, if a wait was too short.
    """

    number: str
    mark: str
    rule_id: str
    stage: str
    grade: str
    outcome: Outcome
    outcome_word: str
    requirement: str
    why: str
    remedy: str
    points: tuple[Point, ...]
    accepted: tuple[Accepted, ...]
    gone_on: str
    due: bool = True

    @property
    def grouped(self) -> tuple[str, ...]:
        """What was found, said once for all parts of the opening that share it."""
        return grouped(self.points)


def grouped(points: Iterable[Point]) -> tuple[str, ...]:
    """Say what was found, once for all parts of the opening that share it: `left, right: not recorded`."""
    by_found: dict[str, list[str]] = {}
    for one in points:
        by_found.setdefault(one.found, []).append(one.subject)
    return tuple(
        f"{'; '.join(filter(None, subjects))}: {said}" if any(subjects) else said
        for said, subjects in by_found.items()
    )


def entries(
    opening: JudgedOpening, outcome: Outcome, words: Words, people: dict[str, str]
) -> tuple[Entry, ...]:
    """Give the rules that have an outcome on an opening, numbered if they do not conform."""
    numbered = outcome is Outcome.DOES_NOT_CONFORM
    return tuple(
        entry(opening, judgement, words, people, f"{opening.mark}/{count}" if numbered else "")
        for count, judgement in enumerate(opening.with_outcome(outcome), start=1)
    )


def open_points(opening: JudgedOpening, words: Words, people: dict[str, str]) -> tuple[Entry, ...]:
    """Give the rules that are still to be decided or shown on an opening, what is not yet due last."""
    undecided = entries(opening, Outcome.UNDECIDED, words, people)
    return undecided + not_shown(opening, words, people)


def not_shown(opening: JudgedOpening, words: Words, people: dict[str, str]) -> tuple[Entry, ...]:
    """Give the rules that were not shown on an opening: what was missed, then what is not yet due."""
    found_ones = entries(opening, Outcome.NOT_SHOWN, words, people)
    return tuple(sorted(found_ones, key=lambda one: not one.due))


def entry(
    opening: JudgedOpening, judgement: Judgement, words: Words, people: dict[str, str], number: str = ""
) -> Entry:
    """Give one judgement in words; only the findings that share its outcome are told."""
    rule = judgement.held.rule
    telling = [finding for finding in judgement.findings if finding.outcome is judgement.outcome]
    return Entry(
        number=number,
        mark=opening.mark,
        rule_id=rule.id,
        stage=words.say(labels.STAGES[rule.stage]),
        grade=words.say(labels.GRADES[rule.grade]),
        outcome=judgement.outcome,
        outcome_word=labels.outcome(judgement.outcome, words, due=judgement.due),
        due=not judgement.not_yet_due,
        requirement=requirement(judgement.held, words),
        why=words.say(rule.why),
        remedy=words.say(_remedy(judgement, telling)),
        points=tuple(point(opening, judgement, finding, words) for finding in telling),
        accepted=accepted(opening, rule.id, words, people),
        gone_on=could_have_gone_on(telling, words),
    )


def _remedy(judgement: Judgement, telling: Iterable[Finding]) -> str:
    """Give what can still be done; the weather of an hour that is past cannot be measured again."""
    rule = judgement.held.rule
    if judgement.not_yet_due:
        return NOT_YET_DUE_REMEDY
    if judgement.outcome is Outcome.UNDECIDED and (rule.stage == "materials" or rule.unit in _TIMES):
        return _PAST_REMEDIES[Outcome.UNDECIDED]
    weather = all(finding.reading.path[-1] in _READ_ONCE for finding in telling)
    if judgement.outcome is Outcome.NOT_SHOWN and weather and rule.stage != "tests":
        return _PAST_REMEDIES[Outcome.NOT_SHOWN]
    return _REMEDIES.get(judgement.outcome, rule.remedy)


def point(opening: JudgedOpening, judgement: Judgement, finding: Finding, words: Words) -> Point:
    """Give one finding in words."""
    rule = judgement.held.rule
    path = finding.reading.path
    return Point(
        outcome=finding.outcome,
        subject=labels.subject(finding.subject, words),
        found=found(finding, rule, words),
        required=required(finding.limit or rule.limit, rule, words),
        off_by=off_by(finding, rule, words),
        place=str(opening.record.sheet.place(path)),
        path=path,
    )


def accepted(
    opening: JudgedOpening, rule_id: str, words: Words, people: dict[str, str]
) -> tuple[Accepted, ...]:
    """Give the concessions of an opening that name a rule."""
    found_ones = enumerate(opening.record.opening.concessions)
    return tuple(
        _accepted(opening, number, concession, words, people)
        for number, concession in found_ones
        if concession.rule == rule_id
    )


def _accepted(
    opening: JudgedOpening, number: int, concession: Concession, words: Words, people: dict[str, str]
) -> Accepted:
    name = concession.accepted_by
    at = [words.moment(concession.at)] if concession.at else []
    if concession.until:
        at.append(words.say(N_("until {moment} only"), moment=words.moment(concession.until)))
    return Accepted(
        by=people.get(name, name) if name else "",
        at=", ".join(at),
        reason=concession.reason or "",
        covers=concession.covers or "",
        place=str(opening.record.sheet.place(("concessions", number))),
    )
