from typing import Any

from tests.present.judging import ENGLISH
from tests.rules.sets import in_force, stated

from revealbook.present.edition_lines import method_lines, rule_lines
from revealbook.rules.difference import EditionDifference, difference


def between(
    before: tuple[dict[str, Any], ...], after: tuple[dict[str, Any], ...], **head: Any
) -> EditionDifference:
    return difference(in_force(*before), in_force(*after, **head))


def told(before: dict[str, Any], after: dict[str, Any]) -> list[str]:
    ((_, lines),) = rule_lines(between((before,), (after,)), ENGLISH)
    return [line.replace("\u00a0", " ") for line in lines]


def test_another_limit_stands_with_both_figures() -> None:
    assert told(stated(), stated(at_least=100)) == ["at least 80 mm → at least 100 mm"]


def test_what_else_differs_is_named() -> None:
    after = stated(
        grade="major", applies_when=["plinth_used"], basis={"kind": "supplier", "document": "letter 4"}
    )
    assert told(stated(), after) == [
        "grade: critical → major",
        "applies: always → plinth_used yes",
        "basis: common practice, no source → supplier's instructions: letter 4",
    ]


def test_a_new_and_a_dropped_rule_stand_with_limit_and_grade() -> None:
    found = rule_lines(between((stated(),), (stated(id="b", at_least=90),)), ENGLISH)
    assert [(name, lines[0].replace("\u00a0", " ")) for name, lines in found] == [
        ("b", "new: at least 90 mm, critical"),
        ("frame-overlap", "dropped: at least 80 mm, critical"),
    ]


def test_a_method_parameter_stands_with_both_values() -> None:
    found = between((stated(),), (stated(),), method={"signing_roles": ["installer", "client"]})
    assert method_lines(found, ENGLISH) == (
        ("signing_roles", "installer, clerk of works → installer, client"),
    )
