"""Later records read for joining: each kind under its own id."""

from pathlib import Path

import pytest
from tests.archive.later_records import CLAIM, REMEASUREMENT, REPAIR, written

from revealbook.archive.later import LaterRecord, read_later
from revealbook.archive.refusal import Refused


@pytest.mark.parametrize(
    ("text", "given"),
    [
        (CLAIM, ("alder-yard", "A-1", "claim-2036-1", "claim", ("sill.jpg",))),
        (REPAIR, ("alder-yard", "B-1", "repair-2036-1", "repair", ())),
        (
            REMEASUREMENT,
            (
                "alder-yard", "A-1", "remeasured-A-1-20261124T0900Z", "re-measurement",
                ("again/left.jpg", "top.jpg"),
            ),
        ),
    ],
)  # fmt: skip
def test_each_kind_gives_site_mark_id_and_the_photographs_it_names(
    tmp_path: Path, text: str, given: tuple[str, str, str, str, tuple[str, ...]]
) -> None:
    found = read_later(written(tmp_path, text))
    assert (found.site, found.mark, found.id, found.kind, found.photos) == given
    assert found.content == text.encode()


def test_its_file_is_called_after_its_id() -> None:
    assert LaterRecord("s", "A-1", "claim-1", "claim", b"").path == "afterwards/claim-1.yaml"


def test_a_mark_with_a_slash_or_blank_gives_a_re_measurement_a_files_name(tmp_path: Path) -> None:
    found = read_later(written(tmp_path, REMEASUREMENT, ("mark: A-1", "mark: W 2/07")))
    assert found.id == "remeasured-W-2-07-20261124T0900Z"


def test_a_re_measurement_without_its_time_cannot_be_called_anything(tmp_path: Path) -> None:
    with pytest.raises(Refused, match="does not say when it was taken"):
        read_later(written(tmp_path, REMEASUREMENT, ("at: 2026-11-24T10:00+01:00\n", "")))


@pytest.mark.parametrize(
    ("text", "change", "said"),
    [
        (CLAIM, ("found: water on the sill board at the left\n", ""), "“found” is missing"),
        (CLAIM, ("kind: claim", "kind: complaint"), "“kind” cannot be complaint"),
        (CLAIM, ("id: claim-2036-1", "id: ../claim"), "id"),
        (REMEASUREMENT, ("top: 902", "top: wide"), "wants a number"),
    ],
)
def test_what_cannot_be_used_is_refused_with_every_place(
    tmp_path: Path, text: str, change: tuple[str, str], said: str
) -> None:
    file = written(tmp_path, text, change)
    with pytest.raises(Refused) as reason:
        read_later(file)
    first, *_, last = str(reason.value).splitlines()
    assert first.startswith(f"{file}:")
    assert said in first
    assert last == "The record was not joined."


def test_a_file_that_is_not_there_is_refused(tmp_path: Path) -> None:
    with pytest.raises(Refused, match=r"nowhere\.yaml"):
        read_later(tmp_path / "nowhere.yaml")
