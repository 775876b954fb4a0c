"""An archive and a bag of an earlier version: proved, searched, told, received."""

import json
from pathlib import Path
from typing import Any

import pytest
from tests.cli.terminal import run
from tests.filed_before.kept import KEPT, copied

HEADS = (
    "6fbf1b7a1eb749e82a9023ff841340adb2943b29c1fc6160defb76902d36ac26",
    "602de2b45a8479741a934a691f1e45fb6edaf3d44b95a2564eaacc287b38d515",
    "a3ad90b3eeddcd8bb5924e09f9037b2c2fe1f30a3fa3f481a1d2302f8f8c8be7",
    "69876e28b0554a9fb5c668f8d947a968cecf3cacf081475fa7f9d36c58edeba4",
    "24bd848de23e493212f0fb3e96ca783d8fad46338c37e9e479e542a37aa5c821",
)
"""The closing numbers of the five versions, as they were printed on the day."""


@pytest.fixture(scope="module")
def archive(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return copied("archive", tmp_path_factory.mktemp("filed-before"))


@pytest.fixture(autouse=True)
def _own_cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))


def asked(*arguments: str | Path) -> dict[str, Any]:
    """Run a command that answers with JSON."""
    told = run(*arguments, "--format", "json")
    assert (told.status, told.err) == (0, "")
    answer: dict[str, Any] = json.loads(told.out)
    return answer


def test_it_is_proved_to_the_closing_numbers_of_then(archive: Path) -> None:
    proof = asked("prove", "--archive", archive, "--jobs", "1")
    (site,) = proof["sites"]
    assert proof["sound"]
    assert tuple(site["heads"]) == HEADS
    assert (site["packs"], site["packs_with_signatures"]) == (2, 1)


def test_openings_are_found_by_batch_person_and_claim(archive: Path) -> None:
    def marks(*words: str) -> list[str]:
        index = archive.parent / "index.sqlite"
        return [one["mark"] for one in asked("find", "--archive", archive, "--index", index, *words)["found"]]

    assert marks("--batch", "0419") == ["B-0.03", "B-1.02"]
    assert marks("--person", "Pell Oakhangerby", "--outcome", "conforms") == ["A-0.02"]
    assert marks("driving", "rain") == ["B-1.02"]
    assert marks("--rule", "corners-sealed", "--outcome", "does not conform") == ["B-1.02"]


def test_the_story_of_an_opening_tells_its_bonding_its_claims_and_its_repair(archive: Path) -> None:
    story = json.dumps(asked("story", "larch-court/B-1.02", "--archive", archive), ensure_ascii=False)
    for told in (
        "batch 0419",
        "2026-11-20 11:39",
        "1.5 mm",
        "driving rain",
        "lower right corner",
        "Jost Falz",
    ):
        assert told in story, told


def test_its_history_lists_every_version(archive: Path) -> None:
    told = run("history", "larch-court", "--archive", archive)
    assert told.status == 0
    for version in range(1, 6):
        assert f"version   {version}" in told.out or f"version {version}" in told.out


def test_a_bag_is_received_into_a_new_archive(tmp_path: Path) -> None:
    told = run("receive", KEPT / "larch-court.zip", "--archive", tmp_path / "office", "--by", "Cleo Lot")
    assert (told.status, told.err) == (0, "")
    assert asked("prove", "--archive", tmp_path / "office", "--jobs", "1")["sound"]


def test_what_it_holds_already_is_not_received_again(archive: Path) -> None:
    told = run("receive", KEPT / "larch-court.zip", "--archive", archive, "--by", "Cleo Lot")
    assert (told.status, told.err) == (0, "")
    assert tuple(asked("prove", "--archive", archive, "--jobs", "1")["sites"][0]["heads"]) == HEADS


def test_a_claim_of_then_joins_what_is_filed(archive: Path, tmp_path: Path) -> None:
    office = tmp_path / "office"
    assert run("receive", KEPT / "larch-court.zip", "--archive", office, "--by", "Cleo Lot").status == 0
    text = (KEPT / "afterwards/claim-2036-2.yaml").read_text(encoding="utf-8")
    claim = tmp_path / "claim-2036-3.yaml"
    claim.write_text(text.replace("id: claim-2036-2", "id: claim-2036-3"), encoding="utf-8")
    told = run("join", claim, "--archive", office, "--by", "Jost Falz")
    assert (told.status, told.err) == (0, "")
