import pytest
from tests.present.judging import ENGLISH, site
from tests.rules.changes import common_practice
from tests.rules.sets import in_force, stated

from revealbook.present.sources import Sources, basis_words, parameter_value, sources
from revealbook.present.words import words_in
from revealbook.rules.basis import Basis

SUPPLIER = {"kind": "supplier", "document": "mounting instructions 2026-03"}
OTHER = stated(id="corners-sealed", measure="corner_sealed", unit="yes/no", equal_to=True)


def told(*overlays: dict[str, object]) -> Sources:
    return sources(in_force(stated(), OTHER, overlays=overlays), ENGLISH)


def plain(text: str) -> str:
    return text.replace("\u00a0", " ")


def test_the_rule_set_is_named_with_its_edition() -> None:
    found = sources(common_practice(), ENGLISH)
    assert found.name == "common-practice, edition 2026-12"
    assert len(found.rules) == len(common_practice().rules)
    assert (found.changed, found.retired) == ((), ())


def test_a_building_judged_by_a_set_below_the_sites_is_named() -> None:
    own = [{"name": "A", "rules": "less"}, {"name": "B"}, {"name": "C", "rules": common_practice().id}]
    found = sources(common_practice(), ENGLISH, site({}, buildings=own).site.site)
    assert found.judged_by == "common-practice, edition 2026-12; building A by less alone"


def test_every_rule_stands_with_limit_grade_and_basis() -> None:
    line = told().rules[0]
    assert (line.rule_id, line.stage, line.grade) == ("frame-overlap", "Mounting frame", "critical")
    assert (plain(line.limit), line.base_limit, line.basis) == (
        "at least 80 mm",
        "",
        "common practice, no source",
    )
    assert line.reason == ""


def test_a_changed_limit_stands_beside_that_of_the_rule_set_with_the_site_s_reason() -> None:
    change = {"id": "frame-overlap", "at_least": 100, "basis": SUPPLIER, "reason": "wider profile"}
    (line,) = told({"change": [change]}).changed
    assert (plain(line.limit), plain(line.base_limit)) == ("at least 100 mm", "at least 80 mm")
    assert line.basis == "supplier's instructions: mounting instructions 2026-03"
    assert line.reason == "wider profile"


def test_a_retired_rule_is_kept_in_sight() -> None:
    found = told(
        {"change": [{"id": "frame-overlap", "retire": True, "basis": SUPPLIER, "reason": "no frame"}]}
    )
    (line,) = found.retired
    assert (line.rule_id, plain(line.base_limit), line.reason) == (
        "frame-overlap",
        "at least 80 mm",
        "no frame",
    )
    assert [rule.rule_id for rule in found.rules] == ["corners-sealed"]


def test_a_rule_that_the_site_adds_is_shown_without_a_limit_of_the_rule_set() -> None:
    (line,) = told({"add": [stated(id="site-overlap", at_least=120)]}).changed
    assert (line.rule_id, line.base_limit, line.reason) == ("site-overlap", "", "trial overlay")


def test_rules_are_grouped_by_stage_without_losing_one() -> None:
    found = sources(common_practice(), ENGLISH)
    assert [line for _, lines in found.by_stage for line in lines] == list(found.rules)
    names = [name for name, _ in found.by_stage]
    assert len(names) == len(set(names))


def test_method_parameters_are_shown_with_the_reason_of_a_change() -> None:
    change = {"name": "guard_band_factor", "value": 0.5, "basis": SUPPLIER, "reason": "agreed"}
    method = {name: (value, reason) for name, value, reason in told({"method": [change]}).method}
    assert method["guard_band_factor"] == (
        "0.5",
        "agreed (supplier's instructions: mounting instructions 2026-03)",
    )
    assert method["decision"] == ("guard band", "")
    assert method["signing_roles"][0] == "installer, clerk of works"


def test_a_parameter_of_several_values_is_said_in_words() -> None:
    assert parameter_value({"seals": "before covering", "tests": None}, ENGLISH) == (
        "Seals: before covering; Tests: none"
    )
    assert parameter_value({"length_mm": 1.5}, words_in("de")) == "length_mm: 1,5"
    assert parameter_value("worse of both", words_in("de")) == "das Ungünstigere von beiden"


@pytest.mark.parametrize(
    ("basis", "words"),
    [
        ({"kind": "common practice"}, "common practice, no source"),
        ({"kind": "published", "standard": "DIN 18202", "edition": "2013-04", "clause": "table 1"},
         "published: DIN 18202 2013-04, table 1"),
        ({"kind": "from memory", "standard": "EN 12345", "note": "second hand"},
         "from memory, to be checked against the standard: EN 12345 (second hand)"),
        ({"kind": "supplier", "document": "sheet 4", "clause": "3"}, "supplier's instructions: 3, sheet 4"),
    ],
)  # fmt: skip
def test_a_basis_says_what_it_is_and_where_it_stands(basis: dict[str, str], words: str) -> None:
    assert basis_words(Basis.model_validate(basis), ENGLISH) == words
