"""How one opening was fixed: sentences and numbers for whoever must understand it years later."""

from collections.abc import Iterator
from dataclasses import dataclass

from revealbook.present import labels
from revealbook.present.nonconformities import Point, accepted, entries
from revealbook.present.register import place
from revealbook.present.story_phrases import Phrase, Teller
from revealbook.present.story_work import fixings, frame, plinth, supports, window
from revealbook.present.words import N_, Words
from revealbook.records.opening import Opening
from revealbook.records.seals import SealEvent, Seals
from revealbook.records.site import Site
from revealbook.rules.finding import Outcome
from revealbook.rules.judged import JudgedOpening

CAUTION = N_(
    "What is said of loads, fixings and adhesives is what was recorded: indicative. It defers to local "
    "codes, the supplier's written instructions and licensed practice."
)
_WORK = ("survey", "frame", "supports", "plinth", "window", "seals")
_OPEN = (Outcome.UNDECIDED, Outcome.NOT_SHOWN)


@dataclass(frozen=True, slots=True)
class Told:
    """One part of the story.

    Attributes:
        key: what it tells, for programs.
        heading: the same for readers.
        sentences: the sentences.
    """

    key: str
    heading: str
    sentences: tuple[str, ...]


def story(judged: JudgedOpening, site: Site, words: Words) -> tuple[Told, ...]:
    """Tell how an opening was fixed, part by part in the order of the work.

    What was not recorded is said to be not shown.

    Args:
        judged: the opening.
        site: its site.
        words: the reader's language.
    """
    opening, tell = judged.record.opening, Teller.of(site, words)
    parts = (
        ("opening", N_("Opening"), _opening(judged, tell)),
        ("frame", N_("Mounting frame"), frame(opening, tell)),
        ("fixings", N_("Fixings of the frame"), fixings(opening, tell)),
        ("supports", N_("Supports"), supports(opening, tell)),
        ("plinth", N_("Plinth profile"), plinth(opening, tell)),
        ("window", N_("Window"), window(opening, tell)),
        ("seals", N_("Seals"), _seals(opening, tell)),
        ("nonconformities", N_("Nonconformities"), _nonconformities(judged, tell)),
        ("open", N_("Undecided and not shown"), _undecided(judged, tell)),
        ("concessions", N_("Concessions"), _concessions(judged, tell)),
    )
    return tuple(Told(key, words.say(heading), tuple(sentences)) for key, heading, sentences in parts)


def _opening(judged: JudgedOpening, tell: Teller) -> Iterator[str]:
    identity = judged.record.opening.opening
    outcome = tell.words.say(labels.OUTCOMES[judged.outcome])
    yield ": ".join(filter(None, (place(judged.record.opening, tell.words), outcome))) + "."
    sizes = [tell.reading(identity, key, "mm") for key in ("width_mm", "height_mm")]
    yield tell.sentence(tell.words.say(N_("Nominal size")), sizes)
    who = [_who(name, judged.record.opening, tell) for name in _WORK if not _not_done(name, judged)]
    yield tell.sentence(tell.words.say(N_("Who did it")), who)


def _who(name: str, opening: Opening, tell: Teller) -> Phrase:
    part, section = tell.words.say(labels.PARTS[name]), getattr(opening, name)
    by = section.by if section else None
    return Phrase(f"{part} {tell.people.get(by, by)}" if by else "", part)


def _not_done(name: str, judged: JudgedOpening) -> bool:
    """Whether the record says that this part of the work was not called for."""
    section = getattr(judged.record.opening, name)
    return getattr(section, "called_for", None) is False or getattr(section, "used", None) is False


def _seals(opening: Opening, tell: Teller) -> Iterator[str]:
    """Tell tapes, foam and trim in the order of time; those without a time last."""
    events = (opening.seals or Seals()).events
    if not events:
        yield tell.sentence(tell.words.say(N_("Seals")), [Phrase("", labels.key("events", tell.words))])
    for event in sorted(
        events or (), key=lambda one: (one.at is None, one.at.timestamp() if one.at else 0.0)
    ):
        what = tell.words.say(labels.PARTS[event.step] if event.step else N_("seal"))
        yield tell.sentence(what[:1].upper() + what[1:], _event(event, opening, tell))


def _event(event: SealEvent, opening: Opening, tell: Teller) -> Iterator[Phrase]:
    yield tell.moment(event.at, N_("done {moment}"), labels.key("at", tell.words))
    by = event.by or (opening.seals.by if opening.seals else None)
    yield tell.named(tell.words.say(N_("by whom")), tell.people.get(by, by) if by else None)
    if event.step != "trim":
        yield tell.product("foams" if event.step == "foam" else "tapes", event.product)
        yield tell.batch(event.batch)
        yield from tell.weather(event)


def _nonconformities(judged: JudgedOpening, tell: Teller) -> Iterator[str]:
    for one in entries(judged, Outcome.DOES_NOT_CONFORM, tell.words, dict(tell.people)):
        yield f"{one.number} {one.requirement}"
        yield from dict.fromkeys(_found(point, tell) for point in one.points)
    if judged.outcome is not Outcome.DOES_NOT_CONFORM:
        yield tell.words.say(N_("No rule was found not to conform."))


def _found(point: Point, tell: Teller) -> str:
    distance = f" ({point.off_by})" if point.off_by else ""
    subject = f"{point.subject}: " if point.subject else ""
    return tell.words.say(
        N_("{subject}{found}; required: {required}{distance}"), subject=subject, found=point.found,
        required=point.required, distance=distance,
    )  # fmt: skip


def _undecided(judged: JudgedOpening, tell: Teller) -> Iterator[str]:
    for outcome in _OPEN:
        for one in entries(judged, outcome, tell.words, dict(tell.people)):
            yield f"{one.outcome_word}: {one.requirement} {'; '.join(one.grouped)}"
    if not any(judged.counts[outcome] for outcome in _OPEN):
        yield tell.words.say(N_("Nothing is undecided or not shown."))


def _concessions(judged: JudgedOpening, tell: Teller) -> Iterator[str]:
    rules = dict.fromkeys(one.rule for one in judged.record.opening.concessions)
    for rule in rules:
        for one in accepted(judged, rule, tell.words, dict(tell.people)):
            who = ", ".join(
                filter(None, (one.by or tell.words.say(N_("nobody is named")), one.at, one.covers))
            )
            reason = one.reason or tell.words.say(N_("reason not shown"))
            yield tell.words.say(
                N_("Concession on {rule}: {who}. {reason}"), rule=rule, who=who, reason=reason
            )
    if not rules:
        yield tell.words.say(N_("No concession was recorded."))
