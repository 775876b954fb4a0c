"""A filer killed at any moment: whoever looks next finds the version before or the whole new one."""

import os
import random
import time
from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from functools import partial
from itertools import count
from pathlib import Path

import pytest
from tests.archive.archives import (
    FIRST,
    SECOND,
    WHEN,
    add,
    content_of,
    outside_says_valid,
    outside_says_valid_object,
)
from tests.archive.kills import killed, start, versions_on_disk

from revealbook.archive import exchange
from revealbook.archive.store import Archive

FULL = bool(os.environ.get("REVEALBOOK_FULL"))
KILLS = 200 if FULL else 30
PER_SITE = 10
"""Kills before the next site: histories stay short, so that looking at them stays quick."""


def adding(archive: Archive, site: str, files: Mapping[str, bytes]) -> Callable[[], object]:
    """Give what adds a version."""
    return partial(archive.add, site, files, user="ada", message="filed", created=WHEN)


def being_built(archive: Archive, site: str) -> bool:
    """Whether a filer is, or was when it was killed, at work on a site."""
    return any((archive.path / "work" / "staging" / site).glob("*"))


# --- before every step -----------------------------------------------------------------------------------


def killed_before_each_step(archive: Archive, first: int = 1) -> Iterator[str]:
    """File a second version into site after site, killed one step later each time, until none is."""
    for step in count(first):
        site = f"s{step}"
        add(replace(archive, swap=exchange.swap), FIRST, site)
        went_on = not killed(adding(archive, site, SECOND), step)
        yield site
        if went_on:
            print(f"killed before {step - 1} steps")
            return


def holds_one_or_two(archive: Archive, site: str) -> int:
    """Hold a site against what it must be after a kill; give its number of versions."""
    number = versions_on_disk(archive, site)
    assert number in {1, 2}, site
    assert outside_says_valid_object(archive.path, site), site
    assert content_of(archive, site, number) == (FIRST, SECOND)[number - 1]
    return number


@pytest.mark.slow
def test_killed_before_any_step_the_store_is_valid_as_it_lies_there(tmp_path: Path) -> None:
    archive = Archive.create(tmp_path / "archive")
    numbers = [holds_one_or_two(archive, site) for site in killed_before_each_step(archive)]
    assert numbers == sorted(numbers)  # once it is there, it stays there
    assert set(numbers) == {1, 2}
    assert outside_says_valid(archive.path)


@pytest.mark.slow
def test_where_folders_cannot_be_exchanged_opening_the_archive_repairs_what_a_kill_left(
    tmp_path: Path,
) -> None:
    archive = replace(Archive.create(tmp_path / "archive"), swap=exchange.never)
    gone, numbers = 0, set()
    for site in killed_before_each_step(archive, 1 if FULL else 40):  # until then nothing is different
        gone += not versions_on_disk(archive, site)
        numbers.add(holds_one_or_two(Archive.open(archive.path), site))
        assert not being_built(archive, site)
    assert gone > 0  # between the two renames
    assert numbers == {1, 2}


# --- at moments that nobody chose ------------------------------------------------------------------------


def version(number: int) -> dict[str, bytes]:
    """Give content of which most is new in every version and some is not."""
    new = {f"openings/W-{one}.yaml": b"%d %d" % (number, one) * 2000 for one in range(25)}
    old = {f"rules/{one}.yaml": b"%d" % one * 2000 for one in range(10)}
    return {"site.yaml": b"id: s\n", "packs/s.pdf": b"%d" % number * 200_000, **new, **old}


@pytest.mark.slow
def test_killed_at_any_moment_a_site_holds_the_version_before_or_the_new_one(tmp_path: Path) -> None:
    archive, chance = Archive.create(tmp_path / "archive"), random.Random(20261125)
    longest_s, at_work, added = 0.1, 0, 0
    for number in range(KILLS):
        site = f"s{number // PER_SITE}"
        before = versions_on_disk(archive, site)
        child = start(adding(archive, site, version(number)))
        time.sleep(chance.uniform(0, longest_s))
        child.kill()
        child.join()
        child.close()
        now = versions_on_disk(archive, site)
        assert now in {before, before + 1}
        assert now == 0 or outside_says_valid_object(archive.path, site)
        assert now == before or content_of(archive, site, now) == version(number)
        at_work += being_built(archive, site)
        added += now - before
        longest_s *= 0.8 if now > before else 1.1  # so that most kills come neither too early nor too late
    print(f"{KILLS} kills: {at_work} at work, {added} versions added")
    assert at_work > KILLS / 10
    assert added > 0
    add(archive, version(KILLS), "last")
    assert list((archive.path / "work" / "staging").iterdir()) == []
    assert outside_says_valid(archive.path)
