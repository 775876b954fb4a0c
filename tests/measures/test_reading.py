import pytest

from revealbook.measures.reading import Detail, Missing, Reading


def test_a_reading_states_no_uncertainty_unless_told() -> None:
    plain = Reading(("left",), 12.5, ("window", "bow_mm"))
    assert plain.uncertainty is None
    assert plain.details == ()


def test_what_is_missing_may_still_say_what_is_known() -> None:
    missing = Missing((), "climate_outside_table", ("window", "set_at"), (Detail("read", -6, "degC"),))
    assert missing.details[0].path is None


def test_readings_cannot_be_changed() -> None:
    with pytest.raises(AttributeError):
        Reading((), 1, ()).value = 2  # type: ignore[misc]
