"""`sign` and `signatures`: what they say, what they refuse, and how they exit."""

import sys
from io import StringIO
from pathlib import Path

import pytest
from tests.archive.packs import appended, signed_by, signed_once, signed_twice, small_pack
from tests.archive.people import PASSPHRASE, ada, cleo
from tests.archive.test_changes import new_page_content
from tests.cli.terminal import Run, run

from revealbook.cli.sign import NEEDS


def signing(folder: Path, *more: str | Path, data: bytes | None = None) -> Run:
    (folder / "pack.pdf").write_bytes(data or small_pack())
    key = ada().p12(folder)
    return run(
        "sign", folder / "pack.pdf", "--role", "installer", "--key", key, "--to", folder / "to.pdf", *more
    )


def checking(folder: Path, data: bytes, *more: str | Path) -> Run:
    (folder / "signed.pdf").write_bytes(data)
    told = run("signatures", folder / "signed.pdf", *more)
    flat = " ".join(told.out.split())
    return Run(told.status, flat, told.err)


def test_the_passphrase_comes_from_a_file(tmp_path: Path) -> None:
    (tmp_path / "passphrase").write_bytes(PASSPHRASE + b"\r\nsecond line\n")
    told = signing(tmp_path, "--passphrase-file", tmp_path / "passphrase")
    assert (told.status, told.err) == (0, "")
    assert "signed as installer with the key of Ada Laibung" in told.out
    assert ada().signing_key.fingerprint in told.out
    assert checking(tmp_path, (tmp_path / "to.pdf").read_bytes()).status == 0


def test_the_passphrase_comes_from_the_environment(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("REVEALBOOK_PASSPHRASE", PASSPHRASE.decode())
    assert signing(tmp_path).status == 0


def test_without_a_terminal_nothing_is_asked_and_the_ways_are_named(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys, "stdin", StringIO())
    told = signing(tmp_path)
    assert told.status == 2
    assert "is protected by a passphrase" in told.err
    assert "--passphrase-file or REVEALBOOK_PASSPHRASE" in told.err
    assert not (tmp_path / "to.pdf").exists()


def test_a_wrong_passphrase_is_said_and_not_repeated(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("REVEALBOOK_PASSPHRASE", "guess")
    told = signing(tmp_path)
    assert told.status == 2
    assert "the passphrase is wrong" in told.err
    assert "guess" not in told.out + told.err


def test_no_option_takes_a_passphrase(tmp_path: Path) -> None:
    told = signing(tmp_path, "--passphrase", "x")
    assert told.status == 2
    assert "No such option" in told.err


def test_what_is_refused_is_said_with_exit_status_2(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("REVEALBOOK_PASSPHRASE", PASSPHRASE.decode())
    told = signing(tmp_path, data=signed_once())
    assert (told.status, told.err) == (2, "The installer has signed already.\n")


def test_both_signatures_are_told_with_what_is_known_and_no_more(tmp_path: Path) -> None:
    told = checking(tmp_path, signed_twice())
    assert told.status == 0
    for said in (
        "2 signatures",
        "● installer: Ada Laibung",
        "● clerk of works: Cleo Reveal",
        f"Certificate SHA-256 {ada().signing_key.fingerprint}",
        "Since then it was signed by clerk of works, and nothing else was changed.",
        "Intact; it covers the whole file.",
        "by the signer's own clock",
        "it proves no identity",
        "Every signature holds, to the last byte of the file.",
    ):
        assert said in told.out, said


def test_given_roots_are_asked(tmp_path: Path) -> None:
    (tmp_path / "roots.pem").write_bytes(ada().pem)
    told = checking(tmp_path, signed_twice(), "--roots", tmp_path / "roots.pem")
    assert told.status == 1
    assert "One of the given roots vouches for it" in told.out
    assert "■ clerk of works: Cleo Reveal" in told.out
    assert "NOT VOUCHED FOR" in told.out
    (tmp_path / "roots.pem").write_bytes(ada().pem + cleo().pem)
    assert checking(tmp_path, signed_twice(), "--roots", tmp_path / "roots.pem").status == 0


def test_a_file_without_roots_is_no_check(tmp_path: Path) -> None:
    (tmp_path / "roots.pem").write_bytes(b"none")
    told = checking(tmp_path, signed_twice(), "--roots", tmp_path / "roots.pem")
    assert (told.status, told.out) == (2, "")
    assert "holds no certificate" in told.err


def test_a_changed_byte_is_told(tmp_path: Path) -> None:
    data = bytearray(signed_once())
    data[len(data) // 2] ^= 1
    told = checking(tmp_path, bytes(data))
    assert told.status == 1
    assert "■ installer: Ada Laibung" in told.out
    assert "NOT INTACT" in told.out
    assert "do not rely on it" in told.out


def test_what_was_appended_without_a_key_is_named(tmp_path: Path) -> None:
    told = checking(tmp_path, appended(signed_once(), new_page_content))
    assert told.status == 1
    assert "CHANGED since: page 1" in told.out
    assert "bytes stand behind what was signed last" in told.out


def test_one_key_in_two_roles_is_told(tmp_path: Path) -> None:
    told = checking(tmp_path, signed_by(signed_once(), ada(), "clerk of works"))
    assert "The same key signed as installer and as clerk of works." in told.out


def test_a_pack_that_nobody_signed_exits_1_and_what_is_no_pdf_2(tmp_path: Path) -> None:
    told = checking(tmp_path, small_pack())
    assert told.status == 1
    assert "nobody has signed this file" in told.out
    told = checking(tmp_path, b"no pdf")
    assert (told.status, told.out) == (2, "")
    assert "cannot be read as a PDF" in told.err


@pytest.mark.parametrize("command", ["sign", "signatures"])
def test_without_the_libraries_the_extra_is_named(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, command: str
) -> None:
    for name in [name for name in sys.modules if name.startswith(("pyhanko", "revealbook.archive."))]:
        monkeypatch.delitem(sys.modules, name)
    monkeypatch.setitem(sys.modules, "pyhanko", None)
    told = signing(tmp_path) if command == "sign" else checking(tmp_path, small_pack())
    assert told.status == 2
    assert told.err == f"{NEEDS}\n"
