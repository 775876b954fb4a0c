"""Receiving killed at any moment: all that came is in the archive once, or nothing of it, and never twice."""

import os
from collections.abc import Iterator
from functools import partial
from itertools import count
from pathlib import Path

import pytest
from tests.archive.archives import WHEN, outside_says_valid
from tests.archive.kills import killed, unseen, versions_on_disk
from tests.archive.later_records import CLAIM, REPAIR, written
from tests.archive.plain_packs import whole_pack
from tests.site_folders import change, small_site

from revealbook.archive.bag import write_bag
from revealbook.archive.file import SAME, Filing, file_given, file_packs
from revealbook.archive.given import GivenPack, read_pack
from revealbook.archive.join import join
from revealbook.archive.later import read_later
from revealbook.archive.receive import Received, file_received, received
from revealbook.archive.store import Archive

SITE = "alder-yard"
EVERY = 1 if os.environ.get("REVEALBOOK_FULL") else 10
"""Kills come before each step, or before each tenth."""


@pytest.fixture(scope="module")
def older(tmp_path_factory: pytest.TempPathFactory) -> tuple[GivenPack, Path]:
    """A pack of the site as it was before, and its photographs."""
    site = small_site(tmp_path_factory.mktemp("older") / "site", {"A-1": ("A", "1"), "B-1": ("B", "1")})
    return read_pack(whole_pack(site)), site / "photos"


@pytest.fixture(scope="module")
def got(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Received]:
    """A pack, a claim with its photograph and a repair, as they were received."""
    path = tmp_path_factory.mktemp("sent")
    site = small_site(path / "site", {"A-1": ("A", "1"), "B-1": ("B", "1")})
    change(site / "openings" / "A-1.yaml", "overlap_left_mm: 82", "overlap_left_mm: 83")
    archive = Archive.create(path / "archive")
    file_packs(archive, [whole_pack(site)], Filing("ada", WHEN, photos=site / "photos"))
    (path / "sill.jpg").write_bytes(b"jpeg")
    for number, text in enumerate((CLAIM, REPAIR)):
        record = read_later(written(path, text, name=f"{number}.yaml"))
        join(archive, record, Filing("ada", WHEN, photos=path))
    write_bag(archive, SITE, None, path / "sent.zip")
    with received(path / "sent.zip") as bag:
        assert len(bag.later) == 2
        yield bag


def held(archive: Archive, number: int) -> dict[str, str]:
    """Give what a version holds, but for what tells of the filing."""
    state = archive.version(SITE, number).state
    return {path: digest for path, digest in state.items() if path not in SAME}


@pytest.mark.slow
@pytest.mark.parametrize("before", [0, 1])
def test_killed_before_any_step_all_is_there_or_nothing_and_receiving_again_leaves_it_there_once(
    tmp_path: Path, got: Received, older: tuple[GivenPack, Path], before: int
) -> None:
    sent = {path: digest for path, digest in got.bag.state.items() if path not in SAME}
    receive, came = partial(file_received, got=got, filing=Filing("cleo", WHEN, seen=unseen)), []
    for step in count(1, EVERY):
        archive = Archive.create(tmp_path / f"{step}")
        if before:
            file_given(archive, [older[0]], Filing("bob", WHEN, photos=older[1]))
        stopped = killed(partial(receive, archive), step)
        number = versions_on_disk(archive, SITE)
        assert number in {before, before + 1}, step
        assert outside_says_valid(archive.path), step
        assert number == before or held(archive, number) == sent, step
        came.append(number)
        again = receive(Archive.open(archive.path))
        assert (again.new, again.version.number) == (number == before, before + 1), step
        assert held(archive, before + 1) == sent, step
        assert outside_says_valid(archive.path), step
        if not stopped:
            break
    assert came == sorted(came)
    assert set(came) == {before, before + 1}
