import pytest
from pydantic import BaseModel, ValidationError

from revealbook.records.facade import Finish, FireBarrier, Head, Insulation, ShutterBox


@pytest.mark.parametrize("model", [Finish, FireBarrier, Head, Insulation, ShutterBox])
def test_everything_may_be_missing_and_nothing_is_filled_in(model: type[BaseModel]) -> None:
    assert set(model().model_dump().values()) == {None}


def test_a_shape_or_material_that_is_not_known_is_refused() -> None:
    with pytest.raises(ValidationError):
        Head.model_validate({"shape": "ogee"})
    with pytest.raises(ValidationError):
        Insulation.model_validate({"kind": "wool"})
