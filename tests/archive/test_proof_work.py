"""One file of a proof: its digest, and what a pack says of itself."""

import sys
from pathlib import Path

import pytest
from tests.archive.packs import signed_by, signed_once
from tests.archive.people import ada
from tests.made import Made, changed, file_changed

from revealbook.archive.disk import digest_of
from revealbook.archive.proof_work import Result, Work, prove_one


def work(file: Path, *, pack: bool = False) -> Work:
    return Work(str(file), digest_of(file), pack)


def test_a_file_with_its_digest_is_sound(tmp_path: Path) -> None:
    (tmp_path / "a").write_bytes(b"a")
    assert prove_one(work(tmp_path / "a")) == Result()


def test_a_changed_file_is_told(tmp_path: Path) -> None:
    (tmp_path / "a").write_bytes(b"a")
    before = work(tmp_path / "a")
    (tmp_path / "a").write_bytes(b"b")
    assert prove_one(before) == Result("was changed")


def test_a_file_that_cannot_be_read_is_told(tmp_path: Path) -> None:
    result = prove_one(Work(str(tmp_path), "0" * 128, pack=False))
    assert (result.wrong, result.why) == ("cannot be read: {why}", "Is a directory")


def test_a_pack_that_agrees_with_itself_is_sound_and_unsigned(conforming_pack: Made) -> None:
    assert prove_one(work(conforming_pack.pdf, pack=True)) == Result()


def test_a_pack_that_was_wrong_when_it_was_filed_is_told(conforming_pack: Made, tmp_path: Path) -> None:
    other = file_changed("findings.json", b'"conforms"', b'"undecided"')
    pack = changed(conforming_pack.pdf, tmp_path / "p.pdf", other)
    assert "does not agree with itself" in prove_one(work(pack, pack=True)).wrong


@pytest.mark.parametrize(("content", "said"), [(b"no pdf", "opened"), (signed_once(), "judged")])
def test_what_is_no_pack_is_told(tmp_path: Path, content: bytes, said: str) -> None:
    (tmp_path / "p.pdf").write_bytes(content)
    assert f"cannot be {said}" in prove_one(work(tmp_path / "p.pdf", pack=True)).wrong


def test_a_signature_that_holds_is_counted(conforming_pack: Made, tmp_path: Path) -> None:
    (tmp_path / "p.pdf").write_bytes(signed_by(conforming_pack.pdf.read_bytes(), ada(), "installer"))
    assert prove_one(work(tmp_path / "p.pdf", pack=True)) == Result(signed=True)


def test_a_signature_that_does_not_hold_is_told(conforming_pack: Made, tmp_path: Path) -> None:
    data = signed_by(conforming_pack.pdf.read_bytes(), ada(), "installer")
    (tmp_path / "p.pdf").write_bytes(data + b"\n% more\n")
    assert "a signature in it does not hold" in prove_one(work(tmp_path / "p.pdf", pack=True)).wrong


def test_without_the_extra_signatures_are_left_unchecked(
    conforming_pack: Made, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "revealbook.archive.signatures", None)
    assert prove_one(work(conforming_pack.pdf, pack=True)) == Result(signed=None)
