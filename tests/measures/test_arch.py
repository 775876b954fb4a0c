from math import pi
from typing import Any

import pytest
from tests.builders import build, value, values

from revealbook.measures.arch import head_length_mm
from revealbook.measures.work import Work

SEMICIRCLE = {"shape": "semicircular arch", "rise_mm": 500}


def arched(head: dict[str, Any] | None = None, **sections: Any) -> Work:
    survey = {"widths_mm": {"top": 1000}, "head": head or SEMICIRCLE} | sections.pop("survey", {})
    return build({"opening": {"mark": "W-1", "height_mm": 1500}, "survey": survey} | sections)


def test_heights_at_the_jambs_end_at_the_springing() -> None:
    heights = {"left": 1002, "middle": 1501, "right": 997}
    found = values(arched(survey={"heights_mm": heights}), "height_deviation")
    assert found == {("left",): 2, ("middle",): 1, ("right",): 3}


def test_without_its_rise_the_height_at_the_jambs_cannot_be_told() -> None:
    work = arched({"shape": "segmental arch"}, survey={"heights_mm": {"left": 1000, "middle": 1500}})
    assert values(work, "height_deviation")["left",] == "missing rise_mm at survey.head.rise_mm"
    assert values(work, "height_deviation")["middle",] == 0


def test_the_top_piece_follows_the_arch() -> None:
    work = arched(frame={"pieces": {"top": {"length_mm": 1580}}})
    assert value(work, "arch_reach") == pytest.approx(1580 - 500 * pi)


def test_an_arch_higher_than_a_semicircle_is_none() -> None:
    work = arched(SEMICIRCLE | {"rise_mm": 510}, frame={"pieces": {"top": {"length_mm": 1580}}})
    assert value(work, "arch_reach") == "missing higher_than_semicircle at survey.head.rise_mm"
    assert head_length_mm(work) is None


def test_the_windows_head_is_an_arch_in_proportion() -> None:
    assert head_length_mm(arched(window={"width_mm": 960})) == pytest.approx(480 * pi)
    assert head_length_mm(arched({"shape": "straight"}, window={"width_mm": 960})) == 960
