"""The register of openings: one row each, with the counts of its outcomes."""

from dataclasses import dataclass

from revealbook.present import labels
from revealbook.present.verdict import Count, counts
from revealbook.present.words import N_, Words
from revealbook.records.opening import Opening
from revealbook.rules.finding import Outcome
from revealbook.rules.judged import JudgedOpening, JudgedSite


@dataclass(frozen=True, slots=True)
class Row:
    """An opening in the register.

    Attributes:
        mark: its mark.
        place: building, floor, room and elevation, as far as recorded.
        size: nominal size.
        outcome: worst outcome.
        outcome_word: the same in words.
        counts: rules by outcome; of those not shown only what was missed.
        not_yet_due: rules that lack evidence which the work has still to bring.
        stage: the stage of the work that it is in, in words; empty once all are closed.
        in_stage: says so in a few words; empty as well.
        conceded: nonconformities that stand accepted by concession.
    """

    mark: str
    place: str
    size: str
    outcome: Outcome
    outcome_word: str
    counts: tuple[Count, ...]
    not_yet_due: int
    stage: str
    in_stage: str
    conceded: int


def register(site: JudgedSite, words: Words) -> tuple[Row, ...]:
    """Give the register of a site."""
    return tuple(_row(opening, words) for opening in site.openings)


def _row(judged: JudgedOpening, words: Words) -> Row:
    stage = words.say(labels.STAGES[judged.stage]) if judged.stage else ""
    named = {concession.rule for concession in judged.record.opening.concessions}
    return Row(
        mark=judged.mark,
        place=place(judged.record.opening, words),
        size=size(judged.record.opening, words),
        outcome=judged.outcome,
        outcome_word=labels.outcome(judged.outcome, words, due=not judged.in_progress),
        counts=counts(judged.due_counts, words),
        not_yet_due=len(judged.not_yet_due),
        stage=stage,
        in_stage=words.say(N_("in the stage: {stage}"), stage=stage) if stage else "",
        conceded=sum(
            judgement.rule_id in named for judgement in judged.with_outcome(Outcome.DOES_NOT_CONFORM)
        ),
    )


def place(opening: Opening, words: Words) -> str:
    """Say where an opening is, from the building down to the room."""
    identity = opening.opening
    return where(identity.building, identity.floor, identity.room, identity.elevation, words)


def where(
    building: str | None, floor: str | None, room: str | None, elevation: str | None, words: Words
) -> str:
    """Say a place by what is recorded of it."""
    said = []
    if building:
        said.append(words.say(N_("building {name}"), name=building))
    if floor:
        said.append(words.say(N_("floor {name}"), name=floor))
    said.extend(text for text in (room, elevation) if text)
    return ", ".join(said)


def size(opening: Opening, words: Words) -> str:
    """Say the nominal size, width by height."""
    return width_by_height(opening.opening.width_mm, opening.opening.height_mm, words)


def width_by_height(width_mm: float | None, height_mm: float | None, words: Words) -> str:
    """Say a size, or that it was not recorded."""
    if width_mm is None or height_mm is None:
        return words.say(N_("size not recorded"))
    return f"{words.number(width_mm)} × {words.quantity(height_mm, 'mm')}"
