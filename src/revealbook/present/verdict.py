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
    working = sum(opening.in_progress for opening in site.openings)
    breached = worst[Outcome.DOES_NOT_CONFORM]
    open_ = worst[Outcome.NOT_SHOWN] + worst[Outcome.UNDECIDED] - working
    if not total:
        sentence = words.say(N_("No opening was recorded."))
    elif breached:
        sentence = _breached(site, breached, words)
    elif open_:
        sentence = words.count(
            open_,
            N_("No nonconformity was found, but 1 of {total} openings is not fully shown or decided.")
            if total > 1
            else N_("No nonconformity was found, but the only opening is not fully shown or decided."),
            N_(
                "No nonconformity was found, but {number} of {total} openings are not fully shown or decided."
            ),
            total=total,
        )
    elif worst[Outcome.DOES_NOT_APPLY] == total:
        sentence = words.say(N_("Nothing was judged: no rule in force applies to any opening."))
    elif working:
        sentence = words.count(
            working,
            N_("No nonconformity was found; 1 of {total} openings is in progress.")
            if total > 1
            else N_("No nonconformity was found; the only opening is in progress."),
            N_("No nonconformity was found; {number} of {total} openings are in progress."),
            total=total,
        )
    else:
        sentence = words.count(total, N_("The only opening conforms."), N_("All {number} openings conform."))
    return Verdict(site.outcome, sentence, _site_detail(site, worst, working, words))


def _breached(site: JudgedSite, breached: int, words: Words) -> str:
    total = len(site.openings)
    points = sum(opening.counts[Outcome.DOES_NOT_CONFORM] for opening in site.openings)
    in_points = words.count(points, N_("in one point"), N_("in {number} points"))
    if total == 1:
        return words.say(N_("The only opening does not conform, {in_points}."), in_points=in_points)
    return words.count(
        breached,
        N_("1 of {total} openings does not conform, {in_points}."),
        N_("{number} of {total} openings do not conform, {in_points}."),
        total=total,
        in_points=in_points,
    )


def _site_detail(site: JudgedSite, worst: Counter[Outcome], working: int, words: Words) -> str:
    """Say how much of what does not conform is accepted, and how the other openings stand."""
    if not worst[Outcome.DOES_NOT_CONFORM]:
        return ""
    said = []
    if conceded := sum(map(_conceded, site.openings)):
        said.append(
            words.count(
                conceded,
                N_("1 of these points stands accepted by concession."),
                N_("{number} of these points stand accepted by concession."),
            )
        )
    if len(site.openings) > worst[Outcome.DOES_NOT_CONFORM]:
        open_ = worst[Outcome.NOT_SHOWN] + worst[Outcome.UNDECIDED] - working
        conforming = words.count(
            worst[Outcome.CONFORMS], N_("1 opening conforms in full"), N_("{number} openings conform in full")
        )
        lacking = words.count(
            open_,
            N_("1 more lacks evidence or is undecided"),
            N_("{number} more lack evidence or are undecided"),
        )
        parts = [conforming, lacking]
        if working:
            parts.append(words.count(working, N_("1 is in progress"), N_("{number} are in progress")))
        said.append(f"{'; '.join(parts)}.")
    return " ".join(said)


def _conceded(opening: JudgedOpening) -> int:
    named = {concession.rule for concession in opening.record.opening.concessions}
    return sum(judgement.rule_id in named for judgement in opening.with_outcome(Outcome.DOES_NOT_CONFORM))


def of_opening(opening: JudgedOpening, words: Words) -> Verdict:
    """Give the verdict on one opening."""
    number, coming = opening.due_counts, len(opening.not_yet_due)
    if opening.in_progress:
        number = Counter({**number, Outcome.NOT_SHOWN: coming})
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
        Outcome.CONFORMS: N_("Conforms: the one rule that applies is met."),
    }
    count = number[opening.outcome]
    text = singular.get(opening.outcome, said[opening.outcome]) if count == 1 else said[opening.outcome]
    if opening.in_progress:
        text = (
            N_("In progress: one rule is not yet due.")
            if count == 1
            else N_("In progress: {number} rules are not yet due.")
        )
    others = [
        (number[other], labels.OUTCOMES[other])
        for other in WORST_FIRST
        if other is not opening.outcome and number[other]
    ]
    if coming and not opening.in_progress:
        others.append((coming, labels.NOT_YET_DUE))
    rest = [words.say(N_("{number} {outcome}"), number=many, outcome=words.say(of)) for many, of in others]
    return Verdict(opening.outcome, words.say(text, number=count), ", ".join(rest))
