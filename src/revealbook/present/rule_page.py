"""One rule as a page of Markdown, made from what its YAML states."""

from collections.abc import Iterator

from revealbook.measures.catalogue import CATALOGUE
from revealbook.present import labels
from revealbook.present.found import required
from revealbook.present.sources import basis_words
from revealbook.present.words import N_, Words
from revealbook.rules.rule import Rule
from revealbook.rules.rule_set import Change, RuleInForce

_CAUTION = N_(
    "Indicative. What is said of loads, fixings, heights, glass and adhesives defers to local codes, to the "
    "supplier's written instructions and to licensed practice."
)
_UNITS = {"yes/no": N_("yes or no"), "choice": N_("one of several words"), "-": N_("a ratio")}


def rule_page(held: RuleInForce, words: Words) -> str:
    """Give the page of a rule in force; where a site changed it, with the base's limit and the reason.

    Args:
        held: the rule in force.
        words: the language.
    """
    rule = held.rule
    sections = (
        (N_("Requirement"), [words.say(rule.requirement)]),
        (N_("What is measured"), list(_measured(rule, words))),
        (N_("Limit"), list(_limit(held, words))),
        (N_("Basis"), list(_basis(held, words))),
        (N_("Why it matters"), [words.say(rule.why)]),
        (N_("What to do"), [words.say(rule.remedy)]),
        (N_("When it applies"), list(_conditions(rule, words))),
    )
    parts = [f"# {rule.id}", _heading_line(rule, words)]
    for title, paragraphs in sections:
        parts += [f"## {words.say(title)}", *paragraphs]
    return "\n\n".join([*parts, f"*{words.say(_CAUTION)}*"]) + "\n"


def _heading_line(rule: Rule, words: Words) -> str:
    stage, grade = words.say(labels.STAGES[rule.stage]), words.say(labels.GRADES[rule.grade])
    return words.say(N_("Stage: {stage}. Grade of a nonconformity: {grade}."), stage=stage, grade=grade)


def _measured(rule: Rule, words: Words) -> Iterator[str]:
    measure = CATALOGUE[rule.measure]
    unit = words.say(_UNITS.get(measure.unit, measure.unit))
    yield words.say(
        N_("{meaning} Measure `{name}`, {unit}."),
        meaning=words.say(measure.meaning),
        name=measure.name,
        unit=unit,
    )
    if rule.limit.by:
        size = CATALOGUE[rule.limit.by]
        yield words.say(
            N_("The limit goes by a size: {meaning} Measure `{name}`, {unit}."),
            meaning=words.say(size.meaning),
            name=size.name,
            unit=size.unit,
        )


def _limit(held: RuleInForce, words: Words) -> Iterator[str]:
    yield _limit_words(held.rule, words)
    base = held.change.base if held.change else None
    if base is not None:
        yield words.say(N_("The rule set itself states:"))
        yield _limit_words(base, words)


def _limit_words(rule: Rule, words: Words) -> str:
    limit = rule.limit
    if limit.by is None:
        return f"**{required(limit, rule, words)}**"
    size_unit = CATALOGUE[limit.by].unit
    bound = words.say(N_("at least") if limit.steps_bound_below else N_("at most"))
    lines = [f"| {words.say(N_('size up to'))} | {bound} |", "|---|---|"]
    lines += [
        f"| {words.quantity(step.up_to, size_unit)} | {words.quantity(step.limit, rule.unit)} |"
        for step in limit.steps
    ]
    return "\n".join(lines)


def _basis(held: RuleInForce, words: Words) -> Iterator[str]:
    yield _sentence(basis_words(held.rule.basis, words))
    if held.change is not None:
        yield from _change(held.change, words)


def _change(change: Change, words: Words) -> Iterator[str]:
    if change.base is not None:
        base = _sentence(basis_words(change.base.basis, words))
        yield words.say(N_("Before the site changed it: {basis}"), basis=base)
    said = N_("The site says why, in {file}: {reason}")
    yield words.say(said, file=change.place.file, reason=_sentence(change.reason))


def _conditions(rule: Rule, words: Words) -> Iterator[str]:
    if not rule.conditions:
        yield words.say(N_("To every opening."))
        return
    for name, asked in rule.conditions:
        meaning = words.say(CATALOGUE[name].meaning)
        answer = words.yes_or_no(value=asked)
        yield words.say(N_("- `{name}` is {answer}. {meaning}"), name=name, answer=answer, meaning=meaning)
    yield words.say(N_("As long as that is not recorded, the rule is not shown."))


def _sentence(text: str) -> str:
    said = text[:1].upper() + text[1:]
    return said if said.endswith((".", ".)")) else f"{said}."
