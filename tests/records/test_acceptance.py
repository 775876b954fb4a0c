import pytest
from pydantic import ValidationError

from revealbook.records.acceptance import Concession, Correction, HoldPoint, SignOff, SiteNonconformity


def test_a_hold_point_that_was_not_passed_is_no_hold_point_that_says_nothing() -> None:
    assert HoldPoint.model_validate({"name": "frame", "passed": False}).passed is False
    assert HoldPoint.model_validate({"name": "frame"}).passed is None


@pytest.mark.parametrize("role", ["installer", "foreman", "clerk of works", "client", "designer", "supplier"])
def test_every_role_of_the_site_may_sign(role: str) -> None:
    assert SignOff.model_validate({"role": role}).role == role


def test_a_nonconformity_has_a_name_and_says_what_it_is() -> None:
    found = SiteNonconformity.model_validate(
        {"id": "NC-1", "what": "out of level", "correction": {"by": "ada"}}
    )
    assert found.correction == Correction.model_validate({"by": "ada"})
    with pytest.raises(ValidationError):
        SiteNonconformity.model_validate({"id": "NC-1"})


def test_a_concession_names_its_rule() -> None:
    with pytest.raises(ValidationError):
        Concession.model_validate({"reason": "gas pipe"})
