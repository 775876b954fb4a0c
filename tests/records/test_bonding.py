from typing import Any

import pytest
from pydantic import ValidationError

from revealbook.records.bonding import BONDED, Application


def test_an_application_may_be_of_pieces_supports_plinth_and_joints() -> None:
    assert Application.model_validate({"of": list(BONDED)}).of == BONDED


@pytest.mark.parametrize("wrong", [{"of": ["sill"]}, {"batch": "0412"}, {"at": "2026-11-20T09:20Z"}])
def test_an_application_refuses_what_it_does_not_know(wrong: dict[str, Any]) -> None:
    with pytest.raises(ValidationError):
        Application.model_validate(wrong)


def test_an_application_has_as_many_batches_as_were_used() -> None:
    made = Application.model_validate({"batches": [{"number": "0412"}, {"number": "0419"}]})
    assert [batch.number for batch in made.batches or ()] == ["0412", "0419"]
