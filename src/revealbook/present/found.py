"""A finding in words: what was found, against what, by how much."""

from collections.abc import Iterable, Sequence
from datetime import datetime, timedelta
from itertools import groupby
from math import isfinite

from revealbook.measures.catalogue import CATALOGUE
from revealbook.measures.reading import Detail, Missing, Reading
from revealbook.present import labels
from revealbook.present.keys import REASONS
from revealbook.present.words import N_, SAME, Words
from revealbook.rules.finding import Finding
from revealbook.rules.limit import Limit
from revealbook.rules.rule import Rule
from revealbook.rules.rule_set import RuleInForce

_PRODUCT_NAMES = frozenset({"product", "profile"})
"""Keys by which a record names a product; what is missing there beside the name is a figure of site.yaml."""
_NEGLIGIBLE = 0.001


def found(finding: Finding, rule: Rule, words: Words) -> str:
    """Say what was found: the value with what it was computed from, or what is missing."""
    reading = finding.reading
    if isinstance(reading, Missing):
        return _missing(reading, words)
    value = _value(reading, rule, finding.limit, words)
    if details := _details(reading.details, words):
        value = details if to_data_sheet(rule) else f"{value} ({details})"
    if reading.uncertainty:
        value = f"{value}, U = {words.quantity(reading.uncertainty, _unit(rule))}"
    return value


def to_data_sheet(rule: Rule) -> bool:
    """Whether a rule holds a reading against its product's own figure; its limit of 0 then says nothing."""
    return rule.measure.endswith("_margin") and rule.limit.low == 0 and rule.limit.high is None


def _unit(rule: Rule) -> str:
    return CATALOGUE[rule.measure].unit


def _value(reading: Reading, rule: Rule, limit: Limit | None, words: Words) -> str:
    value = reading.value
    if isinstance(value, bool):
        return words.yes_or_no(value=value)
    if isinstance(value, str):
        return labels.choice(value, words)
    near = None if limit is None else _nearer(limit, value)
    return words.quantity(value, _unit(rule), near)


def _nearer(limit: Limit, value: float) -> float | None:
    ends = [end for end in (limit.low, limit.high) if end is not None]
    return min(ends, key=lambda end: abs(end - value), default=None)


def _details(details: tuple[Detail, ...], words: Words) -> str:
    said = [
        f"{labels.key(detail.name, words)} {_detail_value(detail, words, _beside(detail, details))}"
        for detail in details
    ]
    return ", ".join(said)


def _beside(detail: Detail, details: tuple[Detail, ...]) -> float | None:
    """Give the number that stands closest to this one in a sentence, which it must not seem to equal."""
    others = [
        other.value
        for other in details
        if other is not detail and other.unit == detail.unit and isinstance(other.value, float | int)
    ]
    own = detail.value
    return (
        min(others, key=lambda other: abs(other - own), default=None)
        if isinstance(own, float | int)
        else None
    )


def _detail_value(detail: Detail, words: Words, beside: float | None = None) -> str:
    value = detail.value
    if isinstance(value, str):
        moment = _as_moment(value)
        return words.moment(moment) if moment else value
    if isinstance(value, bool):
        return words.yes_or_no(value=value)
    return words.quantity(value, detail.unit, beside)


def _as_moment(text: str) -> datetime | None:
    try:
        return datetime.fromisoformat(text) if "T" in text else None
    except ValueError:
        return None


def _missing(missing: Missing, words: Words) -> str:
    if missing.what in REASONS:
        facts = {detail.name: _detail_value(detail, words) for detail in missing.details}
        return words.say(REASONS[missing.what], **facts)
    name = labels.key(missing.what, words)
    named_at = missing.path[-1] if missing.path else ""
    if named_at in _PRODUCT_NAMES and missing.what != named_at:
        return words.say(
            N_("“{name}” is not stated in site.yaml for the product used, or no product was recorded"),
            name=name,
        )
    return words.say(N_("“{name}” was not recorded"), name=name)


def required(limit: Limit | None, rule: Rule, words: Words) -> str:
    """Say what the limit asks for."""
    if limit is None:
        return words.say(N_("by size")) if rule.limit.by else ""
    if to_data_sheet(rule):
        return words.say(N_("as the data sheet states"))
    unit = _unit(rule)
    if limit.equals is not None:
        return words.yes_or_no(value=limit.equals)
    if limit.choices is not None:
        return words.say(N_(" or ")).join(labels.choice(word, words) for word in limit.choices)
    if limit.by is not None:
        steps = (
            words.say(N_("up to {size}: {limit}"), size=words.quantity(step.up_to, CATALOGUE[limit.by].unit),
                      limit=words.quantity(step.limit, unit))
            for step in limit.steps
        )  # fmt: skip
        kind = (
            N_("at least, by size: {steps}") if limit.steps_bound_below else N_("at most, by size: {steps}")
        )
        return words.say(kind, steps="; ".join(steps))
    return _bounds(limit, unit, words)


def _bounds(limit: Limit, unit: str, words: Words) -> str:
    if limit.low is not None and limit.low == limit.high:
        return words.quantity(limit.low, unit)
    if limit.low is not None and limit.high is not None:
        return words.say(
            N_("{low} to {high}"), low=words.number(limit.low, unit), high=words.quantity(limit.high, unit)
        )
    if limit.low is not None:
        return words.say(N_("at least {low}"), low=words.quantity(limit.low, unit))
    return words.say(N_("at most {high}"), high=words.quantity(limit.high or 0.0, unit))


def off_by(finding: Finding, rule: Rule, words: Words) -> str:
    """Say by how much a number misses or keeps its limit; empty where there is no distance."""
    if finding.margin is None or not isinstance(finding.reading, Reading):
        return ""
    margin, unit = finding.margin, _unit(rule)
    size = words.quantity(abs(margin), unit, 0.0)
    if finding.probability is not None:
        return f"{_side(margin, size, words)}; {_likely(finding.probability, words)}"
    return _side(margin, size, words)


def _likely(probability: float, words: Words) -> str:
    if probability < _NEGLIGIBLE:
        return words.say(N_("under 0.1 % likely to be inside"))
    if probability > 1 - _NEGLIGIBLE:
        return words.say(N_("over 99.9 % likely to be inside"))
    return words.say(N_("{share} % likely to be inside"), share=words.number(100 * probability, "%"))


def _side(margin: float, size: str, words: Words) -> str:
    if not isfinite(margin):
        return ""
    if abs(margin) <= SAME:
        return words.say(N_("exactly on the limit"))
    return words.say(N_("{size} inside") if margin > 0 else N_("{size} outside"), size=size)


def brief(findings: Sequence[Finding], rule: Rule, words: Words) -> str:
    """Give all readings of a rule in little room: values by part, and details if there is only one."""
    if len(findings) == 1:
        subject = labels.subject(findings[0].subject, words)
        only = found(findings[0], rule, words)
        return f"{subject}: {only}" if subject else only
    said = []
    for part, of_part in groupby(findings, key=lambda finding: finding.subject[:1]):
        values = [_brief_value(finding, rule, words) for finding in of_part]
        shown = values[0] if len(set(values)) == 1 else ", ".join(values)
        said.append((labels.subject(part, words), shown))
    by_value: dict[str, list[str]] = {}
    for part_words, shown in said:
        by_value.setdefault(shown, []).append(part_words)
    return "; ".join(
        f"{', '.join(filter(None, parts))}: {shown}" if any(parts) else shown
        for shown, parts in by_value.items()
    )


def _brief_value(finding: Finding, rule: Rule, words: Words) -> str:
    if isinstance(finding.reading, Missing):
        return _missing(finding.reading, words)
    value = _value(finding.reading, rule, finding.limit, words)
    return f"+{value}" if to_data_sheet(rule) and float(finding.reading.value) > 0 else value


def limit_in_force(findings: Sequence[Finding], rule: Rule, words: Words) -> str:
    """Say what was required: the limit at this size if all readings share it, else the rule's whole limit."""
    limits = {finding.limit for finding in findings}
    shared = limits.pop() if len(limits) == 1 else None
    return required(shared or rule.limit, rule, words)


def requirement(held: RuleInForce, words: Words) -> str:
    """Say what a rule requires, with this site's limit where an overlay changed it."""
    said = words.say(held.rule.requirement)
    if held.change is None or held.change.base is None:
        return said
    return words.say(
        N_("{said} On this site: {limit}."), said=said, limit=required(held.rule.limit, held.rule, words)
    )


def could_have_gone_on(findings: Iterable[Finding], words: Words) -> str:
    """For waits that were too short, say from when the work could have gone on; empty otherwise."""
    moments = [moment for finding in findings if (moment := _waited_enough_at(finding)) is not None]
    if not moments:
        return ""
    return words.say(N_("The work could have gone on from {moment}."), moment=words.moment(max(moments)))


def _waited_enough_at(finding: Finding) -> datetime | None:
    details = {detail.name: detail.value for detail in finding.details}
    start, needed = details.get("from"), details.get("needed_h")
    too_short = finding.margin is not None and finding.margin < 0
    if not too_short or not isinstance(start, str) or not isinstance(needed, float):
        return None
    if needed <= 0:  # not reckoned: the later event stands before the earlier one
        return None
    try:
        return _next_minute(datetime.fromisoformat(start) + timedelta(hours=needed))
    except OverflowError:  # beyond the calendar: no moment to name
        return None


def _next_minute(at: datetime) -> datetime:
    """Round a moment up to the minute: said a minute earlier, it would still be too early."""
    whole = at.replace(second=0, microsecond=0)
    return whole if whole == at else whole + timedelta(minutes=1)
