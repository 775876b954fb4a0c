"""Small packs: every part of a page, two embedded files, no time lost."""

import asyncio
import hashlib
import re
from collections.abc import Callable
from datetime import datetime
from functools import cache
from io import BytesIO
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import pikepdf
from pyhanko.pdf_utils.incremental_writer import IncrementalPdfFileWriter
from tests.archive.people import Person, ada, cleo

from revealbook.archive.signing import Statement, sign
from revealbook.render.embed import Attachment
from revealbook.render.look import Look
from revealbook.render.render import render_pdf

MADE = datetime.fromisoformat("2026-11-20T10:00:00+01:00")
SITE = b"id: s\nname: S\n"
RECORD = b"mark: W-1.01\nwidth_mm: 1230\n"


@cache
def small_pack(site_file: str = "site.yaml") -> bytes:
    """Give a pack of few pages."""
    attachments = [
        Attachment(site_file, SITE, "Site file", "application/yaml", "Source", MADE),
        Attachment("openings__W-1.01.yaml", RECORD, "Record", "application/yaml", "Source", MADE),
    ]
    look = Look(override=Path(__file__).parents[1] / "render" / "templates")
    shown = {"rows": 5, "pictures": []}
    return render_pdf("sample.html", shown, look=look, made=MADE, attachments=attachments).pdf


def signed_by(data: bytes, person: Person, role: str) -> bytes:
    """Give a pack with one more signature."""
    with TemporaryDirectory() as name:
        before, after = Path(name, "before.pdf"), Path(name, "after.pdf")
        before.write_bytes(data)
        sign(before, after, person.signing_key, Statement(role))
        return after.read_bytes()


@cache
def signed_once() -> bytes:
    """Give a small pack that the installer signed."""
    return signed_by(small_pack(), ada(), "installer")


@cache
def signed_twice() -> bytes:
    """Give a small pack that installer and clerk of works signed."""
    return signed_by(signed_once(), cleo(), "clerk of works")


def appended(data: bytes, change: Callable[[Any], None]) -> bytes:
    """Append an update to a PDF without touching a byte of it, as somebody without a key can."""
    writer: Any = IncrementalPdfFileWriter(BytesIO(data))
    change(writer)
    target = BytesIO()
    writer.write(target)
    assert target.getvalue().startswith(data)
    return target.getvalue()


def appended_raw(data: bytes, entries: str, **trailer: str) -> bytes:
    """Append a bare cross-reference table: what a writer of PDFs would refuse to write."""
    previous = re.findall(rb"startxref\s+(\d+)", data)[-1].decode()
    with pikepdf.open(BytesIO(data)) as pdf:
        number, marks = pdf.trailer.Size, pdf.trailer.ID.unparse().decode()
        kept = {key: "{} {} R".format(*pdf.trailer[f"/{key}"].objgen) for key in ("Root", "Info")}
    kept |= {"Size": str(number), "ID": marks}
    stated = " ".join(f"/{key} {value}" for key, value in {**kept, "Prev": previous, **trailer}.items())
    return data + f"xref\n{entries}\ntrailer\n<< {stated} >>\nstartxref\n{len(data)}\n%%EOF\n".encode()


def signed_over(data: bytes, person: Person, *, leave_out: int = 0, stop_short: int = 0) -> bytes:
    """Sign a signed file's last signature anew, leaving out bytes behind its digits or at the end."""
    *_, stated = re.finditer(rb"/ByteRange \[ ?0 (\d+) (\d+) (\d+) *\]", data)
    before, after, length = map(int, stated.groups())
    after, length = after + leave_out, length - leave_out - stop_short
    room = len(stated[0])
    numbers = f"/ByteRange [0 {before} {after} {length}".encode().ljust(room - 1) + b"]"
    data = data[: stated.start()] + numbers + data[stated.end() :]
    digest = hashlib.sha256(data[:before] + data[after : after + length]).digest()
    signer = person.signing_key.signer()
    made: bytes = asyncio.run(signer.async_sign(digest, "sha256", use_pades=True)).dump()
    digits = made.hex().encode().ljust(int(stated[2]) - before - 2, b"0")
    return data[: before + 1] + digits + data[int(stated[2]) - 1 :]
