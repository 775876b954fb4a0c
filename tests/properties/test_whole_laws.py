"""Whole records are judged alike in a mirror and on other days; a tighter limit never helps."""

from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from typing import Any

import pytest
from tests.properties.whole_records import Whole, judged, outcomes, records, shipped, some

from revealbook.measures.measure import measure
from revealbook.measures.work import Work
from revealbook.records.opening import Opening
from revealbook.rules.finding import WORST_FIRST
from revealbook.rules.judge import judge
from revealbook.rules.rule import Rule
from revealbook.rules.rule_set import RuleInForce, RuleSet

OTHER = {
    "left": "right",
    "right": "left",
    "rising": "falling",
    "falling": "rising",
    "start": "end",
    "end": "start",
}
RANK = {outcome: number for number, outcome in enumerate(WORST_FIRST)}
WHOLES = [*shipped(), *some(list(records()[len(shipped()) :]), 40)]
NAMES = [whole.name for whole in WHOLES]


def swapped(key: str) -> str:
    """Give the key of the other hand: `overlap_left_mm`, `bottom_right`, `left`."""
    return "_".join(OTHER.get(part, part) for part in key.split("_"))


def mirrored(data: Any, length: float | None = None, *, upright: bool = False) -> Any:
    """Give a part of a record seen in a mirror; positions along it count from its other end."""
    if isinstance(data, list):
        return [mirrored(one, length, upright=upright) for one in data]
    if not isinstance(data, dict):
        return OTHER.get(data, data) if data in {"left", "right"} else data
    found = {}
    for key, value in data.items():
        turned = key in {"start", "end"} and upright
        found[key if turned else swapped(key)] = _part(key, value, length, upright=upright)
    return found


def _part(key: str, value: Any, length: float | None, *, upright: bool) -> Any:
    if (
        key in {"holes_mm", "at_mm", "load_points_mm", "screw_positions_mm", "centre_mm"}
        and length is not None
    ):
        return [length - at for at in value] if isinstance(value, list) else value and length - value
    return mirrored(value, length, upright=upright)


def mirror(opening: dict[str, Any]) -> dict[str, Any]:
    """Give a whole record seen in a mirror."""
    pieces = (opening.get("frame") or {}).get("pieces") or {}
    lengths = {name: piece.get("length_mm") for name, piece in pieces.items()}
    found: dict[str, Any] = {}
    for name, section in opening.items():
        length = None
        if name == "supports":
            length = lengths.get("bottom")
        elif name == "plinth":
            length = (section or {}).get("length_mm")
        found[name] = mirrored(section, length)
    if pieces:
        found["frame"]["pieces"] = {
            swapped(name): mirrored(piece, lengths[name] if name in {"bottom", "top"} else None)
            for name, piece in pieces.items()
        }
    window = opening.get("window") or {}
    if window.get("joint_widths_mm"):
        found["window"]["joint_widths_mm"] = {
            swapped(side): mirrored(widths, upright=side in {"left", "right"})
            for side, widths in window["joint_widths_mm"].items()
        }
    if window.get("fixings"):
        found["window"]["fixings"] = [
            mirrored(one, window.get("width_mm") if one.get("side") in {"bottom", "top"} else None)
            for one in window["fixings"]
        ]
    return found


@pytest.mark.parametrize("whole", WHOLES, ids=NAMES)
def test_a_mirrored_record_is_judged_alike(whole: Whole) -> None:
    before = outcomes(whole.opening, whole.around, whole.rules)
    after = outcomes(mirror(whole.opening), whole.around, whole.rules)
    if after is None:  # made so that a position lies beyond its piece: there is no such record
        assert "made" in whole.name
    else:
        assert after == before


def later(data: Any, days: int) -> Any:
    """Give a record with every moment and day later by whole days."""
    if isinstance(data, list):
        return [later(one, days) for one in data]
    if isinstance(data, dict):
        return {key: later(value, days) for key, value in data.items()}
    if isinstance(data, datetime | date):
        return data + timedelta(days)
    for read in (date.fromisoformat, datetime.fromisoformat):
        if isinstance(data, str) and len(data) >= len("2026-11-20") and data[4:5] == "-":
            try:
                return (read(data) + timedelta(days)).isoformat()
            except ValueError:
                continue
    return data


@pytest.mark.parametrize("whole", WHOLES, ids=NAMES)
def test_a_record_of_other_days_is_judged_alike(whole: Whole) -> None:
    before = outcomes(whole.opening, whole.around, whole.rules)
    assert outcomes(later(whole.opening, -70), whole.around, whole.rules) == before


TIGHTER: dict[str, Callable[[Any], Any]] = {
    "at_least": lambda low: low + max(1, abs(low) / 10),
    "at_most": lambda high: high - max(1, abs(high) / 10),
    "between": lambda ends: [ends[0] + (ends[1] - ends[0]) / 4, ends[1] - (ends[1] - ends[0]) / 4],
}


def tightened(held: RuleInForce) -> RuleInForce | None:
    """Give a rule with a tighter limit; None for one whose limit is no number."""
    stated = held.rule.model_dump(exclude_none=True)
    kind = next((kind for kind in TIGHTER if kind in stated), None)
    if kind is None:
        return None
    return RuleInForce(Rule.model_validate({**stated, kind: TIGHTER[kind](stated[kind])}))


@pytest.mark.parametrize("whole", WHOLES, ids=NAMES)
def test_a_tighter_limit_never_helps(whole: Whole) -> None:
    work = Work(Opening.model_validate(whole.opening), whole.around)
    readings = measure(work, whole.rules.measures)
    pairs = [(held, tighter) for held in whole.rules.rules if (tighter := tightened(held)) is not None]
    assert len(pairs) > 20
    for held, tighter in pairs:
        rules = [_only(whole, one) for one in (held, tighter)]
        (before,), (after,) = (judge(one, readings) for one in rules)
        assert RANK[after.outcome] <= RANK[before.outcome], held.id


def _only(whole: Whole, held: RuleInForce) -> RuleSet:
    return replace(whole.rules, rules=(held,))


def in_utc(data: Any) -> Any:
    """Give a record with the same moments told in another zone."""
    if isinstance(data, list):
        return [in_utc(one) for one in data]
    if isinstance(data, dict):
        return {key: in_utc(value) for key, value in data.items()}
    try:
        moment = datetime.fromisoformat(data) if isinstance(data, str) and "T" in data else None
    except ValueError:
        return data
    return data if moment is None or moment.tzinfo is None else moment.astimezone(UTC).isoformat()


@pytest.mark.parametrize("whole", shipped(), ids=lambda whole: whole.name)
def test_the_same_moments_told_in_another_zone_are_judged_alike(whole: Whole) -> None:
    told = in_utc(whole.opening)
    assert told != whole.opening
    assert outcomes(told, whole.around, whole.rules) == judged(whole.name)
