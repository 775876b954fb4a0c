"""Refusals: whoever catches the general one misses none."""

import pytest

from revealbook.archive.refusal import Busy, Damaged, NotAnArchive, Refused


@pytest.mark.parametrize("kind", [Busy, Damaged, NotAnArchive])
def test_every_refusal_is_caught_as_one_and_says_its_sentence(kind: type[Refused]) -> None:
    with pytest.raises(Refused, match="It is so"):
        raise kind("It is so.")
