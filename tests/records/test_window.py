import pytest
from pydantic import ValidationError

from revealbook.records.window import JointsBySide, Window


def test_joints_are_read_at_three_places_of_four_sides() -> None:
    assert set(JointsBySide.model_fields) == {"left", "right", "top", "bottom"}
    window = Window.model_validate({"joint_widths_mm": {"left": {"start": 12, "middle": 11.5, "end": 0}}})
    assert window.joint_widths_mm is not None
    assert window.joint_widths_mm.left is not None
    assert window.joint_widths_mm.left.end == 0


@pytest.mark.parametrize("side", ["hinge", "Left", "front"])
def test_fixings_are_on_one_of_four_sides(side: str) -> None:
    with pytest.raises(ValidationError):
        Window.model_validate({"fixings": [{"side": side}]})


def test_fixings_of_the_window_have_all_that_fixings_have() -> None:
    window = Window.model_validate({"fixings": [{"side": "left", "at_mm": [150], "predrilled": True}]})
    assert window.fixings is not None
    assert window.fixings[0].predrilled is True
