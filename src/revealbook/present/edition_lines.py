"""The difference of two editions of a rule set in words: limit by limit, then the method."""

from collections.abc import Iterator

from revealbook.present import labels
from revealbook.present.found import required
from revealbook.present.sources import basis_words, parameter_value
from revealbook.present.words import N_, Words
from revealbook.rules.difference import EditionDifference, RuleDifference
from revealbook.rules.rule import Rule

_NAMES = {
    "stage": N_("stage"),
    "measure": N_("measure"),
    "grade": N_("grade"),
    "conditions": N_("applies"),
    "requirement": N_("requirement"),
    "basis": N_("basis"),
}


def rule_lines(found: EditionDifference, words: Words) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Give every rule that differs, with a line for each thing about it that does."""
    return tuple((one.id, tuple(_of_rule(one, words))) for one in found.rules)


def method_lines(found: EditionDifference, words: Words) -> tuple[tuple[str, str], ...]:
    """Give every method parameter that differs, with both values."""
    return tuple(
        (name, _both(parameter_value(before, words), parameter_value(after, words), words))
        for name, before, after in found.method
    )


def _of_rule(one: RuleDifference, words: Words) -> Iterator[str]:
    if one.before is None and one.after is not None:
        yield words.say(N_("new: {limit}, {grade}"), **_summary(one.after, words))
    elif one.before is not None and one.after is None:
        yield words.say(N_("dropped: {limit}, {grade}"), **_summary(one.before, words))
    elif one.before is not None and one.after is not None:
        if one.limit_differs:
            yield _both(_limit(one.before, words), _limit(one.after, words), words)
        for name in one.others:
            both = _both(_said(name, one.before, words), _said(name, one.after, words), words)
            yield f"{words.say(_NAMES[name])}: {both}"


def _summary(rule: Rule, words: Words) -> dict[str, str]:
    return {"limit": _limit(rule, words), "grade": words.say(labels.GRADES[rule.grade])}


def _limit(rule: Rule, words: Words) -> str:
    return required(rule.limit, rule, words)


def _said(name: str, rule: Rule, words: Words) -> str:
    if name == "conditions":
        asked = (f"{condition} {words.yes_or_no(value=value)}" for condition, value in rule.conditions)
        return ", ".join(asked) or words.say(N_("always"))
    if name == "basis":
        return basis_words(rule.basis.model_copy(update={"note": None}), words)
    known = {"stage": labels.STAGES, "grade": labels.GRADES}.get(name, {})
    value = str(getattr(rule, name))
    return words.say(known.get(value, value))


def _both(before: str, after: str, words: Words) -> str:
    return words.say(N_("{before} → {after}"), before=before, after=after)
