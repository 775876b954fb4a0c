import pytest
from pydantic import ValidationError

from revealbook.records.sash import Coupling, Sash


def test_a_sash_may_lift_and_slide_and_leave_everything_open() -> None:
    assert Sash(kind="lift and slide").tried is None
    with pytest.raises(ValidationError):
        Sash.model_validate({"kind": "swing"})


def test_a_coupling_stands_in_line_unless_it_names_a_corner() -> None:
    assert Coupling(to="W-2.08", at_mm=1188).corner is None
    with pytest.raises(ValidationError):
        Coupling.model_validate({"corner": "top"})
