"""The step: readings and a rule set to findings.

Every rule gives one judgement, also where it does not apply.
"""

from collections.abc import Iterable
from dataclasses import replace

from revealbook.measures.catalogue import CATALOGUE
from revealbook.measures.measure import Readings
from revealbook.measures.method import Method
from revealbook.measures.reading import Missing, Reading, Subject
from revealbook.measures.reading import Outcome as Taken
from revealbook.rules.decision import decide
from revealbook.rules.finding import Finding, Judgement, Outcome, worst
from revealbook.rules.limit import Limit
from revealbook.rules.rule_set import STAGE_CLOSED, RuleInForce, RuleSet


def judge(rule_set: RuleSet, readings: Readings) -> tuple[Judgement, ...]:
    """Judge one opening by every rule in force.

    Args:
        rule_set: the rules in force.
        readings: what the measures they need gave for this opening; without `stage_closed`, all is due.
    """
    open_ = frozenset(
        taken.subject[0]
        for taken in readings.get(STAGE_CLOSED, ())
        if isinstance(taken, Reading) and not taken.value
    )
    return tuple(
        _judge_rule(held, readings, rule_set.method, due=held.rule.stage not in open_)
        for held in rule_set.rules
    )


def _judge_rule(held: RuleInForce, readings: Readings, method: Method, *, due: bool) -> Judgement:
    if held.left_out_by is not None:
        return Judgement(held, Outcome.DOES_NOT_APPLY, due=due)
    unknown: list[Finding] = []
    for name, asked in held.rule.conditions:
        for condition in readings[name]:
            if isinstance(condition, Missing):
                unknown.append(Finding(Outcome.NOT_SHOWN, condition.subject, condition))
            elif condition.value is not asked:
                return Judgement(held, Outcome.DOES_NOT_APPLY, ruled_out_by=name, due=due)
    findings = tuple(unknown) or tuple(_findings(held, readings, method))
    if held.rule.may_still_come and not due:
        findings = tuple(map(_still_open, findings))
    return Judgement(held, worst({finding.outcome for finding in findings}), findings, due=due)


def _still_open(finding: Finding) -> Finding:
    """Give a finding of what can still come: what is short of its limit so far is not shown yet."""
    short = finding.outcome is Outcome.DOES_NOT_CONFORM
    return replace(finding, outcome=Outcome.NOT_SHOWN) if short else finding


def _findings(held: RuleInForce, readings: Readings, method: Method) -> Iterable[Finding]:
    limit, measure = held.rule.limit, CATALOGUE.get(held.rule.measure)
    signed = measure is None or measure.signed
    sizes = readings[limit.by] if limit.by else ()
    for taken in readings[held.rule.measure]:
        if isinstance(taken, Missing):
            yield Finding(Outcome.NOT_SHOWN, taken.subject, taken)
        elif limit.by is None:
            yield _finding(taken, limit, method, signed=signed)
        else:
            yield _finding_by_size(taken, limit, sizes, method, signed=signed)


def _finding(taken: Reading, limit: Limit, method: Method, *, signed: bool) -> Finding:
    if limit.equals is not None or limit.choices is not None:
        kept = (
            taken.value is limit.equals if limit.equals is not None else taken.value in (limit.choices or ())
        )
        outcome = Outcome.CONFORMS if kept else Outcome.DOES_NOT_CONFORM
        return Finding(outcome, taken.subject, taken, limit)
    decision = decide(float(taken.value), taken.uncertainty, limit, method, signed=signed)
    return Finding(decision.outcome, taken.subject, taken, limit, decision.margin, decision.probability)


def _finding_by_size(
    taken: Reading, limit: Limit, sizes: Iterable[Taken], method: Method, *, signed: bool
) -> Finding:
    size = _size_of(taken.subject, tuple(sizes))
    if not isinstance(size, Reading):
        return Finding(
            Outcome.NOT_SHOWN, taken.subject, size or Missing(taken.subject, str(limit.by), taken.path)
        )
    plain = limit.at_size(float(size.value))
    if plain is None:
        beyond = Missing(taken.subject, "beyond_last_step", size.path)
        return Finding(Outcome.NOT_SHOWN, taken.subject, beyond)
    return _finding(taken, plain, method, signed=signed)


def _size_of(subject: Subject, sizes: tuple[Taken, ...]) -> Taken | None:
    """Give the size that belongs to a reading: that of the same subject, else the opening's only one."""
    same = next((size for size in sizes if size.subject == subject), None)
    return same or (sizes[0] if len(sizes) == 1 else None)
