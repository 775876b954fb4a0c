import pytest
from pydantic import ValidationError

from revealbook.measures.method import Method


def test_a_rule_set_that_says_nothing_decides_with_a_guard_band() -> None:
    method = Method()
    assert (method.decision, method.guard_band_factor) == ("guard band", 1)
    assert method.hold_points == ("substrate", "frame", "window", "foam", "before covering")


@pytest.mark.parametrize(
    "wrong",
    [
        {"decision": "by eye"},
        {"guard_band_factor": -1},
        {"guard_band_factor": 3.1},
        {"hold_points": ["paint"]},
        {"signing_roles": ["boss"]},
        {"photographed_sections": ["opening"]},
        {"band": 1},
        {"conceding_roles": ["installer"]},
    ],
)
def test_a_method_that_is_none_is_refused(wrong: dict[str, object]) -> None:
    with pytest.raises(ValidationError):
        Method.model_validate(wrong)


def test_no_hold_point_may_be_asked_for() -> None:
    assert Method.model_validate({"hold_points": []}).hold_points == ()


def test_every_parameter_says_what_it_means() -> None:
    assert all(field.description for field in Method.model_fields.values())
