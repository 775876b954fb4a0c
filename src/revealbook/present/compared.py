"""What a comparison of re-measurements found: rows of readings, rules, and the lot's fate in a sentence."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from revealbook.inspection.compare import Compared, OpeningCompared, RuleAgain
from revealbook.inspection.lot_result import LotResult
from revealbook.inspection.values import quantity_key
from revealbook.present import labels
from revealbook.present.found import found, required, requirement
from revealbook.present.inspection_sheet import facts, isolated, value
from revealbook.present.positions import whole_position
from revealbook.present.words import N_, Words
from revealbook.rules.judged import JudgedSite

FORMAT = "revealbook-comparison-1"
AGREEMENTS = {
    "agrees": N_("agrees"),
    "differs": N_("differs"),
    "no uncertainty": N_("not judged, no U stated"),
    "not recorded": N_("not in the record"),
}
_DECISIONS = {
    "accepted": N_("The lot is accepted: {bad} of {size} openings nonconforming, {accept} allowed."),
    "rejected": N_("The lot is rejected: {bad} of {size} openings nonconforming, {accept} allowed."),
    "open": N_("The lot is neither accepted nor rejected yet: {bad} of {size} openings nonconforming, "
               "{accept} allowed, and {missing} still to be measured again."),
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class ReadingRow:
    """One value read twice: where, both values, what lies between them, and what that says."""

    where: str
    recorded: str
    again: str
    difference: str
    uncertainty: str
    agreement: str
    differs: bool

    @property
    def cells(self) -> tuple[str, ...]:
        """The row for a page."""
        return (self.where, self.recorded, self.again, self.difference, self.uncertainty, self.agreement)


@dataclass(frozen=True, slots=True)
class OpeningCompare:
    """One opening measured again, in words.

    Attributes:
        mark: its mark.
        verdict: whether it counts as nonconforming, and why.
        facts: who, when, with what.
        rows: its readings.
        breached: rules that do not conform by the inspector's values: id, requirement, found, required.
        rules: how many rules were judged by the inspector's values.
        nonconforming: whether it counts as nonconforming.
    """

    mark: str
    verdict: str
    facts: tuple[tuple[str, str], ...]
    rows: tuple[ReadingRow, ...]
    breached: tuple[tuple[str, str, str, str], ...]
    rules: str
    nonconforming: bool


@dataclass(frozen=True, slots=True)
class Comparison:
    """All openings measured again, and what that says of their lot.

    Attributes:
        name: the project.
        openings: one per re-measurement.
        lot: the lot's fate in one sentence; empty without a sample.
        lot_facts: lot, plan and seed.
        lot_notes: what else is to be known of it.
    """

    name: str
    openings: tuple[OpeningCompare, ...]
    lot: str
    lot_facts: tuple[tuple[str, str], ...]
    lot_notes: tuple[str, ...]


def comparison(
    site: JudgedSite, compared: tuple[OpeningCompared, ...], lot: LotResult | None, words: Words
) -> Comparison:
    """Give what a comparison found, in words."""
    return Comparison(
        name=site.site.site.name,
        openings=tuple(_opening(one, site, words) for one in compared),
        lot=lot_sentence(lot, words) if lot else "",
        lot_facts=tuple(facts(lot.sample, words)) if lot else (),
        lot_notes=tuple(_lot_notes(lot, words)) if lot else (),
    )


def lot_sentence(lot: LotResult, words: Words) -> str:
    """Say whether the lot is accepted."""
    plan = lot.sample.plan
    return words.say(
        _DECISIONS[lot.decision],
        bad=len(lot.nonconforming),
        size=plan.sample_size,
        accept=plan.accept,
        missing=len(lot.missing),
    )


def _lot_notes(lot: LotResult, words: Words) -> Iterator[str]:
    if lot.nonconforming:
        yield words.say(N_("Nonconforming: {marks}."), marks=", ".join(lot.nonconforming))
    if lot.missing:
        yield words.say(N_("Not measured again: {marks}."), marks=", ".join(lot.missing))
    if lot.beside:
        yield words.say(
            N_("Measured again but not drawn, and not counted: {marks}."), marks=", ".join(lot.beside)
        )
    yield isolated(lot.sample, words)


def _opening(one: OpeningCompared, site: JudgedSite, words: Words) -> OpeningCompare:
    people = {person.id: person.name for person in site.site.site.people}
    read = one.remeasurement
    tools = [
        f"{tool.id} ({words.say(_MEASURES[tool.measures])}, U = {words.number(tool.uncertainty)})"
        for tool in read.instruments
    ]
    nobody = words.say(N_("not recorded"))
    return OpeningCompare(
        mark=one.mark,
        verdict=_verdict(one, words),
        facts=(
            (words.say(N_("Measured by")), people.get(read.by, read.by) if read.by else nobody),
            (words.say(N_("Date and time")), words.moment(read.at) if read.at else nobody),
            (words.say(N_("Instruments")), ", ".join(tools) or nobody),
            (words.say(N_("Record")), one.sheet.file),
        ),
        rows=tuple(_row(reading, one, words) for reading in one.readings),
        breached=tuple(_breached(rule, words) for rule in one.breached),
        rules=words.count(
            len(one.rules),
            N_("1 finding rests on a value that was read again."),
            N_("{number} findings rest on values that were read again."),
        ),
        nonconforming=one.nonconforming,
    )


_MEASURES = {
    "length": N_("length"),
    "deviation": N_("deviation"),
    "temperature": N_("temperature"),
    "humidity": N_("humidity"),
    "pressure": N_("pressure"),
    "flow": N_("air flow"),
}


def _verdict(one: OpeningCompared, words: Words) -> str:
    if not one.inspected:
        return words.say(N_("Nothing was read again that could be judged."))
    if not one.nonconforming:
        return words.say(N_("Conforms in the sample: no reading differs, and no rule is broken by them."))
    differing = words.count(len(one.differing), N_("1 reading differs"), N_("{number} readings differ"))
    broken = words.count(
        len(one.breached),
        N_("1 finding does not conform by the new values"),
        N_("{number} findings do not conform by the new values"),
    )
    said = [text for text, these in ((differing, one.differing), (broken, one.breached)) if these]
    return words.say(N_("Nonconforming in the sample: {why}."), why="; ".join(said))


def _row(reading: Compared, one: OpeningCompared, words: Words) -> ReadingRow:
    unit = _unit(reading)
    signed = "" if reading.difference is None else words.number(reading.difference, unit)
    return ReadingRow(
        where=whole_position(reading.path, one.opening.record.opening, words),
        recorded="–" if reading.recorded is None else value(reading.recorded, words),
        again=value(reading.again, words),
        difference=f"+{signed}" if reading.difference and reading.difference > 0 else signed,
        uncertainty="" if reading.uncertainty is None else words.number(reading.uncertainty, unit),
        agreement=words.say(AGREEMENTS[reading.agreement]),
        differs=reading.agreement == "differs",
    )


def _unit(reading: Compared) -> str:
    key = quantity_key(reading.path)
    units = {"_mm": "mm", "_c": "degC", "_pct": "%", "_pa": "Pa", "_nm": "Nm", "_ml": "ml"}
    return next((unit for ending, unit in units.items() if key.endswith(ending)), "")


def _breached(rule: RuleAgain, words: Words) -> tuple[str, str, str, str]:
    subject = labels.subject(rule.finding.subject, words)
    said = found(rule.finding, rule.held.rule, words)
    limit = required(rule.finding.limit, rule.held.rule, words) if rule.finding.limit else ""
    return rule.held.id, requirement(rule.held, words), f"{subject}: {said}" if subject else said, limit


def comparison_data(
    site: JudgedSite, compared: tuple[OpeningCompared, ...], lot: LotResult | None
) -> dict[str, Any]:
    """Give what a comparison found for machines, unrounded."""
    data: dict[str, Any] = {
        "format": FORMAT,
        "site": site.site.site.id,
        "rule_set": {"id": site.rule_set.id, "edition": site.rule_set.edition},
        "openings": [_opening_data(one) for one in compared],
    }
    if lot:
        data["lot"] = {
            "decision": lot.decision,
            "plan": lot.sample.plan._asdict(),
            "seed": lot.sample.seed,
            "nonconforming": lot.nonconforming,
            "conforming": lot.conforming,
            "missing": lot.missing,
            "not_drawn": lot.beside,
        }
    return data


def _opening_data(one: OpeningCompared) -> dict[str, Any]:
    return {
        "mark": one.mark,
        "nonconforming": one.nonconforming,
        "inspected": one.inspected,
        "readings": [
            {
                "path": reading.path,
                "recorded": reading.recorded,
                "again": reading.again,
                "difference": reading.difference,
                "uncertainty": reading.uncertainty,
                "agreement": reading.agreement,
            }
            for reading in one.readings
        ],
        "rules": [
            {
                "rule": rule.held.id,
                "subject": rule.finding.subject,
                "outcome": rule.finding.outcome,
                "before": rule.before,
            }
            for rule in one.rules
        ],
    }
