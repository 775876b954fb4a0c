"""Lost content is found again by its digest, wherever it lies."""

from hashlib import sha512
from pathlib import Path

from revealbook.archive.copies import find_copies

LOST = sha512(b"lost").hexdigest()


def test_a_copy_is_found_under_another_name_in_a_folder_below(tmp_path: Path) -> None:
    (tmp_path / "bag" / "data").mkdir(parents=True)
    (tmp_path / "bag" / "data" / "any.bin").write_bytes(b"lost")
    (tmp_path / "bag" / "other").write_bytes(b"other")
    assert find_copies({LOST, ""}, [tmp_path]) == {LOST: tmp_path / "bag" / "data" / "any.bin"}


def test_the_first_folder_that_has_it_counts(tmp_path: Path) -> None:
    for name in ("b", "a"):
        (tmp_path / name).mkdir()
        (tmp_path / name / "x").write_bytes(b"lost")
    assert find_copies([LOST], [tmp_path / "b", tmp_path / "a"]) == {LOST: tmp_path / "b" / "x"}


def test_what_no_file_has_is_not_found(tmp_path: Path) -> None:
    (tmp_path / "x").write_bytes(b"damaged too")
    assert find_copies([LOST], [tmp_path]) == {}
