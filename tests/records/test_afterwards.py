from datetime import datetime
from pathlib import Path

import pytest
from pydantic import ValidationError

from revealbook.present.problems import line
from revealbook.present.words import words_in
from revealbook.records.afterwards import Claim, Repair, load_afterwards

EXAMPLES = Path(__file__).parents[2] / "examples" / "larch-court-afterwards"
COMMON = "id: c-1\nsite: s\nmark: W 1\nat: 2036-02-11T10:30+01:00\nby: Edda Blendrahmen\n"
CLAIM = f"kind: claim\n{COMMON}found: damp plaster\n"


def loaded(path: Path, text: str) -> Claim | Repair:
    file = path / "later.yaml"
    file.write_text(text, encoding="utf-8")
    got = load_afterwards(file)
    assert isinstance(got[0], Claim | Repair), got
    return got[0]


def refused(path: Path, text: str) -> list[str]:
    file = path / "later.yaml"
    file.write_text(text, encoding="utf-8")
    got = load_afterwards(file)
    assert not isinstance(got[0], Claim | Repair)
    said = [line(problem, words_in("en")) for problem in got]
    return [one.removeprefix(f"{file}:") for one in said]


def test_the_example_claim_names_its_opening_and_what_was_found() -> None:
    claim, sheet = load_afterwards(EXAMPLES / "claim-2036-1.yaml")
    assert isinstance(claim, Claim)
    assert (claim.id, claim.mark) == ("claim-2036-1", "B-1.02")
    assert claim.at == datetime.fromisoformat("2036-02-11T10:30+01:00")
    assert sheet.raw == (EXAMPLES / "claim-2036-1.yaml").read_bytes()  # type: ignore[union-attr]


def test_the_example_repair_refers_to_its_claim_and_tells_products_and_readings() -> None:
    repair, _ = load_afterwards(EXAMPLES / "repair-2036-1.yaml")
    assert isinstance(repair, Repair)
    assert repair.refers_to == ("claim-2036-1",)
    assert [product.batch for product in repair.products] == ["2207", "T-519"]
    assert repair.readings is not None
    assert repair.readings.frame is not None


def test_a_claim_needs_no_more_than_who_when_where_and_what(tmp_path: Path) -> None:
    claim = loaded(tmp_path, CLAIM)
    assert (claim.products, claim.photos, claim.refers_to, claim.versions) == ((), (), (), ())
    assert claim.cause is None


def test_a_record_cannot_be_changed_once_it_is_read(tmp_path: Path) -> None:
    claim = loaded(tmp_path, CLAIM)
    with pytest.raises(ValidationError):
        claim.mark = "W 2"  # type: ignore[misc]


def test_a_kind_that_is_neither_is_refused_at_its_place(tmp_path: Path) -> None:
    said = refused(tmp_path, CLAIM.replace("kind: claim", "kind: complaint"))
    assert said == ["1:1: “kind” cannot be complaint; it is one of: 'claim' or 'repair'."]


@pytest.mark.parametrize("left_out", ["kind", "id", "site", "mark", "at", "by", "found"])
def test_each_key_that_must_be_there_is_asked_for(tmp_path: Path, left_out: str) -> None:
    rows = [row for row in CLAIM.splitlines() if not row.startswith(f"{left_out}:")]
    (said,) = refused(tmp_path, "\n".join(rows) + "\n")
    assert f"“{left_out}”" in said


def test_a_repair_says_what_was_done_not_what_was_found(tmp_path: Path) -> None:
    said = refused(tmp_path, CLAIM.replace("kind: claim", "kind: repair"))
    assert any("“done”" in one for one in said)
    assert any("found" in one and one.startswith("7:1:") for one in said)


def test_a_misspelled_key_is_named_with_the_nearest_one(tmp_path: Path) -> None:
    (said,) = refused(tmp_path, f"{CLAIM}couse: rain\n")
    assert said.startswith("8:1:")
    assert "cause" in said


@pytest.mark.parametrize("name", ["a/b", "../up", "", ".hidden", "two words", "ends."])
def test_an_id_that_cannot_be_a_files_name_is_refused(tmp_path: Path, name: str) -> None:
    assert refused(tmp_path, CLAIM.replace("id: c-1", f'id: "{name}"'))


def test_a_time_without_its_zone_is_refused(tmp_path: Path) -> None:
    (said,) = refused(tmp_path, CLAIM.replace("+01:00", ""))
    assert said.startswith("5:1:")


@pytest.mark.parametrize("version", ["0", "-1", "one"])
def test_a_version_is_a_number_from_one(tmp_path: Path, version: str) -> None:
    assert refused(tmp_path, f"{CLAIM}versions: [{version}]\n")


def test_a_photograph_outside_its_folder_is_refused(tmp_path: Path) -> None:
    assert refused(tmp_path, f"{CLAIM}photos: [{{file: ../../secret.jpg}}]\n")


def test_a_file_that_is_no_mapping_or_not_there_is_a_problem_not_a_crash(tmp_path: Path) -> None:
    assert refused(tmp_path, "- claim\n")
    assert not isinstance(load_afterwards(tmp_path / "nowhere.yaml")[0], Claim | Repair)
