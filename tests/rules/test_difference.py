from typing import Any

from tests.rules.sets import in_force, stated

from revealbook.rules.difference import EditionDifference, difference
from revealbook.rules.read import read_rules
from revealbook.rules.rule_set import RuleSet

BASE = stated(), stated(id="b"), stated(id="c")


def between(*after: dict[str, Any], **head: Any) -> EditionDifference:
    return difference(in_force(*BASE), in_force(*after, **head))


def test_editions_that_ask_for_the_same_do_not_differ() -> None:
    found = between(stated(why="Other words."), stated(id="b", remedy="Other words."), BASE[2])
    assert found == EditionDifference((), ())


def test_new_and_dropped_rules_are_told_and_new_ones_first() -> None:
    found = between(BASE[0], stated(id="d"), BASE[2])
    assert [(one.id, one.before is None, one.after is None) for one in found.rules] == [
        ("d", True, False),
        ("b", False, True),
    ]


def test_another_limit_is_told_apart_from_all_else() -> None:
    limit, grade, both = (
        stated(at_least=90),
        stated(id="b", grade="minor"),
        stated(id="c", at_least=90, grade="minor"),
    )
    found = between(limit, grade, both)
    assert [(one.id, one.limit_differs, one.others) for one in found.rules] == [
        ("frame-overlap", True, ()),
        ("b", False, ("grade",)),
        ("c", True, ("grade",)),
    ]


def test_a_note_beside_a_basis_is_no_other_basis() -> None:
    noted = stated(basis={"kind": "common practice", "note": "Read again."})
    assert between(noted, *BASE[1:]).rules == ()
    other = stated(basis={"kind": "supplier", "document": "letter 4"})
    assert [one.others for one in between(other, *BASE[1:]).rules] == [("basis",)]


def test_method_parameters_differ_by_their_values_in_force() -> None:
    found = between(*BASE, format=2, method={"guard_band_factor": 0.83})
    assert ("guard_band_factor", 1.0, 0.83) in found.method
    assert ("computations", 1, 2) in found.method


def test_the_shipped_editions_can_be_compared() -> None:
    old, new = (read_rules("published-limits", edition) for edition in ("2026-11", "2026-12"))
    assert isinstance(old, RuleSet)
    assert isinstance(new, RuleSet)
    assert "substrate-flat" in {one.id for one in difference(old, new).rules if "basis" in one.others}
