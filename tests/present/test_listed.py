"""What is listed is frozen: a page is made of it, and nothing changes it on the way."""

from dataclasses import FrozenInstanceError

import pytest
from tests.present import listing


def test_what_is_listed_cannot_be_changed() -> None:
    with pytest.raises(FrozenInstanceError):
        listing.openings(1)[0].mark = "other"  # type: ignore[misc]
