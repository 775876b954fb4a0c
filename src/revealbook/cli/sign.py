"""`revealbook sign`: a pack signed with a person's key."""

import os
import sys
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import typer

from revealbook.cli.exit_codes import UNUSABLE, WELL

if TYPE_CHECKING:
    from revealbook.archive.keys import SigningKey

PASSPHRASE = "REVEALBOOK_PASSPHRASE"  # noqa: S105 - the name of a variable
"""The variable of the environment that may hold the key's passphrase."""
NEEDS = "Signatures need two more libraries: pip install 'revealbook[sign]'"
EXTRA = {"pyhanko", "pyhanko_certvalidator", "pikepdf", "asn1crypto", "cryptography"}
"""Modules that come with the extra `sign`."""


@dataclass(frozen=True, slots=True)
class Asked:
    """What was asked for on the command line; the passphrase is never among it.

    Attributes:
        key: PKCS#12 file, or PEM key.
        certificate: certificate to a PEM key that stands in a file of its own.
        passphrase_file: file whose first line is the passphrase.
        role: in which role.
        name: name to state.
        reason: reason to state.
        location: location to state.
    """

    key: Path
    certificate: Path | None
    passphrase_file: Path | None
    role: str
    name: str | None
    reason: str | None
    location: str | None


def run(pack: Path, to: Path, asked: Asked) -> int:
    """Sign a pack into a new file; give 0 if it was signed."""
    try:
        return _run(pack, to, asked)
    except ModuleNotFoundError as missing:
        return needs_extra(missing)


def needs_extra(missing: ModuleNotFoundError) -> int:
    """Say which extra brings a library that is not installed."""
    if (missing.name or "").partition(".")[0] not in EXTRA:
        raise missing
    typer.echo(NEEDS, err=True)
    return UNUSABLE


def _run(pack: Path, to: Path, asked: Asked) -> int:
    from revealbook.archive.keys import KeyUnusable
    from revealbook.archive.signing import CannotSign, Statement, sign

    statement = Statement(asked.role, asked.name, asked.reason, asked.location)
    try:
        key = _key(asked)
        sign(pack, to, key, statement)
    except (KeyUnusable, CannotSign) as reason:
        typer.echo(str(reason), err=True)
        return UNUSABLE
    typer.echo(f"{to}: signed as {asked.role} with the key of {key.holder}")
    typer.echo(f"certificate SHA-256 {key.fingerprint}")
    return WELL


def _key(asked: Asked) -> "SigningKey":
    """Read the key; a passphrase comes from a file, the environment or the keyboard."""
    from revealbook.archive.keys import KeyUnusable, PassphraseNeeded, read_key

    given = os.environ.get(PASSPHRASE)
    if asked.passphrase_file is not None:
        given = asked.passphrase_file.read_text(encoding="utf-8").partition("\n")[0].rstrip("\r")
    try:
        return read_key(asked.key, asked.certificate, None if given is None else given.encode())
    except PassphraseNeeded as needed:
        if not sys.stdin.isatty():
            ways = f"Give it by --passphrase-file or {PASSPHRASE}."
            raise KeyUnusable(f"{needed} {ways}") from needed
    typed = typer.prompt(f"Passphrase of {asked.key}", hide_input=True, err=True)
    return read_key(asked.key, asked.certificate, str(typed).encode())
