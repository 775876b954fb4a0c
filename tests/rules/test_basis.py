from typing import Any

import pytest
from pydantic import ValidationError

from revealbook.rules.basis import Basis

PUBLISHED = {"kind": "published", "standard": "DIN 18202", "edition": "2013-04", "clause": "table 1"}


@pytest.mark.parametrize(
    "stated",
    [
        PUBLISHED,
        {"kind": "supplier", "document": "mounting instructions 2026-03"},
        {"kind": "common practice"},
        {"kind": "common practice", "standard": "ISO 8502-4", "note": "adopted"},
        {"kind": "from memory", "standard": "DIN 18202"},
    ],
)
def test_a_basis_that_names_its_source_is_taken(stated: dict[str, Any]) -> None:
    assert Basis.model_validate(stated).kind == stated["kind"]


@pytest.mark.parametrize("key", ["standard", "edition", "clause"])
def test_published_names_standard_edition_and_clause(key: str) -> None:
    with pytest.raises(ValidationError, match="names its standard, edition and clause"):
        Basis.model_validate({name: value for name, value in PUBLISHED.items() if name != key})


def test_the_supplier_is_named_by_a_document() -> None:
    with pytest.raises(ValidationError, match="names its document"):
        Basis.model_validate({"kind": "supplier", "standard": "DIN 18202"})


def test_hearsay_is_no_basis() -> None:
    with pytest.raises(ValidationError):
        Basis.model_validate({"kind": "everybody does it"})
