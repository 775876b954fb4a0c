"""`prove`: what it says, how it goes on, and how it exits."""

import json
import shutil
from pathlib import Path

import pytest
from tests.archive.archives import FIRST, add
from tests.cli.terminal import run

from revealbook import __version__
from revealbook.archive.store import Archive

FILES = {path: content for path, content in FIRST.items() if not path.startswith("packs/")}


@pytest.fixture
def archive(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Archive:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    archive = Archive.create(tmp_path / "archive")
    add(archive, FILES)
    return archive


def flat(text: str) -> str:
    return " ".join(text.split())


def damaged(archive: Archive) -> Path:
    file = archive.content("s", 1, "openings/W 1.yaml")
    file.write_bytes(b"mark: W 2\n")
    return file


def test_a_sound_archive_is_told_with_its_heads(archive: Archive) -> None:
    told = run("prove", "--archive", archive.path, "--jobs", "1")
    head = archive.versions("s")[0].head
    assert (told.status, told.err) == (0, "")
    assert told.out == (
        f"s: 1 version, 2 files, 0 packs judged again\n  head {head}\nEverything is as it was filed.\n"
    )
    assert run("prove", "s", "--archive", archive.path, "--head", f"s={head}").status == 0


def test_a_damaged_file_is_named_with_what_it_holds_and_where_else_it_lies(
    archive: Archive, tmp_path: Path
) -> None:
    shutil.copytree(archive.path, tmp_path / "backup")
    damaged(archive)
    told = run("prove", "--archive", archive.path)
    assert told.status == 1
    named = "s/v1/content/openings/W 1.yaml (record of opening W 1, version 1) was changed"
    assert named in flat(told.out)
    assert "Name other copies with --copy DIR" in told.out
    assert told.out.endswith("Not as it was filed: 1 fault.\n")
    assert max(map(len, told.out.splitlines())) <= 80
    again = run("prove", "--archive", archive.path, "--copy", tmp_path / "backup")
    assert "the same content lies at" in again.out
    assert "backup/store/s/v1/content/openings/W 1.yaml" in again.out
    assert "Name other copies" not in again.out


def test_the_proof_for_machines_says_the_same(archive: Archive) -> None:
    damaged(archive)
    told = run("prove", "--archive", archive.path, "--format", "json")
    plain = json.loads(told.out)
    assert (told.status, plain["sound"], plain["format"]) == (1, False, "revealbook-proof-1")
    (site,) = plain["sites"]
    assert site["heads"] == [archive.versions("s")[0].head]
    assert [(fault["what"], fault["copy"]) for fault in site["faults"]] == [("was changed", None)]


def test_a_head_from_paper_that_is_not_in_the_history_is_told(archive: Archive) -> None:
    told = run("prove", "--archive", archive.path, "--head", f"s={'0' * 64}")
    assert told.status == 1
    assert "was rewritten or taken back since that head was noted" in flat(told.out)


@pytest.mark.parametrize(
    ("more", "said"),
    [
        (("u",), "holds no site 'u'"),
        (("--head", "abc"), "does not say whose head it is"),
        (("--head", "s=abc"), "is no head"),
    ],
)
def test_what_cannot_be_proved_is_refused(archive: Archive, more: tuple[str, ...], said: str) -> None:
    told = run("prove", *more, "--archive", archive.path)
    assert told.status == 2
    assert said in told.err


def test_what_is_no_archive_is_refused(tmp_path: Path) -> None:
    told = run("prove", "--archive", tmp_path / "none")
    assert (told.status, "There is no archive at" in told.err) == (2, True)


def test_a_broken_off_proof_is_gone_on_with_unless_it_is_to_begin_afresh(
    archive: Archive, tmp_path: Path
) -> None:
    state, file = tmp_path / "state.jsonl", archive.content("s", 1, "site.yaml")
    digest = archive.versions("s")[0].state["site.yaml"]
    line = {"file": str(file), "sha512": digest, "pack": False, "signed": False,
            "at": "2026-01-05T08:00:00+00:00", "with": __version__}  # fmt: skip
    state.write_text(json.dumps(line) + "\n")
    file.write_bytes(b"changed since")
    told = run("prove", "--archive", archive.path, "--state", state)
    assert "Going on with the proof begun 2026-01-05 08:00+00:00: 1 file proved." in told.err
    assert told.status == 0  # it was sound when it was proved; the next proof sees the change
    assert not state.exists()
    state.write_text(json.dumps(line) + "\n")
    assert run("prove", "--archive", archive.path, "--state", state, "--afresh").status == 1


def test_a_statement_is_written_and_its_heads_are_held_against_the_archive_later(
    archive: Archive, tmp_path: Path
) -> None:
    add(archive, FILES, "t")
    statement = tmp_path / "new" / "heads.pdf"
    told = run("prove", "--archive", archive.path, "--statement", statement)
    assert (told.status, told.out.splitlines()[-1]) == (0, f"{statement}: 2 pages")
    add(archive, {**FILES, "photos/a.jpg": b"a"})
    later = run("prove", "--archive", archive.path, "--heads-from", statement)
    assert later.status == 0
    assert later.out.count("  version 1 still has the head that was noted\n") == 2
    shutil.rmtree(archive.path / "store" / "t")
    gone = run("prove", "--archive", archive.path, "--heads-from", statement)
    assert gone.status == 1
    assert "■ t is not in the archive, though a head of it was noted" in gone.out
    named = run("prove", "s", "--archive", archive.path, "--heads-from", statement)
    assert (named.status, "t is not" in named.out) == (0, False)


def test_a_rewritten_history_is_told_by_an_earlier_statement(archive: Archive, tmp_path: Path) -> None:
    statement = tmp_path / "heads.pdf"
    assert run("prove", "--archive", archive.path, "--statement", statement).status == 0
    shutil.rmtree(archive.path / "store" / "s")
    add(archive, {**FILES, "site.yaml": b"id: s # another\n"})
    assert run("prove", "--archive", archive.path).status == 0
    told = run("prove", "--archive", archive.path, "--heads-from", statement)
    assert told.status == 1
    assert "was rewritten or taken back since that head was noted" in flat(told.out)


def test_a_statement_of_an_unsound_archive_is_made_and_leaves_the_output_to_machines(
    archive: Archive, tmp_path: Path
) -> None:
    damaged(archive)
    statement = tmp_path / "heads.pdf"
    more = ("--statement", statement, "--language", "de", "--format", "json")
    told = run("prove", "--archive", archive.path, *more)
    assert (told.status, json.loads(told.out)["sound"]) == (1, False)
    assert told.err == f"{statement}: 2 pages\n"


@pytest.mark.parametrize(
    ("more", "said"),
    [
        (("--statement", "there.pdf"), "there.pdf is there already, and is not overwritten."),
        (("--heads-from", "there.pdf"), "there.pdf cannot be opened as a PDF"),
        (("u", "--heads-from", "heads.pdf"), "heads.pdf notes no head of u."),
    ],
)
def test_a_statement_that_cannot_be_used_or_written_is_refused(
    archive: Archive, tmp_path: Path, more: tuple[str, ...], said: str
) -> None:
    (tmp_path / "there.pdf").write_text("here before")
    if "heads.pdf" in more:
        assert run("prove", "--archive", archive.path, "--statement", "heads.pdf", cwd=tmp_path).status == 0
    told = run("prove", *more, "--archive", archive.path, cwd=tmp_path)
    assert (told.status, told.out) == (2, "")
    assert said in told.err
    assert (tmp_path / "there.pdf").read_text() == "here before"
