import pytest
from pydantic import ValidationError
from tests.builders import SITE, full_site

from revealbook.records.products import Products
from revealbook.records.site import Site


def test_a_site_needs_its_name_and_its_rules_only() -> None:
    site = Site.model_validate(SITE)
    assert (site.language, site.paper, site.keep_gps) == ("en", "A4", False)
    assert site.products == Products()
    assert site.people == ()


@pytest.mark.parametrize("key", ["id", "name", "rules"])
def test_neither_may_be_missing(key: str) -> None:
    with pytest.raises(ValidationError):
        Site.model_validate({name: value for name, value in SITE.items() if name != key})


def test_products_with_nothing_below_are_none() -> None:
    assert Site.model_validate(SITE | {"products": None}).products == Products()


def test_gps_is_kept_only_when_asked_for() -> None:
    assert Site.model_validate(SITE | {"keep_gps": True}).keep_gps is True


def test_a_person_has_the_roles_to_sign_in() -> None:
    people = {person.id: person.roles for person in Site.model_validate(full_site()).people}
    assert people["cleo"] == ("clerk of works",)
    with pytest.raises(ValidationError):
        Site.model_validate(SITE | {"people": [{"id": "a", "name": "A", "roles": ["boss"]}]})
