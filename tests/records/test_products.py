import pytest
from pydantic import ValidationError

from revealbook.records.products import Adhesive, Instrument, Product, Products


def test_a_product_needs_its_id_only_and_nothing_is_filled_in() -> None:
    assert set(Adhesive(id="frame-bond").model_dump(exclude={"id"}).values()) == {None}


@pytest.mark.parametrize("kind", list(Products.model_fields))
def test_every_kind_of_product_is_a_product(kind: str) -> None:
    (held,) = getattr(Products.model_validate({kind: [{"id": "x", "name": "On the label"}]}), kind)
    assert isinstance(held, Product)
    assert held.name == "On the label"


def test_a_line_of_a_table_of_waits_has_temperature_and_hours() -> None:
    held = Adhesive.model_validate({"id": "a", "load_after": [{"air_c": 10, "hours": 24}]})
    assert held.load_after is not None
    assert (held.load_after[0].air_c, held.load_after[0].rh_pct, held.load_after[0].hours) == (10, None, 24)
    with pytest.raises(ValidationError):
        Adhesive.model_validate({"id": "a", "load_after": [{"air_c": 10}]})


@pytest.mark.parametrize(
    "wrong",
    [
        {"measures": "torque", "uncertainty": 1},
        {"measures": "length"},
        {"uncertainty": 1},
        {"measures": "length", "uncertainty": -1},
    ],
)
def test_an_instrument_says_what_it_measures_and_how_well(wrong: dict[str, object]) -> None:
    with pytest.raises(ValidationError):
        Instrument.model_validate({"id": "t"} | wrong)
