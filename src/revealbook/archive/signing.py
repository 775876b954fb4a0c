"""A pack PDF signed: PAdES baseline B-B (ETSI EN 319 142-1), invisible, as an update behind what was there.

The signature block stands printed in the pages; a visible stamp would break PDF/A and PDF/UA.
"""

import os
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from io import BytesIO
from pathlib import Path
from tempfile import NamedTemporaryFile
from typing import get_args

import pikepdf
from pyhanko.pdf_utils.incremental_writer import IncrementalPdfFileWriter
from pyhanko.sign.fields import MDPPerm, SigSeedSubFilter
from pyhanko.sign.general import SigningError
from pyhanko.sign.signers import PdfSignatureMetadata, PdfSigner

from revealbook.archive.keys import SigningKey
from revealbook.archive.signatures import Unreadable, check_signatures
from revealbook.records.acceptance import Role

ORDER: tuple[str, ...] = get_args(Role)
"""The order in which roles sign: the installer first, whoever checks the work after."""


class CannotSign(Exception):  # noqa: N818 - it reads as the sentence it is
    """Nothing was signed; the message says why."""


@dataclass(frozen=True, slots=True)
class Statement:
    """What a signature states beside the key.

    Attributes:
        role: in which role; it names the field, so each role signs once.
        name: who; the certificate's holder if left out.
        reason: why; the role in words if left out.
        location: where.
    """

    role: str
    name: str | None = None
    reason: str | None = None
    location: str | None = None


def sign(pack: Path, to: Path, key: SigningKey, statement: Statement) -> None:
    """Sign a pack.

    Args:
        pack: the pack PDF, signed already or not; it is only read.
        to: the file to write; it appears whole or not at all.
        key: whose key.
        statement: what is stated.

    Raises:
        CannotSign: the target exists, the role has signed, its turn is over, an earlier signature does not
            hold, the certificate is not valid today, or the file is no pack.
    """
    if to.exists():
        raise CannotSign(f"{to} exists already; signing never overwrites a file.")
    now = datetime.now(UTC)
    if not key.certificate.not_valid_before_utc <= now <= key.certificate.not_valid_after_utc:
        raise CannotSign(f"The certificate of {key.holder} is not valid today.")
    data = pack.read_bytes()
    try:
        before = check_signatures(data)
    except Unreadable as error:
        raise CannotSign(f"{pack} {error}") from error
    _refuse_out_of_turn(statement.role, [one.role for one in before.signatures])
    broken = [one.role for one in before.signatures if not one.bottom_line]
    if broken or before.unsigned_bytes:
        raise CannotSign(f"{pack} was changed after it was signed by: {', '.join(broken) or 'all'}.")
    first = not before.signatures
    _write_whole(to, _signed(_laid_out(data, pack) if first else data, key, statement, first=first))


def _refuse_out_of_turn(role: str, signed: Sequence[str]) -> None:
    if role not in ORDER:
        raise CannotSign(f"There is no role {role}; the roles are {', '.join(ORDER)}.")
    if role in signed:
        raise CannotSign(f"The {role} has signed already.")
    later = [one for one in signed if one in ORDER and ORDER.index(one) > ORDER.index(role)]
    if later:
        raise CannotSign(f"The {role} signs before the {later[0]}, who has signed already.")


def _laid_out(data: bytes, pack: Path) -> bytes:
    """Write the file once more before its first signature, its objects in many small streams.

    The typesetter puts all objects into one stream, which readers unpack for every object they look up:
    checking the signatures of a hundred pages then takes minutes. Contents and tags stay as they are.
    """
    target = BytesIO()
    try:
        with pikepdf.open(BytesIO(data)) as pdf:
            if "site.yaml" not in pdf.attachments:
                raise CannotSign(f"{pack} carries no site file; it is no pack.")
            pdf.save(target, object_stream_mode=pikepdf.ObjectStreamMode.generate, deterministic_id=True)
    except pikepdf.PdfError as error:
        raise CannotSign(f"{pack} cannot be opened as a PDF: {error}") from error
    return target.getvalue()


class _Update(IncrementalPdfFileWriter):
    """An update that leaves the pack's title, author and dates alone.

    The library would write them anew at every signature, and what describes PDF/UA to PDF/A in another way.
    """

    def _update_meta(self) -> None:
        pass


def _signed(data: bytes, key: SigningKey, statement: Statement, *, first: bool) -> bytes:
    stated = PdfSignatureMetadata(
        field_name=statement.role,
        name=statement.name or key.holder,
        reason=statement.reason or f"Signed as {statement.role}",
        location=statement.location,
        subfilter=SigSeedSubFilter.PADES,
        md_algorithm="sha256",
        # The first signature also rules what may follow: further signatures, and nothing else in a pack.
        certify=first,
        docmdp_permissions=MDPPerm.FILL_FORMS,
    )
    try:
        target = PdfSigner(stated, signer=key.signer()).sign_pdf(_Update(BytesIO(data)))
    except SigningError as error:
        raise CannotSign(f"The key cannot sign: {error}") from error
    signed: bytes = target.getvalue()
    return signed


def _write_whole(target: Path, data: bytes) -> None:
    with NamedTemporaryFile(dir=target.parent, prefix=f".{target.name}.", delete=False) as file:
        try:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
            Path(file.name).chmod(0o644)
            Path(file.name).replace(target)
        except OSError:
            Path(file.name).unlink(missing_ok=True)
            raise
