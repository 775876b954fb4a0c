import pytest
from pydantic import ValidationError

from revealbook.records.fixing import Bead, FixingSet


def test_a_set_of_fixings_says_where_each_stands() -> None:
    assert FixingSet.model_validate({"at_mm": [180, 815]}).at_mm == (180, 815)


@pytest.mark.parametrize("number", [-1, 1.5, "2", True])
def test_beads_are_counted(number: object) -> None:
    assert Bead.model_validate({"number": 0}).number == 0
    with pytest.raises(ValidationError):
        Bead.model_validate({"number": number})


@pytest.mark.parametrize("key", ["embedment_mm", "edge_distance_mm", "torque_nm", "diameter_mm", "length_mm"])
def test_no_dimension_of_a_fixing_is_negative(key: str) -> None:
    with pytest.raises(ValidationError):
        FixingSet.model_validate({key: -1})
