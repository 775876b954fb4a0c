"""What openings leave out, in words: the list beside the concessions, and why a rule does not apply."""

from collections.abc import Mapping
from dataclasses import dataclass

from revealbook.measures.left_out import CONDITIONS
from revealbook.present.words import N_, Words
from revealbook.records.left_out import LeftOut
from revealbook.rules.finding import Judgement
from revealbook.rules.judged import JudgedOpening

WHAT = {
    "bottom piece": N_("bottom piece"),
    "left piece": N_("left piece"),
    "right piece": N_("right piece"),
    "top piece": N_("top piece"),
    "mounting frame": N_("mounting frame"),
    "bonding": N_("bonding"),
    "opening function": N_("opening function"),
    "something else": N_("something else"),
}
BASES = {"drawing": N_("drawing"), "supplier": N_("supplier"), "client": N_("client")}


@dataclass(frozen=True, slots=True)
class Row:
    """One thing that an opening leaves out: what, who says so and when, why, and on whose word."""

    mark: str
    what: str
    stated: str
    reason: str
    basis: str
    place: str


def rows(opening: JudgedOpening, people: Mapping[str, str], words: Words) -> tuple[Row, ...]:
    """Give what an opening leaves out; whether a statement takes effect is judged by rules of its own."""
    return tuple(
        Row(
            mark=opening.mark,
            what=words.say(WHAT[one.what]),
            stated=", ".join(filter(None, (_name(one, people), words.moment(one.at) if one.at else ""))),
            reason=one.reason or "",
            basis=_basis(one, words),
            place=str(opening.record.sheet.place(("left_out", number))),
        )
        for number, one in enumerate(opening.record.opening.left_out)
    )


def why(judgement: Judgement, opening: JudgedOpening, people: Mapping[str, str], words: Words) -> str:
    """Say which statement rules a rule out; empty if none does."""
    named = CONDITIONS.get(judgement.ruled_out_by or "", ())
    found = [one for one in opening.record.opening.left_out if one.what in named]
    said = [
        words.say(
            N_("left out: no {what} ({reason}), stated by {name}, {basis}"),
            what=words.say(WHAT[one.what]),
            reason=one.reason or "",
            name=_name(one, people),
            basis=_basis(one, words),
        )
        for one in found
    ]
    return "; ".join(said)


def _name(one: LeftOut, people: Mapping[str, str]) -> str:
    return people.get(one.by, one.by) if one.by else ""


def _basis(one: LeftOut, words: Words) -> str:
    kind = words.say(BASES[one.basis]) if one.basis else ""
    return ", ".join(filter(None, (kind, one.document or "")))
