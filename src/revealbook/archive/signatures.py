"""The signatures of a pack: who signed, whether it holds, and what was changed since.

`intact` alone proves little: a PDF can be appended to without touching a signed byte. What counts is
`bottom_line`, which also asks what the file shows now that it did not show when it was signed.
"""

import logging
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum
from io import BytesIO
from typing import Any

from asn1crypto import x509 as asn1_x509
from cryptography import x509
from cryptography.hazmat.primitives.hashes import SHA256
from cryptography.hazmat.primitives.serialization import Encoding
from pyhanko.pdf_utils.reader import PdfFileReader
from pyhanko.sign.validation import validate_pdf_signature
from pyhanko_certvalidator import ValidationContext

from revealbook.archive.changes import NOTHING, Changes, changes_since
from revealbook.archive.keys import subject


class Unreadable(Exception):  # noqa: N818 - it reads as the sentence it is
    """The file cannot be read as a PDF; the message, put behind its name, says why."""


class Trust(StrEnum):
    """What is known of whose key it is."""

    ROOTED = "rooted"
    """One of the given roots vouches for the certificate."""
    NOT_ROOTED = "not rooted"
    """Roots were given, and none of them vouches for it."""
    SELF_MADE = "self-made"
    """The holder made the certificate; it shows that the key is the same as before, but not whose it is."""
    ISSUED = "issued"
    """Somebody else issued it, and no root was given to check by."""


@dataclass(frozen=True, slots=True)
class Signature:
    """A signature and what checking it gave.

    Attributes:
        role: its field, which names the role.
        holder: whom the certificate names.
        issuer: who issued the certificate.
        fingerprint: SHA-256 of the certificate, hexadecimal; empty if there is none to read.
        name: the name stated; it proves nothing.
        reason: the reason stated.
        location: the location stated.
        claimed_at: when it was signed, by the signer's own clock.
        intact: the bytes it covers are those that were signed.
        valid: the certificate's key made it, with nothing hidden beside it.
        in_date: the certificate was valid at the time claimed.
        whole_revision: it covers the file from the first byte to the end of its revision.
        covers_file: it covers the whole file.
        changes: what changed since.
        trust: what is known of whose key it is.
    """

    role: str
    holder: str = ""
    issuer: str = ""
    fingerprint: str = ""
    name: str = ""
    reason: str = ""
    location: str = ""
    claimed_at: datetime | None = None
    intact: bool = False
    valid: bool = False
    in_date: bool = False
    whole_revision: bool = False
    covers_file: bool = False
    changes: Changes = NOTHING
    trust: Trust = Trust.SELF_MADE

    @property
    def bottom_line(self) -> bool:
        """Whether it holds: what was signed is what the file shows, but for further signatures."""
        sound = self.intact and self.valid and self.in_date and self.whole_revision
        return sound and self.changes.harmless and self.trust is not Trust.NOT_ROOTED


@dataclass(frozen=True, slots=True)
class Checked:
    """What checking all signatures of a file gave.

    Attributes:
        signatures: in the order in which they were made.
        unsigned_bytes: how many bytes stand behind the last signed one; none may in a signed file.
    """

    signatures: tuple[Signature, ...]
    unsigned_bytes: int = 0

    @property
    def good(self) -> bool:
        """Whether there is a signature, and all hold up to the last byte of the file."""
        hold = all(one.bottom_line for one in self.signatures)
        return bool(self.signatures) and hold and not self.unsigned_bytes


def check_signatures(data: bytes, roots: Sequence[x509.Certificate] = ()) -> Checked:
    """Check every signature of a PDF.

    Args:
        data: the whole file.
        roots: certificates that are trusted to vouch for others. Revocation is not asked about: that needs a
            network, and lists are seldom kept for as long as a building.

    Raises:
        Unreadable: it is no PDF, or too damaged to be read.
    """
    with _quietly():
        try:
            embedded = PdfFileReader(BytesIO(data)).embedded_signatures
            found = sorted(embedded, key=lambda one: one.signed_revision)
        except Exception as error:  # a damaged file fails the parser in any way there is
            raise Unreadable(f"cannot be read as a PDF: {str(error) or type(error).__name__}") from error
        checked = tuple(_checked(one, data, roots) for one in found)
        ends = [_end(one) for one in found]
    return Checked(checked, len(data) - max(ends) if ends else 0)


def _checked(embedded: Any, data: bytes, roots: Sequence[x509.Certificate]) -> Signature:
    try:
        return _check(embedded, data, roots)
    except Exception:  # noqa: BLE001 - what cannot be made sense of does not hold
        return Signature(str(embedded.field_name))


def _check(embedded: Any, data: bytes, roots: Sequence[x509.Certificate]) -> Signature:
    certificate = x509.load_der_x509_certificate(embedded.signer_cert.dump())
    stated = embedded.sig_object
    claimed = embedded.self_reported_timestamp
    status = validate_pdf_signature(embedded, _trusting(roots, claimed), skip_diff=True)
    end = _end(embedded)
    whole = _is_whole(embedded)
    # The signed revision must be a file of its own; if it does not open, this does not hold.
    changes = changes_since(data[:end], data) if status.intact and whole else NOTHING
    trust = Trust.ROOTED if status.trusted else Trust.NOT_ROOTED
    if not roots:
        self_made = certificate.issuer == certificate.subject
        trust = Trust.SELF_MADE if self_made else Trust.ISSUED
    return Signature(
        role=str(embedded.field_name),
        holder=subject(certificate),
        issuer=certificate.issuer.rfc4514_string(),
        fingerprint=certificate.fingerprint(SHA256()).hex(),
        name=str(stated.get("/Name", "")),
        reason=str(stated.get("/Reason", "")),
        location=str(stated.get("/Location", "")),
        claimed_at=claimed,
        intact=status.intact,
        valid=status.valid and _nothing_beside(embedded),
        in_date=claimed is not None
        and certificate.not_valid_before_utc <= claimed <= certificate.not_valid_after_utc,
        whole_revision=whole,
        covers_file=whole and end == len(data),
        changes=changes,
        trust=trust,
    )


def _trusting(roots: Sequence[x509.Certificate], moment: datetime | None) -> ValidationContext:
    """Trust the roots, as of the time claimed: a pack is read long after its certificates have run out."""
    trusted = [asn1_x509.Certificate.load(root.public_bytes(Encoding.DER)) for root in roots]
    return ValidationContext(trust_roots=trusted, allow_fetching=False, moment=moment)


def _end(embedded: Any) -> int:
    """Where the last byte that a signature covers lies."""
    return int(embedded.byte_range[2]) + int(embedded.byte_range[3])


def _is_whole(embedded: Any) -> bool:
    """Whether all is covered from the first byte on, but for the signature's own hexadecimal digits."""
    first, length, second, _ = (int(number) for number in embedded.byte_range)
    return first == 0 and second == length + 2 * len(embedded.pkcs7_content) + 2


def _nothing_beside(embedded: Any) -> bool:
    """Whether only zeros fill the room left behind the signature."""
    content: bytes = embedded.pkcs7_content
    return not any(content[_length(content) :])


def _length(der: bytes) -> int:
    """Give how many bytes an ASN.1 value takes (X.690, 8.1.3)."""
    first = der[1]
    if first < 0x80:  # noqa: PLR2004 - the short form
        return 2 + first
    octets = first & 0x7F
    return 2 + octets + int.from_bytes(der[2 : 2 + octets], "big")


@contextmanager
def _quietly() -> Iterator[None]:
    """Without the library's log: what it has to say is in the result."""
    logs = [logging.getLogger(name) for name in ("pyhanko", "pyhanko_certvalidator")]
    levels = [log.level for log in logs]
    for log in logs:
        log.setLevel(logging.CRITICAL + 1)
    try:
        yield
    finally:
        for log, level in zip(logs, levels, strict=True):
            log.setLevel(level)
