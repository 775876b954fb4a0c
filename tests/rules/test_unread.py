"""Every key of a record is read by a rule, or it is said why none needs to."""

from collections.abc import Iterable
from dataclasses import replace
from fnmatch import fnmatchcase

import pytest
from tests.rules.changes import common_practice, shipped

from revealbook.records.opening import Opening
from revealbook.records.site import Site
from revealbook.rules.rule_set import RuleSet
from revealbook.rules.unread import keys, reason, reasons, unread

ALL = shipped("published-limits")
UNREAD = unread(ALL)


def without(*rules: str) -> RuleSet:
    return replace(ALL, rules=tuple(held for held in ALL.rules if held.id not in rules))


def test_every_key_is_read_by_a_rule_or_has_its_reason() -> None:
    """If this fails: give the key a rule, or say in rules/unread.yaml why none needs to read it."""
    assert [key for key in UNREAD if not reason(key)] == []


def test_no_reason_is_left_of_a_key_that_is_read() -> None:
    """If this fails: a rule reads the key now; take its line out of rules/unread.yaml."""
    every = {*keys(Opening), *(f"site.{key}" for key in keys(Site))}
    read = every - set(UNREAD)

    def fits(pattern: str, named: Iterable[str]) -> bool:
        return any(fnmatchcase(key, pattern) for key in named)

    assert [pattern for pattern in reasons() if fits(pattern, read) and not fits(pattern, UNREAD)] == []


@pytest.mark.parametrize(
    ("rule", "key"),
    [
        ("substrate-sound", "survey.sound"),
        ("no-water-inside", "tests.water_spray.water_inside"),
        ("fixing-torque", "site.products.fixings.torque_nm"),
    ],
)
def test_a_rule_that_is_taken_away_leaves_its_key_unread(rule: str, key: str) -> None:
    assert key not in UNREAD
    reading = {held.id for held in ALL.rules if held.rule.measure == ALL_BY_ID[rule]} | {rule}
    assert key in unread(without(*reading))


ALL_BY_ID = {held.id: held.rule.measure for held in ALL.rules}


def test_with_no_rule_at_all_every_key_is_unread_save_what_every_measure_starts_from() -> None:
    left = unread(replace(ALL, rules=()))
    every = [*keys(Opening), *(f"site.{key}" for key in keys(Site))]
    assert set(every) - set(left) <= {
        key for key in every if key.startswith(("site.products.", "site.instr"))
    }
    assert "survey.sound" in left


def test_a_set_that_asks_for_less_reads_less() -> None:
    fewer = set(unread(common_practice()))
    assert set(UNREAD) < fewer
    assert "site.exposure.basic_wind_velocity_m_s" in fewer - set(UNREAD)


def test_pieces_side_by_side_count_as_one() -> None:
    named = list(keys(Opening))
    assert len(named) == len(set(named))
    assert "frame.pieces.*.length_mm" in named
    assert not [key for key in named if key.startswith("frame.pieces.left")]
