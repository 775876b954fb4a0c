"""What the first page says of a site's changes to its rule set."""

from typing import Any

from tests.present.judging import ENGLISH, site
from tests.rules.sets import in_force, stated

from revealbook.present.changed_by_site import changed_by_site
from revealbook.present.sources import sources
from revealbook.present.words import words_in
from revealbook.records.site import Site

SITE: Site = site({}).site.site
SAID = {"basis": {"kind": "supplier", "document": "letter 4"}, "reason": "Asked for."}
ACCEPTED = {"accepted_by": "cleo", "accepted_on": "2026-11-02"}
RULES = (stated(), stated(id="b", grade="minor"), stated(id="c", grade="major"))


def told(*changes: dict[str, Any], language: str = "en", **rest: Any) -> str:
    overlay = {"change": [{**SAID, **one} for one in changes], **rest}
    return changed_by_site(in_force(*RULES, overlays=(overlay,)), SITE.people, words_in(language))


def test_a_rule_set_that_nobody_changed_has_nothing_to_tell() -> None:
    assert told() == ""
    assert sources(in_force(*RULES), ENGLISH, SITE).changed_by_site == ""


def test_changes_are_counted_by_what_they_do_against_the_rules_of_the_set() -> None:
    assert told({"id": "b", "at_least": 90}, {"id": "c", "retire": True}, add=[stated(id="own")]) == (
        "1 of 3 rules tightened, 1 of 3 rules retired, 1 rule added"
    )


def test_what_asks_for_less_of_something_critical_is_named_with_who_accepted_it() -> None:
    assert told({"id": "frame-overlap", "at_least": 60, **ACCEPTED}, {"id": "b", "retire": True}) == (
        "1 of 3 rules relaxed (critical: frame-overlap), 1 of 3 rules retired;"
        " accepted by Cleo Reveal on 2026-11-02"
    )


def test_a_site_that_retired_every_rule_says_so() -> None:
    retired = [{"id": rule["id"], "retire": True} for rule in RULES]
    assert told(*retired) == "3 of 3 rules retired (critical: frame-overlap)"


def test_too_many_critical_rules_for_a_line_are_counted() -> None:
    rules = [stated(id=f"r{number}") for number in range(8)]
    overlay = {"change": [{**SAID, "id": rule["id"], "retire": True} for rule in rules]}
    said = changed_by_site(in_force(*rules, overlays=(overlay,)), (), ENGLISH)
    assert said == "8 of 8 rules retired (8 of them critical)"


def test_method_parameters_are_counted_apart_and_named_where_they_ask_for_less() -> None:
    method = [
        {**SAID, **ACCEPTED, "name": "guard_band_factor", "value": 0.83},
        {**SAID, "name": "gamma_dead", "value": 1.4},
    ]
    assert told(method=method) == (
        "1 method parameter tightened, 1 method parameter relaxed (guard_band_factor);"
        " accepted by Cleo Reveal on 2026-11-02"
    )


def test_the_table_of_changes_says_who_accepted_each() -> None:
    overlay = {"change": [{**SAID, "id": "frame-overlap", "retire": True, **ACCEPTED}]}
    (line,) = sources(in_force(*RULES, overlays=(overlay,)), ENGLISH, SITE).retired
    assert line.reason == "Asked for. Accepted by Cleo Reveal on 2026-11-02."
