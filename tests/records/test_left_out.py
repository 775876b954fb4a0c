import pytest
from pydantic import ValidationError

from revealbook.records.left_out import LeftOut


def test_what_can_be_left_out_is_a_closed_list() -> None:
    assert LeftOut(what="top piece").reason is None
    with pytest.raises(ValidationError, match="what"):
        LeftOut.model_validate({"what": "the wall"})
