from pathlib import Path

from tests.cli.terminal import run


def test_what_is_no_bag_is_refused_and_nothing_is_filed(tmp_path: Path) -> None:
    (tmp_path / "s.zip").write_bytes(b"no zip")
    told = run("receive", str(tmp_path / "s.zip"), "--archive", str(tmp_path / "archive"), "--by", "ada")
    assert told.status == 2
    assert told.err.startswith(f"{tmp_path / 's.zip'} cannot be unpacked whole")
    assert not (tmp_path / "archive").exists()
