"""A proof that was broken off is gone on with; a finished one leaves nothing."""

import json
from datetime import datetime
from pathlib import Path

import pytest

from revealbook.archive import proved as module
from revealbook.archive.proof_work import Result, Work
from revealbook.archive.proved import Proved

ONE, TWO = Work("/a/one", "1" * 128, pack=False), Work("/a/two.pdf", "2" * 128, pack=True)


def test_what_was_proved_is_known_again(tmp_path: Path) -> None:
    first = Proved.read(tmp_path / "sub" / "state.jsonl")
    first.remember(ONE, Result())
    first.remember(TWO, Result(signed=None))
    again = Proved.read(tmp_path / "sub" / "state.jsonl")
    assert (len(again), again.of(ONE), again.of(TWO)) == (2, Result(), Result(signed=None))
    assert first.since <= again.since <= datetime.now().astimezone()


def test_a_file_with_another_digest_is_to_be_proved_anew(tmp_path: Path) -> None:
    Proved.read(tmp_path / "s").remember(ONE, Result())
    assert Proved.read(tmp_path / "s").of(ONE._replace(sha512="3" * 128)) is None


def test_a_line_cut_off_in_the_middle_is_left_out(tmp_path: Path) -> None:
    proved = Proved.read(tmp_path / "s")
    proved.remember(ONE, Result())
    proved.remember(TWO, Result())
    text = (tmp_path / "s").read_text()
    (tmp_path / "s").write_text(text[:-20])
    again = Proved.read(tmp_path / "s")
    assert (again.of(ONE), again.of(TWO)) == (Result(), None)


def test_the_earliest_check_tells_since_when(tmp_path: Path) -> None:
    Proved.read(tmp_path / "s").remember(ONE, Result())
    told = json.loads((tmp_path / "s").read_text()) | {"at": "2026-01-02T03:04:05+00:00"}
    (tmp_path / "s").write_text(json.dumps(told))
    assert Proved.read(tmp_path / "s").since == datetime.fromisoformat("2026-01-02T03:04:05+00:00")


def test_another_version_of_this_program_proves_everything_itself(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    Proved.read(tmp_path / "s").remember(ONE, Result())
    monkeypatch.setattr(module, "__version__", "9.9")
    assert Proved.read(tmp_path / "s").of(ONE) is None


def test_a_finished_proof_leaves_nothing(tmp_path: Path) -> None:
    proved = Proved.read(tmp_path / "s")
    proved.remember(ONE, Result())
    proved.finish()
    assert not (tmp_path / "s").exists()
    proved.finish()  # and finishing twice does no harm
    Proved().finish()


def test_without_a_file_it_is_remembered_for_this_proof_only() -> None:
    proved = Proved()
    proved.remember(ONE, Result())
    assert proved.of(ONE) == Result()
