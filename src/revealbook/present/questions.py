"""Questions in words: what might be asked, how likely it is on an honest site, and where to look."""

from dataclasses import dataclass
from datetime import datetime
from typing import Any

from revealbook.inspection.question import Question, Spot
from revealbook.inspection.questions import ASKED
from revealbook.present.inspection_sheet import value
from revealbook.present.positions import whole_position
from revealbook.present.words import N_, Words
from revealbook.rules.judged import JudgedSite

FORMAT = "revealbook-questions-1"
SENTENCES = {
    "records_alike": N_(
        "Could one of these records have been filled in from another? {same} of {compared} "
        "readings taken by hand are the same to the digit."
    ),
    "block_alike": N_(
        "Could these readings have been taken once and written down for all? The {same}"
        " readings of the {block} are the same to the digit in {openings} openings."
    ),
    "same_picture": N_(
        "Which one was it taken for? These photographs are one and the same picture: {files}."
    ),
    "same_file": N_(
        "Does this photograph show all of these openings? They name the same file, and "
        "not all of them say so: {files}."
    ),
    "two_places": N_(
        "Was {person} at both openings at once, or did somebody else do one of them? "
        "The times are {first} and {second}."
    ),
    "short_bonding": N_(
        "Could the frame have been pressed on within {minutes} of the first bead? Less "
        "than {least} is seldom enough; or is one of the times a slip?"
    ),
    "short_setting": N_(
        "Could the window have been set and fixed on all sides within {minutes}? Less "
        "than {least} is seldom enough; or is one of the times a slip?"
    ),
    "close_bonding": N_(
        "Could {person} have begun both frames within {minutes}, or did two crews work "
        "under one name? Less than {least} is seldom enough for one."
    ),
    "close_setting": N_(
        "Could {person} have set both windows within {minutes}, or did two crews work "
        "under one name? Less than {least} is seldom enough for one."
    ),
    "readings_before": N_(
        "Was this read before the work that it speaks of? It is dated {entry}, the work {event}."
    ),
    "readings_late": N_(
        "Were these readings taken when the section says, or entered later? It is dated"
        " {entry}, the work {event}."
    ),
    "work_before": N_(
        "Was the frame bonded before the wall was surveyed? Bonding is dated {entry}, the survey {event}."
    ),
    "hold_before": N_(
        "Was this hold point passed before there was anything to look at? It is dated "
        "{entry}, the work {event}."
    ),
    "signed_before": N_(
        "Was this signed before the work was done? It is dated {entry}, the last of the work {event}."
    ),
    "taken_after_covering": N_(
        "Could {file} show what was covered by then? Its camera says {taken}, the "
        "covering is dated {covered}. Or is the camera's clock wrong?"
    ),
    "taken_away": N_(
        "Was {file} taken of this work? Its camera says {taken}, the nearest work "
        "{work}. Or is the camera's clock wrong?"
    ),
    "on_limit": N_(
        "Were these read, or written to what is asked for? {on} of {readings} readings "
        "of {rule} lie exactly on the limit of {limit}, and far fewer just inside it."
    ),
}
_BLOCKS = {
    "survey": N_("survey"),
    "frame": N_("mounting frame"),
    "line": N_("level, plumb and cut of the frame"),
    "joints": N_("joint widths"),
    "seals": N_("seals"),
}
_KINDS = {
    "repeated": N_("readings that repeat"),
    "photo twice": N_("photographs used twice"),
    "two places": N_("one person in two places"),
    "pace": N_("work faster than it can be done"),
    "entry": N_("entries made before or long after"),
    "capture": N_("photographs of another time"),
    "on limit": N_("readings exactly on the limit"),
}
_RARE = 1e-6
_MANY = 12


@dataclass(frozen=True, slots=True)
class Asked:
    """One question in words.

    Attributes:
        openings: the openings it is about.
        question: the question.
        chance: how likely this is on an honest site, and by which model; or that none gives it.
        where: file and line of each record, with the position.
    """

    openings: str
    question: str
    chance: str
    where: tuple[str, ...]


def asked(question: Question, site: JudgedSite, words: Words) -> Asked:
    """Say a question."""
    facts = {name: _fact(name, given, site, words) for name, given in question.facts.items()}
    facts["openings"] = words.number(len(question.openings), "number")
    return Asked(
        openings=", ".join(question.openings),
        question=words.say(SENTENCES[question.code], **facts),
        chance=_chance(question, words),
        where=tuple(_where(spot, site, words) for spot in question.spots[:_MANY]),
    )


def _fact(name: str, given: object, site: JudgedSite, words: Words) -> str:
    if isinstance(given, datetime):
        return words.moment(given)
    if name in {"minutes", "least"} and isinstance(given, int | float):
        return words.quantity(given, "min")
    if name == "person":
        return next((person.name for person in site.site.site.people if person.id == given), str(given))
    if name == "block":
        return words.say(_BLOCKS[str(given)])
    if isinstance(given, tuple):
        return words.listed([str(one) for one in given])
    return value(given, words)


def _chance(question: Question, words: Words) -> str:
    if question.chance is None:
        return words.say(
            N_("No model gives the chance of this among honest records; it rests on numbers of practice.")
        )
    chance = "< 0.000001" if question.chance < _RARE else f"{question.chance:.2g}"
    return words.count(
        question.comparisons or 1,
        N_("Chance among honest records at most {chance}."),
        N_("Chance among honest records at most {chance}, all {number} comparisons of this kind counted."),
        chance=chance,
    )


def _where(spot: Spot, site: JudgedSite, words: Words) -> str:
    record = next(one.record for one in site.openings if one.mark == spot.mark)
    return f"{record.sheet.place(spot.path)}  {whole_position(spot.path, record.opening, words)}"


def tally(questions: tuple[Question, ...], words: Words) -> str:
    """Say how many questions of which kind there are, and what they are not."""
    if not questions:
        return words.say(N_("Nothing in these records gives rise to a question. That proves nothing either."))
    kinds = [kind for kind in ASKED if any(one.kind == kind for one in questions)]
    said = words.listed([words.say(_KINDS[kind]) for kind in kinds])
    return words.count(
        len(questions),
        N_(
            "1 question, about {kinds}. A question is no finding: there may be a good "
            "answer, and no outcome changes."
        ),
        N_(
            "{number} questions, about {kinds}. A question is no finding: there may be a "
            "good answer, and no outcome changes."
        ),
        kinds=said,
    )


def questions_data(questions: tuple[Question, ...], site: JudgedSite, words: Words) -> dict[str, Any]:
    """Give the questions for machines."""
    return {
        "format": FORMAT,
        "site": site.site.site.id,
        "questions": [
            {
                "kind": one.kind,
                "code": one.code,
                "openings": one.openings,
                "question": asked(one, site, words).question,
                "facts": {name: _plain(given) for name, given in one.facts.items()},
                "chance": one.chance,
                "comparisons": one.comparisons,
                "places": [{"mark": spot.mark, "path": spot.path} for spot in one.spots],
            }
            for one in questions
        ],
    }


def _plain(given: object) -> object:
    return given.isoformat() if isinstance(given, datetime) else given
