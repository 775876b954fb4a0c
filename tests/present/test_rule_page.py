import re

import pytest
from tests.rules.changes import common_practice
from tests.rules.sets import in_force, rule, stated

from revealbook.present.rule_page import rule_page
from revealbook.present.words import words_in
from revealbook.rules.rule_set import RuleInForce

HEADINGS = [
    "Requirement",
    "What is measured",
    "Limit",
    "Basis",
    "Why it matters",
    "What to do",
    "When it applies",
]
ENGLISH = words_in("en")
SITE = {"kind": "supplier", "document": "mounting instructions 2026-03"}


def page(**changes: object) -> str:
    return rule_page(RuleInForce(rule(**changes)), ENGLISH)


def section(text: str, heading: str) -> str:
    return text.split(f"## {heading}\n\n", 1)[1].split("\n\n## ", 1)[0]


def laid_over(**change: object) -> str:
    overlay = {"change": [{"id": "frame-overlap", "basis": SITE, "reason": "wider profile", **change}]}
    return rule_page(in_force(stated(), overlays=(overlay,)).rules[0], ENGLISH)


@pytest.mark.parametrize("held", common_practice().rules, ids=lambda held: held.id)
def test_every_shipped_rule_fills_the_same_headings(held: RuleInForce) -> None:
    text = rule_page(held, ENGLISH)
    assert re.findall(r"^## (.+)$", text, re.MULTILINE) == HEADINGS
    assert all(section(text, heading).strip() for heading in HEADINGS)
    assert text.startswith(f"# {held.id}\n")


def test_a_page_says_what_the_rule_states() -> None:
    text = page()
    assert "Stage: Mounting frame. Grade of a nonconformity: critical." in text
    assert section(text, "Requirement") == stated()["requirement"]
    assert section(text, "Limit") == "**at least 80\u00a0mm**"
    assert section(text, "Basis") == "Common practice, no source."
    assert section(text, "Why it matters") == stated()["why"]
    assert section(text, "When it applies").startswith("To every opening.")


def test_a_page_names_the_measure_its_meaning_and_unit() -> None:
    said = section(page(), "What is measured")
    assert said == "How far the bottom piece runs past the opening. Measure `frame_overlap`, mm."
    assert "yes or no" in section(
        page(measure="joint_bonded", unit="yes/no", equal_to=True), "What is measured"
    )


def test_a_limit_by_size_is_a_table_and_names_the_size() -> None:
    text = page(
        at_most_by="nominal_width", steps=[{"up_to": 1000, "limit": 10}, {"up_to": 3000, "limit": 12}]
    )
    sizes = [ENGLISH.quantity(size, "mm") for size in (1000, 3000)]
    assert f"| {sizes[0]} | 10\u00a0mm |\n| {sizes[1]} | 12\u00a0mm |" in section(text, "Limit")
    assert "| size up to | at most |" in text
    assert "`nominal_width`" in section(text, "What is measured")


def test_a_least_value_by_size_says_so() -> None:
    assert "| size up to | at least |" in page(at_least_by="nominal_width", steps=[{"up_to": 1, "limit": 1}])


def test_conditions_are_listed_with_their_answers() -> None:
    said = section(
        page(applies_when=["plinth_used"], applies_unless=["insulation_follows"]), "When it applies"
    )
    assert "- `plinth_used` is yes. Whether there is a plinth profile." in said
    assert "- `insulation_follows` is no." in said
    assert "not shown" in said


def test_a_published_basis_is_named_in_full() -> None:
    basis = {"kind": "published", "standard": "DIN 18202", "edition": "2013-04", "clause": "table 1"}
    assert section(page(basis=basis), "Basis") == "Published: DIN 18202 2013-04, table 1."


def test_a_change_by_the_site_shows_both_limits_and_the_reason() -> None:
    text = laid_over(at_least=100)
    assert section(text, "Limit").startswith("**at least 100\u00a0mm**")
    assert "The rule set itself states:\n\n**at least 80\u00a0mm**" in section(text, "Limit")
    basis = section(text, "Basis")
    assert basis.startswith("Supplier's instructions: mounting instructions 2026-03.")
    assert "Before the site changed it: Common practice, no source." in basis
    assert "rules/0.yaml: Wider profile." in basis


def test_a_rule_that_the_site_adds_has_no_limit_before_it() -> None:
    rules = in_force(stated(), overlays=({"add": [stated(id="our-own", basis=SITE)]},))
    text = rule_page(rules.rules[1], ENGLISH)
    assert "The rule set itself" not in text
    assert "Before the site changed it" not in text


def test_every_page_defers_to_those_who_are_licensed() -> None:
    assert "licensed practice" in page().splitlines()[-1]
