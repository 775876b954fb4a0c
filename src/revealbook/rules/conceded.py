"""Concessions that name a rule which is not there."""

from collections.abc import Iterator

from revealbook.records.record import Record
from revealbook.rules.rule_set import RuleSet
from revealbook.source.nearest import nearest
from revealbook.source.problem import Problem


def unknown_concessions(record: Record, rule_set: RuleSet) -> Iterator[Problem]:
    """Give a problem for every concession of a record that names no rule, in force or retired."""
    known = tuple(held.id for held in (*rule_set.rules, *rule_set.retired))
    for number, concession in enumerate(record.opening.concessions):
        if concession.rule not in known:
            place = record.sheet.place(("concessions", number, "rule"))
            facts = {"name": concession.rule, "kind": "rules", "nearest": nearest(concession.rule, known)}
            yield Problem(place, "unknown_name", facts)
