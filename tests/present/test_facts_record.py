"""Facts are values: frozen, and blind to what they do not know."""

import pytest
from pydantic import ValidationError

from revealbook.present.facts_record import OpeningFacts, RuleOutcome
from revealbook.rules.finding import Outcome


def facts(*rules: RuleOutcome) -> OpeningFacts:
    return OpeningFacts(site="s", mark="W-1", outcome=Outcome.CONFORMS, rules=rules)


def test_only_weather_that_does_not_conform_is_below_the_limit() -> None:
    breached, undecided = Outcome.DOES_NOT_CONFORM, Outcome.UNDECIDED
    found = facts(
        RuleOutcome(rule="air-in-range", outcome=breached, weather=True),
        RuleOutcome(rule="surface-in-range", outcome=undecided, weather=True),
        RuleOutcome(rule="frame-overlap", outcome=breached),
    )
    assert found.below_limit == ("air-in-range",)


def test_facts_cannot_be_changed() -> None:
    with pytest.raises(ValidationError, match="frozen"):
        facts().mark = "W-2"  # type: ignore[misc]


def test_a_key_that_is_not_known_is_left_aside() -> None:
    said = {"site": "s", "mark": "W-1", "outcome": "conforms", "tint": "grey"}
    assert OpeningFacts.model_validate(said) == facts()
