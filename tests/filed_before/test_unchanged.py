"""What an earlier version wrote is kept as it was written."""

from hashlib import sha256

from tests.filed_before.kept import KEPT

DIGEST = "9d15505ed6cc48b666cf3342eb59f0aac46914b853f2bfc498a11b9fffe52278"


def test_nothing_that_was_kept_is_changed_added_or_taken_away() -> None:
    files = sorted(file for file in KEPT.rglob("*") if file.is_file())
    lines = (
        f"{sha256(file.read_bytes()).hexdigest()}  {file.relative_to(KEPT).as_posix()}\n" for file in files
    )
    assert sha256("".join(lines).encode()).hexdigest() == DIGEST
