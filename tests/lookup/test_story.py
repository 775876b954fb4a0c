"""The story of an opening is collected from its latest pack, all versions and the later records."""

from pathlib import Path

import pytest
from tests.archive import archives
from tests.made import bare
from tests.present import judging
from tests.present.judging import Changes

from revealbook.archive.refusal import Refused
from revealbook.archive.store import Archive
from revealbook.lookup.story import Story, story_of
from revealbook.present.evidence import evidence, findings_json
from revealbook.present.words import words_in

SHORT = {"frame.pieces.bottom.overlap_left_mm": 79}
CLAIM = b"""id: claim-1
kind: claim
site: s
mark: W-1.01
at: 2036-02-11T10:30+01:00
by: Edda Blendrahmen
found: water on the sill board
"""


def filed(folder: Path, **by_mark: Changes) -> dict[str, bytes]:
    """Give the content of a version with one pack; marks are written with underscores."""
    site = judging.site({mark.replace("_", "-"): changes for mark, changes in by_mark.items()})
    pack = bare(evidence(site), folder / "made.pdf").read_bytes()
    return {"packs/p.pdf": pack, "findings/p.json": findings_json(site)}


def archive_of(folder: Path, *states: dict[str, bytes]) -> Archive:
    archive = Archive.create(folder / "archive")
    for state in states:
        archives.add(archive, state)
    return archive


def story(archive: Archive, mark: str = "W-1") -> Story:
    return story_of(archive, "s", mark, words_in("en"))


def part(told: Story, key: str) -> str:
    [sentences] = [one.sentences for one in told.parts if one.key == key]
    return " ".join(sentences).replace("\u00a0", " ")


def test_the_latest_version_is_told_and_the_change_before_it(tmp_path: Path) -> None:
    first, second = filed(tmp_path, W_1=SHORT, W_2={}), filed(tmp_path, W_1={}, W_2=SHORT)
    told = story(archive_of(tmp_path, first, second))
    assert "overlap on the left 82 mm" in part(told, "frame")
    assert told.pack.read_bytes() == second["packs/p.pdf"]
    assert [one.holds for one in told.filings] == [True, True]
    changed, same_sum = told.filings[1].changes
    assert (changed.mark, changed.rule) == ("W-1", "frame-overlap")
    assert (same_sum.mark, same_sum.rule) == ("W-1", "overlaps-add-up")
    assert "frame-overlap: does not conform before, conforms since" in part(told, "versions")


def test_a_version_that_changes_only_other_openings_is_said_not_to_change_this_one(tmp_path: Path) -> None:
    told = story(archive_of(tmp_path, filed(tmp_path, W_1={}, W_2={}), filed(tmp_path, W_1={}, W_2=SHORT)))
    assert told.filings[1].changes == ()


def test_an_opening_that_a_later_version_leaves_out_is_still_told(tmp_path: Path) -> None:
    told = story(archive_of(tmp_path, filed(tmp_path, W_1={}), filed(tmp_path, W_2={})))
    assert [one.holds for one in told.filings] == [True, False]
    assert "length 2565 mm" in part(told, "frame")


def test_a_volume_is_read_before_the_index_that_holds_everything(tmp_path: Path) -> None:
    both, alone = filed(tmp_path, W_1={}, W_2={}), filed(tmp_path, W_1=SHORT)
    state = {
        **{path.replace("/p", "/index"): content for path, content in both.items()},
        **{path.replace("/p", "/volume"): content for path, content in alone.items()},
    }
    assert story(archive_of(tmp_path, state)).pack.read_bytes() == alone["packs/p.pdf"]


def test_claims_that_joined_this_opening_are_told_and_those_of_others_are_not(tmp_path: Path) -> None:
    other = CLAIM.replace(b"claim-1", b"claim-2").replace(b"W-1.01", b"W-2")
    later = {
        "afterwards/claim-1.yaml": CLAIM.replace(b"W-1.01", b"W-1"),
        "afterwards/claim-2.yaml": other,
        "afterwards/photos/stain.jpg": b"jpg",
        "afterwards/again.yaml": b"site: s\n",
    }
    told = story(archive_of(tmp_path, {**filed(tmp_path, W_1={}, W_2={}), **later}))
    assert [one.id for one in told.later] == ["claim-1"]
    assert "water on the sill board" in part(told, "later")
    assert "afterwards/again.yaml" in part(told, "later")
    assert "claim-2" not in part(told, "later")


def test_a_re_measurement_of_this_opening_is_named_and_that_of_another_is_not(tmp_path: Path) -> None:
    again = "site: s\nmark: {}\nreadings: {{window: {{bow_mm: 1}}}}\n"
    later = {f"afterwards/{mark}.yaml": again.format(mark).encode() for mark in ("W-1", "W-2")}
    told = part(story(archive_of(tmp_path, {**filed(tmp_path, W_1={}, W_2={}), **later})), "later")
    assert "afterwards/W-1.yaml" in told
    assert "afterwards/W-2.yaml" not in told


def test_an_opening_that_is_not_filed_is_refused_with_the_nearest_mark(tmp_path: Path) -> None:
    archive = archive_of(tmp_path, filed(tmp_path, W_10={}))
    with pytest.raises(Refused, match=r"s has no opening W-11\. Did you mean W-10\?"):
        story(archive, "W-11")


def test_a_pack_that_cannot_be_opened_is_refused(tmp_path: Path) -> None:
    archive = archive_of(tmp_path, {**filed(tmp_path, W_1={}), "packs/p.pdf": b"%PDF"})
    with pytest.raises(Refused, match="cannot be opened"):
        story(archive)


def test_findings_that_cannot_be_read_are_refused(tmp_path: Path) -> None:
    archive = archive_of(tmp_path, {**filed(tmp_path, W_1={}), "findings/p.json": b"{"})
    with pytest.raises(Refused, match=r"findings/p\.json of s cannot be read"):
        story(archive)
