"""Refusals: whoever catches the general one misses none."""

from pathlib import Path

import pytest

from revealbook.archive.refusal import Busy, Damaged, NotAnArchive, Refused, refuse_existing


@pytest.mark.parametrize("kind", [Busy, Damaged, NotAnArchive])
def test_every_refusal_is_caught_as_one_and_says_its_sentence(kind: type[Refused]) -> None:
    with pytest.raises(Refused, match="It is so"):
        raise kind("It is so.")


def test_only_a_file_that_is_there_already_is_refused(tmp_path: Path) -> None:
    file = tmp_path / "heads.pdf"
    refuse_existing(file)
    file.write_bytes(b"mine")
    with pytest.raises(Refused, match=r"heads\.pdf is there already, and is not overwritten"):
        refuse_existing(file)
