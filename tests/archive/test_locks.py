"""One filer at a time; a lock dies with its holder."""

import json
import multiprocessing
import os
import threading
import time
from pathlib import Path

import pytest

from revealbook.archive.locks import held
from revealbook.archive.refusal import Busy


def test_a_lock_is_free_again_afterwards_also_after_an_error(tmp_path: Path) -> None:
    for _ in range(2):
        with pytest.raises(ZeroDivisionError), held(tmp_path / "locks", "s", 0):
            raise ZeroDivisionError


def test_who_holds_it_is_told_with_user_host_process_and_time(tmp_path: Path) -> None:
    with held(tmp_path, "s", 0):
        told = json.loads((tmp_path / "s.holder").read_bytes())
        with pytest.raises(Busy) as busy, held(tmp_path, "s", 0):
            pass
    assert str(busy.value) == (
        f"s is being filed just now by {told['user']} on {told['host']}, process {os.getpid()},"
        f" since {told['since']}; try again when that is done."
    )
    assert not (tmp_path / "s.holder").exists()


@pytest.mark.parametrize("content", [None, b"", b"[]", b'{"user": "ada"}'])
def test_if_nobody_knows_who_holds_it_it_is_somebody_else(tmp_path: Path, content: bytes | None) -> None:
    with held(tmp_path, "s", 0):
        (tmp_path / "s.holder").unlink()
        if content is not None:
            (tmp_path / "s.holder").write_bytes(content)
        with pytest.raises(Busy, match="by somebody else; try again"), held(tmp_path, "s", 0):
            pass


def test_another_name_is_another_lock(tmp_path: Path) -> None:
    with held(tmp_path, "s", 0), held(tmp_path, "t", 0):
        pass


def test_who_waits_is_told_once_and_then_served(tmp_path: Path) -> None:
    said: list[str] = []
    holding, enough = threading.Event(), threading.Event()

    def hold() -> None:
        with held(tmp_path, "s", 0):
            holding.set()
            enough.wait(20)

    def told(sentence: str) -> None:
        said.append(sentence)
        enough.set()

    other = threading.Thread(target=hold)
    other.start()
    holding.wait(20)
    with held(tmp_path, "s", 20, told):
        pass
    other.join()
    assert len(said) == 1
    assert said[0].startswith("s is being filed just now by ")
    assert said[0].endswith("; waiting ...")


def _hold_for_ever(folder: Path, ready: str) -> None:
    with held(folder, "s", 0):
        Path(ready).write_text("")
        time.sleep(60)


def test_a_lock_of_a_killed_process_is_free(tmp_path: Path) -> None:
    child = multiprocessing.get_context("fork").Process(
        target=_hold_for_ever, args=(tmp_path, str(tmp_path / "ready"))
    )
    child.start()
    while not (tmp_path / "ready").exists():
        time.sleep(0.005)
    with pytest.raises(Busy, match=f"process {child.pid},"), held(tmp_path, "s", 0):
        pass
    child.kill()
    child.join()
    with held(tmp_path, "s", 0):
        assert json.loads((tmp_path / "s.holder").read_bytes())["pid"] == os.getpid()
