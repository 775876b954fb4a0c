"""Whether a rule fits the measures there are: names, units and kinds of limit."""

from collections.abc import Iterator, Mapping

from revealbook.measures.catalogue import CATALOGUE
from revealbook.measures.quantity import Measure
from revealbook.rules.rule import Rule
from revealbook.source.nearest import nearest

Fault = tuple[str, str, Mapping[str, object]]
"""(key of the rule where it stands, code of the problem, facts for its words)."""


def faults(rule: Rule, format_: int) -> Iterator[Fault]:
    """Give everything about a rule that no measure can serve, or that its set's format does not allow."""
    if format_ > 1 and not rule.basis.names_clause:
        yield "basis", "clause_without_number", {"clause": rule.basis.clause}
    if format_ > 1 and (twice := set(rule.applies_when) & set(rule.applies_unless)):
        yield "applies_unless", "condition_contradicts_itself", {"name": min(twice)}
    measure = CATALOGUE.get(rule.measure)
    if measure is None:
        yield _unknown("measure", rule.measure)
    else:
        yield from _limit_faults(rule, measure)
    size = rule.limit.by
    if size is not None and size not in CATALOGUE:
        yield _unknown("at_least_by" if rule.limit.steps_bound_below else "at_most_by", size)
    for key in ("applies_when", "applies_unless"):
        for name in getattr(rule, key):
            if name not in CATALOGUE:
                yield _unknown(key, name)
            elif CATALOGUE[name].unit != "yes/no":
                yield key, "condition_not_yes_or_no", {"name": name, "unit": CATALOGUE[name].unit}


def _unknown(key: str, name: str) -> Fault:
    return key, "unknown_measure", {"name": name, "nearest": nearest(name, CATALOGUE)}


def _limit_faults(rule: Rule, measure: Measure) -> Iterator[Fault]:
    if rule.unit != measure.unit:
        yield "unit", "unit_differs", {"measure": measure.name, "unit": measure.unit, "stated": rule.unit}
        return
    limit = rule.limit
    kind = rule.kinds_stated()[0]
    fitting = {"yes/no": limit.equals is not None, "choice": limit.choices is not None}
    numeric = limit.equals is None and limit.choices is None
    if not fitting.get(measure.unit, numeric):
        yield kind, "limit_kind_differs", {"measure": measure.name, "unit": measure.unit, "kind": kind}
    elif limit.choices is not None and not set(limit.choices) <= set(measure.choices):
        unknown = next(word for word in limit.choices if word not in measure.choices)
        yield kind, "limit_word_unknown", {"word": unknown, "known": measure.choices}
    elif numeric and not measure.signed and limit.high is not None and limit.high < 0:
        yield kind, "limit_below_zero", {"measure": measure.name, "limit": limit.high}
