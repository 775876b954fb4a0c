import pytest
from tests.archive.versions import FILES, RECORD, judged

from revealbook.archive.difference import About, Change, differences
from revealbook.archive.refusal import Damaged


def to(files: dict[str, bytes | None]) -> tuple[Change, ...]:
    return differences(FILES, {path: raw for path, raw in files.items() if raw is not None})


def with_file(path: str, raw: bytes | None) -> tuple[Change, ...]:
    return to({**FILES, path: raw})


def test_nothing_differs_between_a_version_and_itself() -> None:
    assert differences(FILES, FILES) == ()


def test_a_reading_is_told_with_its_path_and_both_values() -> None:
    raw = RECORD.replace(b"overlap_mm: 80", b"overlap_mm: 62")
    assert with_file("openings/W 1.yaml", raw) == (
        Change(About.READING, "W 1", "frame.pieces.left.overlap_mm", "80", "62"),
    )


def test_a_reading_that_was_added_or_withdrawn_has_only_one_value() -> None:
    raw = RECORD.replace(b"overlap_mm: 80", b"length_mm: 1230")
    assert with_file("openings/W 1.yaml", raw) == (
        Change(About.READING, "W 1", "frame.pieces.left.overlap_mm", "80", None),
        Change(About.READING, "W 1", "frame.pieces.left.length_mm", None, "1230"),
    )


def test_a_comment_is_told_as_no_value() -> None:
    (change,) = with_file("openings/W 1.yaml", b"# seen\n" + RECORD)
    assert (change.mark, change.what) == ("W 1", "text")
    assert "every value is the same" in str(change.after)


def test_a_concession_is_told_apart_from_readings() -> None:
    (change,) = with_file("openings/W 1.yaml", RECORD.replace(b"reason: pipe", b"reason: beam"))
    assert change == Change(About.CONCESSION, "W 1", "concessions[frame-overlap].reason", "pipe", "beam")


def test_openings_are_told_as_added_or_withdrawn() -> None:
    new = RECORD.replace(b"W 1", b"W 2")
    assert with_file("openings/W 2.yaml", new) == (Change(About.OPENING, "W 2", "record", None, "there"),)
    assert with_file("openings/W 1.yaml", None) == (Change(About.OPENING, "W 1", "record", "there", None),)


def test_a_record_under_another_file_name_is_the_same_opening() -> None:
    assert to({**FILES, "openings/W 1.yaml": None, "openings/other.yaml": RECORD}) == ()


def test_an_outcome_is_told_by_opening_and_rule() -> None:
    raw = judged({"W 1": {"frame-overlap": "does not conform", "beads": "conforms"}})
    assert with_file("findings/s.json", raw) == (
        Change(About.OUTCOME, "W 1", "frame-overlap", "conforms", "does not conform"),
    )


def test_a_finding_that_only_moved_to_another_line_is_no_difference() -> None:
    raw = judged({"W 1": {"frame-overlap": "conforms", "beads": "conforms"}}, line=9)
    assert with_file("findings/s.json", raw) == ()


def test_what_was_found_is_told_where_the_outcome_stays() -> None:
    raw = judged({"W 1": {"frame-overlap": "conforms", "beads": "conforms"}}, found="82 mm")
    assert Change(About.OUTCOME, "W 1", "beads", "conforms: 80 mm", "conforms: 82 mm") in with_file(
        "findings/s.json", raw
    )


def test_another_name_of_the_pack_changes_no_outcome() -> None:
    assert to({**FILES, "findings/s.json": None, "findings/t.json": FILES["findings/s.json"]}) == ()


def test_another_edition_of_the_rules_is_told_once() -> None:
    raw = judged({"W 1": {"frame-overlap": "conforms", "beads": "conforms"}}, edition="2027-01")
    (change,) = with_file("findings/s.json", raw)
    assert (change.about, change.mark) == (About.RULES, "")
    assert "2026-12" in str(change.before)
    assert "2027-01" in str(change.after)


@pytest.mark.parametrize(
    ("path", "about", "mark"),
    [
        ("photos/a.jpg", About.PHOTO, ""),
        ("packs/s.pdf", About.PACK, ""),
        ("afterwards/c-1.yaml", About.LATER, "W 1"),
    ],
)
def test_files_are_told_as_replaced_and_withdrawn(path: str, about: About, mark: str) -> None:
    (replaced,) = with_file(path, FILES[path] + b"x: y\n")
    (withdrawn,) = with_file(path, None)
    assert (replaced.about, replaced.mark, replaced.what) == (about, mark, path)
    assert replaced.before != replaced.after
    assert (withdrawn.about, withdrawn.mark, withdrawn.after) == (about, mark, None)


def test_a_photograph_of_a_later_record_is_a_photograph() -> None:
    (change,) = with_file("afterwards/photos/b.jpg", b"jpeg")
    assert (change.about, change.before) == (About.PHOTO, None)


def test_the_site_and_its_rules_are_told_value_by_value() -> None:
    site = FILES["site.yaml"].replace(b"Ben", b"Benno")
    assert with_file("site.yaml", site) == (
        Change(About.SITE, "", "site.yaml people[ben].name", "Ben", "Benno"),
    )
    (added,) = with_file("rules/own.yaml", b"overlay: o\n")
    assert added == Change(About.RULES, "", "rules/own.yaml", None, "there")


def test_what_is_only_of_the_filing_is_left_aside() -> None:
    assert to({**FILES, "facts.json": b"[]", "filing.json": b"[]"}) == ()


def test_findings_that_cannot_be_read_are_refused() -> None:
    with pytest.raises(Damaged, match=r"findings/s\.json"):
        with_file("findings/s.json", b"{")


def test_a_record_that_cannot_be_read_is_still_told_as_changed() -> None:
    assert with_file("openings/W 1.yaml", b"opening: {mark")


def test_a_record_that_was_only_brought_into_format_2_is_written_otherwise() -> None:
    old = b"opening: {mark: W 1}\nframe: {bonding: {batch: '0412', at: 2026-11-20T09:20Z}}\n"
    new = (
        b"format: 2\nopening: {mark: W 1}\nframe: {bonding: [{of: [bottom, left, right, top], "
        b"batches: [{number: '0412'}], laid_at: 2026-11-20T09:20Z}]}\n"
    )
    (change,) = differences({**FILES, "openings/W 1.yaml": old}, {**FILES, "openings/W 1.yaml": new})
    assert (change.mark, change.what) == ("W 1", "text")
    assert "every value is the same" in str(change.after)
