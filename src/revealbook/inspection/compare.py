"""The step: re-measurements held against the record, reading by reading, and judged by the rules in force.

Two readings of the same value agree if they lie no further apart than their combined expanded uncertainty,
|difference| <= sqrt(U1^2 + U2^2) with k = 2: the E_n number of ISO 13528, with uncertainties added
as JCGM 100 does (both from memory, to be checked against the standards).
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from math import hypot
from typing import Any, Literal

from revealbook.inspection.again import judged_again, touched
from revealbook.inspection.values import instrument_kind, is_number, values
from revealbook.measures.reading import Path
from revealbook.measures.work import Surroundings, Work
from revealbook.records.opening import Opening
from revealbook.records.record import Sheet
from revealbook.records.remeasurement import Remeasurement
from revealbook.rules.by_building import rules_of_building
from revealbook.rules.decision import ROUNDING
from revealbook.rules.finding import Finding, Outcome
from revealbook.rules.judged import JudgedOpening, JudgedSite
from revealbook.rules.rule_set import RuleInForce

Agreement = Literal["agrees", "differs", "no uncertainty", "not recorded"]
_COUNTED = frozenset({"number", "holes", "cartridges"})
"""Keys of numbers that are counted, so that they agree exactly or not at all."""


@dataclass(frozen=True, slots=True)
class Compared:
    """One value read twice.

    Attributes:
        path: its place in both records; that of the whole list where the lists are not equally long.
        recorded: the fitter's value; None if the record has none.
        again: the inspector's value.
        agreement: agrees; differs; not judged, as no uncertainty is stated; or not recorded by the fitter.
        difference: the inspector's value less the fitter's, where both are numbers.
        uncertainty: combined expanded uncertainty (k = 2) of that difference, if both are stated.
    """

    path: Path
    recorded: Any
    again: Any
    agreement: Agreement
    difference: float | None = None
    uncertainty: float | None = None


@dataclass(frozen=True, slots=True)
class RuleAgain:
    """A rule on a part of the opening, judged by the inspector's values.

    Attributes:
        held: the rule in force.
        finding: the finding by the inspector's values.
        before: the outcome by the fitter's values; None if they gave no finding there.
    """

    held: RuleInForce
    finding: Finding
    before: Outcome | None


@dataclass(frozen=True, slots=True)
class OpeningCompared:
    """One opening measured again.

    Attributes:
        opening: the opening as recorded and judged.
        remeasurement: what was read again.
        sheet: its file.
        readings: every value that was read again.
        rules: findings that rest on a value read again.
    """

    opening: JudgedOpening
    remeasurement: Remeasurement
    sheet: Sheet
    readings: tuple[Compared, ...]
    rules: tuple[RuleAgain, ...]

    @property
    def mark(self) -> str:
        """The opening's mark."""
        return self.opening.mark

    @property
    def differing(self) -> tuple[Compared, ...]:
        """The readings that differ."""
        return tuple(one for one in self.readings if one.agreement == "differs")

    @property
    def breached(self) -> tuple[RuleAgain, ...]:
        """The rules that do not conform by the inspector's values."""
        return tuple(one for one in self.rules if one.finding.outcome is Outcome.DOES_NOT_CONFORM)

    @property
    def nonconforming(self) -> bool:
        """Whether it counts as nonconforming: a reading differs, or a rule is broken by a new value."""
        return bool(self.differing or self.breached)

    @property
    def inspected(self) -> bool:
        """Whether anything could be decided: a reading with its uncertainty, or a rule."""
        return bool(self.rules) or any(one.agreement in {"agrees", "differs"} for one in self.readings)


def compare(
    site: JudgedSite, remeasured: Iterable[tuple[Remeasurement, Sheet]]
) -> tuple[OpeningCompared, ...]:
    """Hold re-measurements against a site's records.

    Args:
        site: the judged site.
        remeasured: records of re-measurement with their files, each of an opening of the site.

    Raises:
        KeyError: a re-measurement names no opening of the site.
    """
    by_mark = {one.mark: one for one in site.openings}
    around = Surroundings.of(
        site.site.site, site.rule_set.method, (one.record.opening for one in site.openings)
    )
    return tuple(_compared(by_mark[read.mark], read, sheet, site, around) for read, sheet in remeasured)


def _compared(
    opening: JudgedOpening, read: Remeasurement, sheet: Sheet, site: JudgedSite, around: Surroundings
) -> OpeningCompared:
    work = Work(opening.record.opening, around)
    new = readings_of(read)
    readings = tuple(_reading(path, value, work, read) for path, value in _side_by_side(new, work))
    before = {
        (one.rule_id, finding.subject): finding for one in opening.judgements for finding in one.findings
    }
    rules = []
    here = rules_of_building(site.rule_set, around.site, work.opening.opening.building)
    for judgement in judged_again(work, read, new, here):
        for finding in judgement.findings:
            old = before.get((judgement.rule_id, finding.subject))
            if touched(finding, old, new):
                rules.append(RuleAgain(judgement.held, finding, old.outcome if old else None))
    return OpeningCompared(opening, read, sheet, readings, tuple(rules))


def readings_of(read: Remeasurement) -> Mapping[Path, Any]:
    """Give what was read again by its place: numbers and yes or no, but no names, times and notes."""
    found = values(read.readings)
    return {path: value for path, value in found.items() if isinstance(value, bool) or is_number(value)}


def _side_by_side(new: Mapping[Path, Any], work: Work) -> Iterable[tuple[Path, Any]]:
    """Give single values by their place, and lists of positions whole."""
    lists: dict[Path, list[float]] = {}
    for path, value in new.items():
        if isinstance(path[-1], int):
            lists.setdefault(path[:-1], []).append(value)
    done = set()
    for path, value in new.items():
        if not isinstance(path[-1], int):
            yield path, value
        elif (whole := path[:-1]) not in done:
            done.add(whole)
            again, recorded = sorted(lists[whole]), _recorded(whole, work.opening)
            if recorded is None or len(recorded) != len(again):
                yield whole, tuple(again)
            else:
                yield from (((*whole, number), one) for number, one in enumerate(again))


def _recorded(path: Path, opening: Opening) -> Any:
    """Give the fitter's value at a place; positions in rising order; None if nothing was recorded there."""
    here: Any = opening
    for part in path:
        if here is None or (isinstance(part, int) and part >= len(here)):
            return None
        if isinstance(part, int):
            here = (sorted(here) if is_number(here[0]) else here)[part]
        else:
            here = getattr(here, part)
    return tuple(sorted(here)) if isinstance(here, tuple) else here


def _reading(path: Path, again: Any, work: Work, read: Remeasurement) -> Compared:
    recorded = _recorded(path, work.opening)
    if recorded is None:
        return Compared(path, None, again, "not recorded")
    if isinstance(again, bool | tuple) or path[-1] in _COUNTED:
        return Compared(path, recorded, again, "agrees" if recorded == again else "differs")
    difference = float(again - recorded)
    kind = instrument_kind(path)
    theirs = work.uncertainty(str(path[0]), kind) if kind else None
    own = max((tool.uncertainty for tool in read.instruments if tool.measures == kind), default=None)
    if theirs is None or own is None:
        return Compared(path, recorded, again, "no uncertainty", difference)
    combined = hypot(theirs, own)
    agrees = abs(difference) <= combined + ROUNDING
    return Compared(path, recorded, again, "agrees" if agrees else "differs", difference, combined)
