"""What happened to an opening's record after its pack was made: versions, claims and repairs, told."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime

from revealbook.present import labels
from revealbook.present.agreement import Difference
from revealbook.present.story import Told
from revealbook.present.words import N_, Words
from revealbook.records.afterwards import Claim, Repair
from revealbook.rules.finding import Outcome


@dataclass(frozen=True, slots=True)
class Filing:
    """One version of the site, seen from one opening.

    Attributes:
        number: from 1.
        at: when it was filed.
        by: who filed it.
        note: why.
        holds: whether the opening is in it.
        changes: what came out differently on this opening than in the version before.
    """

    number: int
    at: datetime
    by: str
    note: str
    holds: bool
    changes: tuple[Difference, ...] = ()


def tell_filings(filings: Sequence[Filing], words: Words) -> Told:
    """Tell all versions, and in which of them this opening's outcomes changed."""
    return Told("versions", words.say(N_("Versions filed")), tuple(_filings(filings, words)))


def _filings(filings: Sequence[Filing], words: Words) -> Iterator[str]:
    before = False
    for one in filings:
        said = words.say(
            N_("Version {number}, filed {moment} by {name}: {message}"),
            number=one.number, moment=words.moment(one.at), name=one.by, message=one.note,
        )  # fmt: skip
        yield f"{said}. {words.say(_what_happened(one, before=before))}"
        for change in one.changes:
            yield words.say(
                N_("Changed in version {number}: {rule}: {before} before, {now} since."), number=one.number,
                rule=change.rule, before=_outcome(change.kept, words), now=_outcome(change.now, words),
            )  # fmt: skip
        before = one.holds


def _what_happened(filing: Filing, *, before: bool) -> str:
    if not filing.holds:
        return N_("It does not hold this opening.")
    if not before:
        return N_("It is the first to hold this opening.")
    return (
        N_("Outcomes changed on this opening.")
        if filing.changes
        else N_("No outcome changed on this opening.")
    )


def _outcome(said: str, words: Words) -> str:
    """Say an outcome as findings write it, perhaps with what was found behind it."""
    outcome, colon, found = said.partition(":")
    known = [one for one in Outcome if one.value == outcome]
    return f"{words.say(labels.OUTCOMES[known[0]]) if known else words.say(outcome)}{colon}{found}"


def tell_later(records: Iterable[Claim | Repair], unread: Iterable[str], words: Words) -> Told:
    """Tell claims and repairs that joined the opening, in order of time.

    Args:
        records: the claims and repairs.
        unread: names of later records of the site of which this does not tell.
        words: the reader's language.
    """
    said = [_later(one, words) for one in sorted(records, key=lambda one: one.at)]
    others = [words.say(N_("{file}: no claim or repair; read it itself."), file=name) for name in unread]
    none = [] if said else [words.say(N_("No claim or repair has joined this opening."))]
    return Told("later", words.say(N_("Claims and repairs")), (*none, *said, *others))


def _later(one: Claim | Repair, words: Words) -> str:
    facts = {"id": one.id, "moment": words.moment(one.at), "name": one.by}
    if isinstance(one, Claim):
        head = words.say(N_("Claim {id}, {moment}, {name}: {what}."), **facts, what=one.found.rstrip("."))
    else:
        head = words.say(N_("Repair {id}, {moment}, {name}: {what}."), **facts, what=one.done.rstrip("."))
    cause = (
        words.say(N_("Cause: {cause}."), cause=one.cause.rstrip("."))
        if one.cause
        else words.say(N_("Cause: not shown."))
    )
    with_what = [
        " ".join(filter(None, (used.name, used.batch and words.say(N_("batch {batch}"), batch=used.batch))))
        for used in one.products
    ]
    products = words.say(N_("Products: {products}."), products=words.listed(with_what)) if with_what else ""
    about = words.say(N_("About: {ids}."), ids=words.listed(list(one.refers_to))) if one.refers_to else ""
    return " ".join(filter(None, (head, cause, products, about)))
