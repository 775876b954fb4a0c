"""`revealbook signatures`: who signed a pack, and whether it still holds."""

from collections.abc import Iterator
from datetime import UTC
from pathlib import Path
from textwrap import wrap
from typing import TYPE_CHECKING

import typer

from revealbook.cli.exit_codes import DOES_NOT_CONFORM, UNUSABLE, WELL
from revealbook.cli.sign import needs_extra
from revealbook.cli.terminal import plain

if TYPE_CHECKING:
    from revealbook.archive.signatures import Checked, Signature

_WIDTH = 78
_HOLDS, _BROKEN = "●", "■"


def run(pack: Path, roots: Path | None) -> int:
    """Check the signatures; give 0 if all hold, 1 if one does not or there is none."""
    try:
        return _run(pack, roots)
    except ModuleNotFoundError as missing:
        return needs_extra(missing)


def _run(pack: Path, roots: Path | None) -> int:
    from revealbook.archive.keys import KeyUnusable, read_certificates
    from revealbook.archive.signatures import Unreadable, check_signatures

    try:
        checked = check_signatures(pack.read_bytes(), read_certificates(roots) if roots else ())
    except KeyUnusable as reason:
        typer.echo(str(reason), err=True)
        return UNUSABLE
    except Unreadable as reason:
        typer.echo(f"{pack} {plain(str(reason))}", err=True)
        return UNUSABLE
    for line in said(pack, checked):
        typer.echo(line)
    return WELL if checked.good else DOES_NOT_CONFORM


def said(pack: Path, checked: "Checked") -> Iterator[str]:
    """Say what checking the signatures of a file gave, line by line."""
    if not checked.signatures:
        yield f"{pack}: nobody has signed this file."
        return
    number = len(checked.signatures)
    yield f"{pack}: {number} signature{'' if number == 1 else 's'}"
    for one in checked.signatures:
        yield from _signature(one)
    yield from _shared_keys(checked)
    if checked.unsigned_bytes:
        yield f"{checked.unsigned_bytes} bytes stand behind what was signed last; nobody signed them."
    yield (
        "Every signature holds, to the last byte of the file."
        if checked.good
        else "This is not the file that was signed, or a key is not vouched for: do not rely on it."
    )


def _signature(one: "Signature") -> Iterator[str]:
    yield plain(f"{_HOLDS if one.bottom_line else _BROKEN} {one.role}: {one.holder or 'cannot be read'}")
    if not one.fingerprint:
        return
    when = one.claimed_at.astimezone(UTC).strftime("%Y-%m-%d %H:%M UTC") if one.claimed_at else "no time"
    stated = f'States: "{one.reason}", by {one.name}{", at " + one.location if one.location else ""}'
    for text in (
        f"{stated}; {when} by the signer's own clock.",
        f"Certificate SHA-256 {one.fingerprint}",
        _kept(one),
        *_since(one),
        _whose(one),
    ):
        yield from wrap(plain(text), _WIDTH, initial_indent="    ", subsequent_indent="    ")


def _kept(one: "Signature") -> str:
    """Say whether the signed bytes are as they were."""
    if not one.intact:
        return "NOT INTACT: bytes that were signed have been changed."
    if not one.valid:
        return "NOT VALID: the signature was not made by this certificate's key, or was changed."
    if not one.in_date:
        return "NOT VALID: the certificate was not in date at the time stated."
    if not one.whole_revision:
        return "NOT WHOLE: it covers only a part of the file."
    if one.covers_file:
        return "Intact; it covers the whole file."
    return "Intact; it covers the file as it was when this was signed."


def _since(one: "Signature") -> Iterator[str]:
    """Say what changed since, if it is of any meaning."""
    if one.covers_file or not one.intact:
        return
    if one.changes.other:
        yield f"CHANGED since: {', '.join(one.changes.other)}."
    if one.changes.signed_by:
        only = "" if one.changes.other else ", and nothing else was changed"
        yield f"Since then it was signed by {', '.join(one.changes.signed_by)}{only}."


def _whose(one: "Signature") -> str:
    """Say what is known of whose key it is, and no more than that."""
    return {
        "rooted": f"One of the given roots vouches for it, as of the time stated (issued by {one.issuer}).",
        "not rooted": f"NOT VOUCHED FOR by any of the given roots (issued by {one.issuer}).",
        "self-made": "A self-made key: the same fingerprint elsewhere means the same key as before; "
        "it proves no identity.",
        "issued": f"Issued by {one.issuer}, which was not checked: give --roots to check it.",
    }[one.trust]


def _shared_keys(checked: "Checked") -> Iterator[str]:
    """Say where one key signed in several roles."""
    by_key: dict[str, list[str]] = {}
    for one in checked.signatures:
        by_key.setdefault(one.fingerprint, []).append(one.role)
    for fingerprint, roles in by_key.items():
        if fingerprint and len(roles) > 1:
            yield plain(f"The same key signed as {' and as '.join(roles)}.")
