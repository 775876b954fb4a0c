"""The weather at each use, to scale: air, surface, dew point and the margin in force."""

from itertools import pairwise
from typing import Any

import pytest
from tests.present.judging import ENGLISH, Changes, opening
from tests.rules.changes import bare, common_practice

from revealbook.measures.physics.dew_point import dew_point_c
from revealbook.present.conditions import ConditionsChart, conditions_chart
from revealbook.rules.finding import Outcome
from revealbook.rules.overlay import Overlay, lay_over
from revealbook.rules.rule_set import RuleSet
from revealbook.source.read import Document, read_bytes

TOP, BOTTOM = 4.0, 46.0 - 9.0
"""Where on paper the scale begins and ends, mm."""


def chart(changes: Changes | None = None, rules: RuleSet | None = None) -> ConditionsChart:
    found = conditions_chart(opening(changes, rules=rules), ENGLISH)
    assert found is not None
    return found


def overlaid(change: str) -> RuleSet:
    basis = "    basis: {kind: supplier, document: sheet 4}\n    reason: as they write\n"
    text = f"overlay: own\nchange:\n  - id: surface-above-dew-point\n    {change}\n{basis}"
    document = read_bytes(text.encode(), "rules/own.yaml")
    assert isinstance(document, Document)
    changed, problems = lay_over(common_practice(), Overlay.model_validate(document.data), document)
    assert problems == []
    return changed


def read_off(found: ConditionsChart, height: float) -> float:
    """Read a temperature off the chart by its lowest and highest grid line."""
    (low_y, low), (high_y, high) = (
        (y, float(label.replace("−", "-"))) for y, label in (found.grid[0], found.grid[-1])
    )
    return low + (low_y - height) / (low_y - high_y) * (high - low)


def test_each_use_of_a_product_has_its_column_in_the_order_of_the_work() -> None:
    found = chart()
    assert [column.label for column in found.columns] == ["adhesive", "inner tape", "foam", "outer tape"]
    assert [column.values.replace("\u00a0", " ") for column in found.columns] == [
        "7.5 over 3.4 °C", "9 over 3.5 °C", "9.5 over 3.7 °C", "8.6 over 3.4 °C",
    ]  # fmt: skip
    assert found.title == (
        "Weather at 4 uses of products: air, surface, dew point; 0 with too cold a surface"
    )


def test_temperatures_can_be_read_off_at_the_grid() -> None:
    found = chart()
    foam = found.columns[2]
    dew = dew_point_c(10, 65)
    read = [read_off(found, height) for height in (foam.air, foam.surface, foam.dew, foam.wanted)]
    assert read == pytest.approx([10, 9.5, dew, dew + 3])


def test_the_margin_is_that_of_the_rule_in_force() -> None:
    found = chart(rules=bare(overlaid("at_least: 5")))
    foam = found.columns[2]
    assert read_off(found, foam.wanted) - read_off(found, foam.dew) == pytest.approx(5)
    assert [column.outcome for column in found.columns] == [
        Outcome.DOES_NOT_CONFORM, Outcome.CONFORMS, Outcome.CONFORMS, Outcome.CONFORMS,
    ]  # fmt: skip


def test_the_margin_of_a_limit_by_two_ends_is_its_lower_end() -> None:
    found = chart(rules=overlaid("between: [4, 30]"))
    foam = found.columns[2]
    assert read_off(found, foam.wanted) - read_off(found, foam.dew) == pytest.approx(4)


def test_too_cold_a_surface_is_an_outcome_of_its_column_alone() -> None:
    found = chart({"seals.events[1].surface_c": 4})
    assert [column.outcome for column in found.columns].count(Outcome.DOES_NOT_CONFORM) == 1
    assert found.columns[2].outcome is Outcome.DOES_NOT_CONFORM
    assert found.columns[2].surface > found.columns[2].wanted, "below the margin on paper"
    assert found.title.endswith("1 with too cold a surface")


@pytest.mark.parametrize(
    "weather",
    [
        {"air_c": -10, "rh_pct": 90, "surface_c": -12},
        {"air_c": 35, "rh_pct": 20, "surface_c": 48},
        {"air_c": 5, "rh_pct": 100, "surface_c": 5},
        {"air_c": 0.0, "rh_pct": 1, "surface_c": -0.1},
    ],
)
def test_the_scale_covers_whatever_was_read(weather: dict[str, Any]) -> None:
    found = chart({f"seals.events[1].{key}": value for key, value in weather.items()})
    heights = [
        height
        for one in found.columns
        for height in (one.air, one.surface, one.dew, one.wanted)
    ]  # fmt: skip
    assert all(TOP <= height <= BOTTOM for height in heights)
    assert all(TOP <= y <= BOTTOM for y, _ in found.grid)
    assert found.grid[0][0] == pytest.approx(BOTTOM)
    assert 2 <= len(found.grid) <= 8
    assert all(one[0] > other[0] for one, other in pairwise(found.grid)), "warmer stands higher"
    assert read_off(found, found.columns[2].surface) == pytest.approx(weather["surface_c"])


def test_temperatures_that_are_all_one_still_have_a_scale() -> None:
    tape = {"step": "inner tape", "air_c": 5, "rh_pct": 100, "surface_c": 5}
    found = chart({"frame.bonding": None, "seals.events": [tape]}, rules=overlaid("at_least: 0"))
    assert read_off(found, found.columns[0].surface) == pytest.approx(5)
    assert found.columns[0].dew == pytest.approx(found.columns[0].wanted)


def test_a_use_whose_weather_was_not_read_in_full_has_no_column() -> None:
    found = chart({"seals.events[0].rh_pct": None, "seals.events[1].surface_c": None})
    assert [column.label for column in found.columns] == ["adhesive", "outer tape"]


def test_where_nothing_was_read_there_is_no_chart() -> None:
    assert conditions_chart(opening({"frame.bonding": None, "seals": None}), ENGLISH) is None
    assert (
        conditions_chart(opening({"seals.events[3].rh_pct": None}, rules=overlaid("retire: true")), ENGLISH)
        is None
    )


def with_tapes(number: int) -> ConditionsChart:
    tape = {
        "step": "inner tape", "at": "2026-11-20T10:20+01:00", "product": "inner-tape",
        "air_c": 9.5, "rh_pct": 66, "surface_c": 9,
    }  # fmt: skip
    return chart({"frame.bonding": None, "seals.events": [tape] * number})


@pytest.mark.parametrize("number", [1, 3, 8, 9, 20])
def test_columns_stand_side_by_side_inside_the_chart(number: int) -> None:
    found = with_tapes(number)
    assert len(found.columns) == number
    assert found.left < found.columns[0].x - found.half_column
    assert found.columns[-1].x + found.half_column < found.width
    pitches = {round(other.x - one.x, 6) for one, other in pairwise(found.columns)}
    assert all(pitch > 2 * found.half_column for pitch in pitches)
    assert len(pitches) <= 1


def test_values_are_left_to_the_list_where_they_would_run_into_one_another() -> None:
    assert all(column.values for column in with_tapes(8).columns)
    assert not any(column.values for column in with_tapes(9).columns)
