"""The inspection sheet: the lot and its plan, then for each opening drawn what to measure again and where."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from itertools import groupby

from revealbook.inspection.sample import Sample, always_inspected, risks, share_in_series
from revealbook.inspection.values import Position, positions
from revealbook.present import labels
from revealbook.present.positions import position, section
from revealbook.present.register import place, size
from revealbook.present.words import N_, Words
from revealbook.rules.judged import JudgedOpening, JudgedSite

Cells = tuple[str, ...]
_KEYS = {
    "building": N_("Building"),
    "floor": N_("Floor"),
    "elevation": N_("Elevation"),
    "fitter": N_("Fitter"),
}


@dataclass(frozen=True, slots=True)
class Group:
    """What to measure again in one section of the record.

    Attributes:
        title: the section.
        rows: where, until when it can be seen, and the fitter's value if it is to be shown.
    """

    title: str
    rows: tuple[tuple[str, str, str], ...]

    @property
    def to_fill_in(self) -> tuple[Cells, ...]:
        """The rows with a blank to write in and without the fitter's values."""
        return tuple((where, until, "") for where, until, _ in self.rows)

    @property
    def to_compare(self) -> tuple[Cells, ...]:
        """The rows with the fitter's values and a blank beside them."""
        return tuple((*row, "") for row in self.rows)


@dataclass(frozen=True, slots=True)
class OpeningSheet:
    """One opening of the sample.

    Attributes:
        mark, place, size: which it is.
        facts: number in the draw, file of the record, covering.
        groups: what can be measured again.
        hidden: what can no longer be seen, as (since when and behind what, how many values of what).
    """

    mark: str
    place: str
    size: str
    facts: tuple[tuple[str, str], ...]
    groups: tuple[Group, ...]
    hidden: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class InspectionSheets:
    """The sheets of a sample.

    Attributes:
        name: the project.
        verdict: plan and numbers in one sentence.
        facts: lot, plan, seed and so on.
        again: how to draw the sample again.
        strata: how a divided lot was sampled: stratum, openings, drawn.
        risks: what the plan makes of lots of other quality.
        series: the warning about isolated lots.
        critical: rules inspected on every opening: id, requirement, openings.
        drawn: the openings drawn: number, mark, place, size.
        sheets: one per opening.
        blind: whether the fitter's values are left out.
        seed: the seed, for the foot of every page.
    """

    name: str
    verdict: str
    facts: tuple[tuple[str, str], ...]
    again: str
    strata: tuple[Cells, ...]
    risks: tuple[Cells, ...]
    series: str
    critical: tuple[Cells, ...]
    drawn: tuple[Cells, ...]
    sheets: tuple[OpeningSheet, ...]
    blind: bool
    seed: str


def inspection_sheets(
    site: JudgedSite, sample: Sample, at: datetime, words: Words, *, blind: bool = True
) -> InspectionSheets:
    """Give the sheets of a sample.

    Args:
        site: the judged site.
        sample: what was drawn from it.
        at: the moment at which is told what can still be seen.
        words: the reader's language.
        blind: leave the fitter's values out.
    """
    by_mark = {one.mark: one for one in site.openings}
    drawn = [by_mark[mark] for mark in sample.drawn]
    return InspectionSheets(
        name=site.site.site.name,
        verdict=verdict(sample, words),
        facts=tuple(facts(sample, words)),
        again=drawn_again(words),
        strata=tuple(_strata(sample, words)),
        risks=tuple(risk_rows(sample, words)),
        series=isolated(sample, words),
        critical=tuple(_critical(site, sample, words)),
        drawn=tuple(
            (str(number), one.mark, place(one.record.opening, words), size(one.record.opening, words))
            for number, one in enumerate(drawn, start=1)
        ),
        sheets=tuple(
            _sheet(one, number, at, words, blind=blind) for number, one in enumerate(drawn, start=1)
        ),
        blind=blind,
        seed=str(sample.seed),
    )


def verdict(sample: Sample, words: Words) -> str:
    """Say plan and numbers in one sentence."""
    plan = sample.plan
    if plan.whole_lot:
        return words.count(
            plan.lot_size,
            N_("The lot is 1 opening: it is inspected. It is accepted with {accept} nonconforming."),
            N_("Every one of {number} openings is inspected (100 %). Accepted up to {accept} nonconforming, "
               "rejected from {reject}."),
            accept=plan.accept, reject=plan.reject,
        )  # fmt: skip
    return words.say(
        N_("{size} of {lot} openings are measured again. The lot is accepted up to {accept} nonconforming, "
           "rejected from {reject}."),
        size=plan.sample_size, lot=plan.lot_size, accept=plan.accept, reject=plan.reject,
    )  # fmt: skip


def facts(sample: Sample, words: Words) -> Iterator[tuple[str, str]]:
    """Give lot, plan and seed as names and values."""
    plan, everything = sample.plan, words.say(N_("all openings of the site"))
    taken = ((key, getattr(sample.chosen, key)) for key in ("building", "floor", "fitter"))
    lot = ", ".join(f"{words.say(_KEYS[key])} {value}" for key, value in taken if value is not None)
    yield words.say(N_("Lot")), f"{lot or everything} ({plan.lot_size})"
    yield words.say(N_("Quality limit")), words.say(N_("AQL {aql} % nonconforming"), aql=sample.aql)
    letters = plan.letter if plan.letter == plan.lot_letter else f"{plan.lot_letter} → {plan.letter}"
    yield (
        words.say(N_("Plan")),
        words.say(
            N_("single sampling, normal, level II, letter {letter}; MIL-STD-105E tables I and II-A"),
            letter=letters or "–",
        ),
    )
    yield words.say(N_("Sample, Ac / Re")), f"{plan.sample_size}, {plan.accept} / {plan.reject}"
    yield words.say(N_("Seed")), str(sample.seed)
    if sample.by:
        yield words.say(N_("Divided by")), words.listed([words.say(_KEYS[key]) for key in sample.by])


def drawn_again(words: Words) -> str:
    """Say how anybody draws the same sample."""
    return words.say(
        N_("To draw it again: write the seed in decimal digits, a line feed and an opening's mark as UTF-8, "
           "take the SHA-256 of that, and put the openings of the lot in the order of these digests. The "
           "first ones are the sample; in a divided lot, the first ones of each part.")
    )  # fmt: skip


def isolated(sample: Sample, words: Words) -> str:
    """Warn of what such a plan does not say of one lot."""
    if sample.plan.whole_lot:
        return words.say(N_("Nothing is left to chance: every opening is inspected."))
    share = words.quantity(100 * share_in_series(sample.plan), "%")
    return words.say(
        N_("These plans are meant for a series of lots. A building is one isolated lot: a lot that does not "
           "conform can be accepted with the probabilities that the inspection sheet lists. In a series, "
           "work with {share} nonconforming is still accepted once in ten lots (binomial)."),
        share=share,
    )  # fmt: skip


def risk_rows(sample: Sample, words: Words) -> Iterator[Cells]:
    """Give nonconforming openings of the lot, their share, and the probability that it is accepted."""
    for risk in risks(sample.plan):
        yield (
            str(risk.nonconforming),
            words.quantity(100 * risk.share, "%"),
            words.quantity(100 * risk.accepted, "%"),
        )


def _strata(sample: Sample, words: Words) -> Iterator[Cells]:
    if sample.by:
        nothing = words.say(N_("not recorded"))
        for stratum, size_, places in sample.divided:
            yield ", ".join(part or nothing for part in stratum), str(size_), str(places)


def _critical(site: JudgedSite, sample: Sample, words: Words) -> Iterator[Cells]:
    said = {held.id: words.say(held.rule.requirement) for held in site.rule_set.rules}
    for rule, number in always_inspected(site, sample.members):
        yield rule, said[rule], str(number)


def _sheet(one: JudgedOpening, number: int, at: datetime, words: Words, *, blind: bool) -> OpeningSheet:
    opening = one.record.opening
    found = positions(opening)
    seen = [held for held in found if held.hidden_at is None or held.hidden_at > at]
    gone = [held for held in found if held not in seen]
    covered = opening.covering.at if opening.covering else None
    groups = (
        Group(title, tuple(_row(held, one, words, blind=blind) for held in of_section))
        for title, of_section in groupby(seen, key=lambda held: section(held.path, words))
    )
    return OpeningSheet(
        mark=one.mark,
        place=place(opening, words),
        size=size(opening, words),
        facts=(
            (words.say(N_("Number")), str(number)),
            (words.say(N_("Record")), one.record.sheet.file),
            (words.say(N_("Covered")), words.moment(covered) if covered else words.say(N_("not recorded"))),
        ),
        groups=tuple(groups),
        hidden=tuple(_gone(gone, words)),
    )


_BEHIND = {
    "frame": N_("behind the mounting frame since {at}"),
    "seals": N_("behind tape and foam since {at}"),
    "covering": N_("behind insulation or plaster since {at}"),
}
_UNTIL = {
    "frame": N_("until the frame is pressed on"),
    "seals": N_("until the joint is closed"),
    "covering": N_("until it is covered"),
    "never": N_("always"),
}


def _row(held: Position, one: JudgedOpening, words: Words, *, blind: bool) -> tuple[str, str, str]:
    until = words.say(_UNTIL[held.hidden_by])
    if held.hidden_at is not None:
        until = words.say(N_("until {at}"), at=words.moment(held.hidden_at))
    return position(held.path, one.record.opening, words), until, "" if blind else value(held.value, words)


def value(given: object, words: Words) -> str:
    """Write a recorded value, or a list of them."""
    if isinstance(given, tuple):
        return " · ".join(value(one, words) for one in given)
    if isinstance(given, bool):
        return words.yes_or_no(value=given)
    return words.number(given) if isinstance(given, int | float) else labels.choice(str(given), words)


def _gone(gone: list[Position], words: Words) -> Iterator[tuple[str, str]]:
    """Say behind what values can no longer be seen, and how many of each section; the others stand above."""
    by_cover: dict[str, Counter[str]] = {}
    for held in gone:
        if held.hidden_at is not None:
            behind = words.say(_BEHIND[held.hidden_by], at=words.moment(held.hidden_at))
            by_cover.setdefault(behind, Counter())[section(held.path, words)] += 1
    for behind, sections in by_cover.items():
        counted = (
            f"{name}: {words.count(number, N_('{number} value'), N_('{number} values'))}"
            for name, number in sections.items()
        )
        yield behind, "; ".join(counted)
