"""The verdict of an opening or a site in one sentence, and its counts."""

from collections import Counter
from dataclasses import dataclass

from revealbook.present import labels
from revealbook.present.words import N_, Words
from revealbook.rules.finding import WORST_FIRST, Outcome
from revealbook.rules.judged import JudgedOpening, JudgedSite

IN_ORDER = (
    Outcome.CONFORMS,
    Outcome.DOES_NOT_CONFORM,
    Outcome.UNDECIDED,
    Outcome.NOT_SHOWN,
    Outcome.DOES_NOT_APPLY,
)


@dataclass(frozen=True, slots=True)
class Count:
    """How many rules or openings have an outcome."""

    outcome: Outcome
    word: str
    number: int


@dataclass(frozen=True, slots=True)
class Verdict:
    """A judgement of the whole in one sentence.

    Attributes:
        outcome: the worst outcome.
        sentence: the sentence.
        detail: a second one that qualifies it; may be empty.
    """

    outcome: Outcome
    sentence: str
    detail: str


def counts(number: Counter[Outcome], words: Words) -> tuple[Count, ...]:
    """Give the five outcomes with their counts, always in the same order."""
    return tuple(Count(outcome, words.say(labels.OUTCOMES[outcome]), number[outcome]) for outcome in IN_ORDER)


def of_site(site: JudgedSite, words: Words) -> Verdict:
    """Give the verdict on a site's openings."""
    total = len(site.openings)
    worst = Counter(opening.outcome for opening in site.openings)
    breached = [opening for opening in site.openings if opening.outcome is Outcome.DOES_NOT_CONFORM]
    points = sum(opening.counts[Outcome.DOES_NOT_CONFORM] for opening in breached)
    if not total:
        return Verdict(Outcome.NOT_SHOWN, words.say(N_("No opening was recorded.")), "")
    if breached:
        text = N_("{breached} of {total} openings do not conform, in {points} points.")
        if len(breached) == 1:
            text = N_("1 of {total} openings does not conform, in {points} points.")
        sentence = words.say(text, breached=len(breached), total=total, points=points)
    elif worst[Outcome.NOT_SHOWN] or worst[Outcome.UNDECIDED]:
        sentence = words.say(
            N_("No nonconformity was found, but {open} of {total} openings are not fully shown or decided."),
            open=worst[Outcome.NOT_SHOWN] + worst[Outcome.UNDECIDED],
            total=total,
        )
    else:
        text = N_("All {total} openings conform.") if total > 1 else N_("The only opening conforms.")
        sentence = words.say(text, total=total)
    return Verdict(site.outcome, sentence, _site_detail(site, worst, words))


def _site_detail(site: JudgedSite, worst: Counter[Outcome], words: Words) -> str:
    said = []
    if site.outcome is Outcome.DOES_NOT_CONFORM:
        conceded = sum(_conceded(opening) for opening in site.openings)
        if conceded:
            said.append(
                words.say(N_("{conceded} of these points stand accepted by concession."), conceded=conceded)
            )
        said.append(
            words.say(
                N_("{conforming} openings conform in full; {open} more lack evidence or are undecided."),
                conforming=worst[Outcome.CONFORMS],
                open=worst[Outcome.NOT_SHOWN] + worst[Outcome.UNDECIDED],
            )
        )
    return " ".join(said)


def _conceded(opening: JudgedOpening) -> int:
    named = {concession.rule for concession in opening.record.opening.concessions}
    return sum(judgement.rule_id in named for judgement in opening.with_outcome(Outcome.DOES_NOT_CONFORM))


def of_opening(opening: JudgedOpening, words: Words) -> Verdict:
    """Give the verdict on one opening."""
    number = opening.counts
    said = {
        Outcome.DOES_NOT_CONFORM: N_("Does not conform in {number} points."),
        Outcome.NOT_SHOWN: N_("Not fully shown: {number} rules lack evidence."),
        Outcome.UNDECIDED: N_(
            "Undecided in {number} points: the limit lies inside the measurement uncertainty."
        ),
        Outcome.CONFORMS: N_("Conforms: all {number} rules that apply are met."),
        Outcome.DOES_NOT_APPLY: N_("No rule applies."),
    }
    singular = {
        Outcome.DOES_NOT_CONFORM: N_("Does not conform in one point."),
        Outcome.NOT_SHOWN: N_("Not fully shown: one rule lacks evidence."),
        Outcome.UNDECIDED: N_("Undecided in one point: the limit lies inside the measurement uncertainty."),
    }
    count = number[opening.outcome]
    text = singular.get(opening.outcome, said[opening.outcome]) if count == 1 else said[opening.outcome]
    rest = [
        words.say(N_("{number} {outcome}"), number=number[other], outcome=words.say(labels.OUTCOMES[other]))
        for other in WORST_FIRST
        if other is not opening.outcome and number[other]
    ]
    return Verdict(opening.outcome, words.say(text, number=count), ", ".join(rest))
