"""Checking signatures: what holds, what does not, and what is known of whose key it is."""

import hashlib
import re
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from cryptography import x509
from cryptography.hazmat.primitives.serialization import Encoding
from tests.archive.packs import appended, signed_by, signed_once, signed_over, signed_twice, small_pack
from tests.archive.people import ada, cleo, somebody
from tests.archive.test_changes import another_record, new_page_content

from revealbook.archive import signing
from revealbook.archive.changes import Changes
from revealbook.archive.signatures import Checked, Signature, Trust, Unreadable, check_signatures


def by_role(data: bytes, *roots: x509.Certificate) -> dict[str, Signature]:
    checked = check_signatures(data, roots)
    return {one.role: one for one in checked.signatures}


def hole(data: bytes) -> tuple[int, int]:
    """Where the digits of the last signature stand."""
    *_, last = re.finditer(rb"/ByteRange \[ ?0 (\d+) (\d+) (\d+) ?\]", data)
    return int(last[1]), int(last[2])


def with_byte(data: bytes, at: int, value: int) -> bytes:
    return data[:at] + bytes([value]) + data[at + 1 :]


def test_both_signatures_hold_and_stand_in_order() -> None:
    checked = check_signatures(signed_twice())
    assert checked.good
    assert [one.role for one in checked.signatures] == ["installer", "clerk of works"]
    assert all(one.bottom_line for one in checked.signatures)


def test_each_signature_says_what_it_covers_and_what_came_after() -> None:
    found = by_role(signed_twice())
    assert not found["installer"].covers_file
    assert found["installer"].changes == Changes(signed_by=("clerk of works",))
    assert found["clerk of works"].covers_file
    assert found["clerk of works"].changes == Changes()


def test_the_signer_is_named_by_certificate_and_its_fingerprint() -> None:
    found = by_role(signed_once())["installer"]
    der = ada().certificate.public_bytes(Encoding.DER)
    assert (found.holder, found.fingerprint) == ("Ada Laibung", hashlib.sha256(der).hexdigest())
    assert found.claimed_at is not None
    assert abs(found.claimed_at - datetime.now(UTC)) < timedelta(hours=1)


def test_a_pack_that_nobody_signed_is_not_good() -> None:
    assert check_signatures(small_pack()) == Checked(())
    assert not check_signatures(small_pack()).good


@pytest.mark.parametrize("data", [b"", b"no pdf", b"%PDF-1.7\n"])
def test_what_is_no_pdf_cannot_be_read(data: bytes) -> None:
    with pytest.raises(Unreadable, match="cannot be read as a PDF"):
        check_signatures(data)


def test_a_changed_byte_breaks_every_signature_that_covers_it() -> None:
    early = with_byte(signed_twice(), len(signed_once()) // 2, 0)
    assert [one.intact for one in check_signatures(early).signatures] == [False, False]
    late = signed_twice().replace(b"(Signed as clerk of works)", b"(Signed as Clerk of works)")
    assert [one.intact for one in check_signatures(late).signatures] == [True, False]


@pytest.mark.parametrize("change", [new_page_content, another_record])
def test_an_update_appended_without_a_key_leaves_all_intact_and_still_does_not_hold(
    change: Callable[[Any], None],
) -> None:
    checked = check_signatures(appended(signed_once(), change))
    (found,) = checked.signatures
    assert found.intact
    assert found.valid
    assert not found.bottom_line
    assert found.changes.other
    assert checked.unsigned_bytes > 0


def test_an_update_that_the_clerk_signed_over_is_held_against_the_installers_signature() -> None:
    """The clerk's signature covers the whole file and holds; the installer did not sign that page."""
    forged = appended(signed_once(), new_page_content)
    both = _signed_over(forged)
    found = by_role(both)
    assert found["clerk of works"].bottom_line
    assert not found["installer"].bottom_line
    assert "page 1" in found["installer"].changes.other
    assert not check_signatures(both).good


def _signed_over(data: bytes) -> bytes:
    """Sign past the check of earlier signatures, as another program would."""
    return signing._signed(data, cleo().signing_key, signing.Statement("clerk of works"), first=False)


def test_bytes_behind_the_last_signature_are_counted() -> None:
    checked = check_signatures(signed_twice() + b"% six\n")
    assert checked.unsigned_bytes == 6
    assert not checked.good


def test_cutting_the_second_signature_off_gives_the_file_that_the_installer_signed() -> None:
    """It is the same file as before the clerk signed: nothing is wrong with it, and nobody but one signed."""
    checked = check_signatures(signed_twice()[: len(signed_once())])
    assert checked.good
    assert [one.role for one in checked.signatures] == ["installer"]


def test_nothing_may_hide_behind_a_signature_in_its_own_room() -> None:
    start, end = hole(signed_once())
    hidden = with_byte(signed_once(), end - 3, ord("7"))
    (found,) = check_signatures(hidden).signatures
    assert found.intact
    assert not found.valid
    assert not found.bottom_line
    assert start < end


def test_a_signature_made_by_another_key_is_not_valid() -> None:
    start, end = hole(signed_once())
    digits = bytes.fromhex(signed_once()[start + 1 : end - 1].decode())
    last = len(digits.rstrip(b"\0")) - 1
    forged = digits[:last] + bytes([digits[last] ^ 1]) + digits[last + 1 :]
    data = signed_once()[: start + 1] + forged.hex().encode() + signed_once()[end - 1 :]
    (found,) = check_signatures(data).signatures
    assert found.intact
    assert not found.valid


def test_a_signature_that_leaves_bytes_out_does_not_hold() -> None:
    """Made so by whoever holds the key: what lies in the gap could be filled later."""
    assert check_signatures(signed_over(signed_once(), ada())).good, "signing over again is not what fails"
    (found,) = check_signatures(signed_over(signed_once(), ada(), leave_out=10)).signatures
    assert found.intact
    assert found.valid
    assert not found.whole_revision
    assert not found.bottom_line


def test_a_signature_that_stops_short_does_not_hold() -> None:
    checked = check_signatures(signed_over(signed_once(), ada(), stop_short=12))
    assert checked.unsigned_bytes == 12
    assert not checked.signatures[0].bottom_line


def test_a_self_made_key_is_never_said_to_prove_who_it_was() -> None:
    assert by_role(signed_once())["installer"].trust is Trust.SELF_MADE


def test_given_roots_vouch_or_do_not() -> None:
    found = by_role(signed_twice(), ada().certificate)
    assert (found["installer"].trust, found["installer"].bottom_line) == (Trust.ROOTED, True)
    assert (found["clerk of works"].trust, found["clerk of works"].bottom_line) == (Trust.NOT_ROOTED, False)


def test_a_root_vouches_for_the_certificates_it_issued() -> None:
    root, other = somebody("Root", may_issue=True), somebody("Root", may_issue=True)
    data = signed_by(small_pack(), somebody("Ben Sturz", issuer=root), "foreman")
    assert by_role(data)["foreman"].trust is Trust.ISSUED
    assert by_role(data, root.certificate)["foreman"].trust is Trust.ROOTED
    assert by_role(data, other.certificate)["foreman"].trust is Trust.NOT_ROOTED
    assert by_role(data)["foreman"].issuer == "CN=Root"


def test_a_certificate_that_was_not_in_date_when_it_signed_does_not_hold() -> None:
    early = somebody("Early", first_day=-20, last_day=-10)
    data = signing._laid_out(small_pack(), Path("pack.pdf"))
    data = signing._signed(data, early.signing_key, signing.Statement("installer"), first=True)
    (found,) = check_signatures(data).signatures
    assert found.intact
    assert found.valid
    assert not found.in_date
    assert not found.bottom_line
