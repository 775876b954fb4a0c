from typing import Any

import pytest
from tests.rules.sets import in_force, stated

from revealbook.records.site import Site
from revealbook.rules.site_changes import site_changes, unaccepted

BASIS = {"kind": "supplier", "document": "letter 4"}
PEOPLE = [
    {"id": "ada", "name": "Ada", "roles": ["installer"]},
    {"id": "cleo", "name": "Cleo", "roles": ["clerk of works", "installer"]},
]
ACCEPTED = {"accepted_by": "cleo", "accepted_on": "2026-11-02"}
SITE = Site.model_validate(
    {"id": "s", "name": "S", "rules": {"set": "trial", "edition": "1"}, "people": PEOPLE}
)


def overlay(
    *changes: dict[str, Any], add: tuple[Any, ...] = (), method: tuple[Any, ...] = ()
) -> dict[str, Any]:
    said = {"basis": BASIS, "reason": "asked for"}
    return {
        "change": [{**said, **one} for one in changes],
        "add": list(add),
        "method": [{**said, **one} for one in method],
    }


CRITICAL, MINOR, OTHER = stated(), stated(id="b", grade="minor"), stated(id="c")


def asked(*overlays: dict[str, Any], format_: int = 2) -> list[tuple[str, int]]:
    rules = in_force(CRITICAL, MINOR, OTHER, overlays=overlays, format=format_)
    return [(problem.code, problem.place.line) for problem in unaccepted(SITE, rules)]


def codes(*overlays: dict[str, Any], format_: int = 2) -> list[str]:
    return [code for code, _ in asked(*overlays, format_=format_)]


def test_changes_are_told_by_what_they_do() -> None:
    rules = in_force(
        CRITICAL, MINOR, OTHER,
        overlays=(overlay(
            {"id": "frame-overlap", "at_least": 60}, {"id": "b", "at_least": 90}, {"id": "c", "retire": True},
            add=(stated(id="own"),),
            method=({"name": "guard_band_factor", "value": 0.83}, {"name": "gamma_dead", "value": 1.4}),
        ),),
    )  # fmt: skip
    assert [(one.name, one.effect) for one in site_changes(rules)] == [
        ("frame-overlap", "relaxed"),
        ("b", "tightened"),
        ("own", "added"),
        ("c", "retired"),
        ("guard_band_factor", "relaxed"),
        ("gamma_dead", "tightened"),
    ]


@pytest.mark.parametrize("less", [{"at_least": 60}, {"retire": True}])
def test_less_of_a_critical_rule_needs_an_entitled_person(less: dict[str, Any]) -> None:
    change = {"id": "frame-overlap", **less}
    assert codes(overlay(change)) == ["change_unaccepted"]
    assert codes(overlay({**change, **ACCEPTED})) == []
    assert codes(overlay({**change, **ACCEPTED, "accepted_by": "ada"})) == ["acceptance_not_entitled"]
    assert codes(overlay({**change, **ACCEPTED, "accepted_by": "eva"})) == ["unknown_name"]


def test_more_of_a_critical_rule_and_less_of_a_lesser_one_need_nobody() -> None:
    assert codes(overlay({"id": "frame-overlap", "at_least": 90}, {"id": "b", "retire": True})) == []


def test_less_of_the_method_needs_an_entitled_person() -> None:
    relaxed = {"name": "guard_band_factor", "value": 0.83}
    assert codes(overlay(method=(relaxed,))) == ["method_change_unaccepted"]
    assert codes(overlay(method=({**relaxed, **ACCEPTED},))) == []
    assert codes(overlay(method=({"name": "guard_band_factor", "value": 2},))) == []


def test_a_site_does_not_entitle_its_own_people() -> None:
    narrowed = {"name": "conceding_roles", "value": ["client"]}
    rules = in_force(
        CRITICAL,
        overlays=(overlay({"id": "frame-overlap", "retire": True, **ACCEPTED}, method=(narrowed,)),),
        format=2,
    )
    assert list(unaccepted(SITE, rules)) == []
    roles = {"conceding_roles": ["client"]}
    wider = {"name": "conceding_roles", "value": ["client", "clerk of works"], **ACCEPTED}
    rules = in_force(CRITICAL, overlays=(overlay(method=(wider,)),), format=2, method=roles)
    assert [problem.code for problem in unaccepted(SITE, rules)] == ["acceptance_not_entitled"]


def test_sets_of_format_1_asked_for_nobody() -> None:
    assert codes(overlay({"id": "frame-overlap", "retire": True}), format_=1) == []
