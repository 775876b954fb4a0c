"""Bytes of a signed pack changed one at a time, at random: each is reported, or changes nothing at all.

More of them, or others: set REVEALBOOK_TAMPERINGS=20000 and REVEALBOOK_TAMPERING_SEED=7 before pytest.

A change in the bytes that a signature covers is found by its digest alone; that this is what checking says
too is shown on a sample. What no signature covers is the room of the last signature's own digits: there every
change is checked in full.
"""

import hashlib
import os
import random
import re
from collections import Counter
from collections.abc import Callable, Iterator
from io import BytesIO
from pathlib import Path
from typing import Any, NamedTuple

import pikepdf
import pytest
from pyhanko.pdf_utils.reader import PdfFileReader
from pyhanko.sign.validation import validate_pdf_signature
from pyhanko_certvalidator import ValidationContext
from tests.archive.packs import appended, signed_by, signed_once, signed_twice
from tests.archive.people import ada, cleo
from tests.archive.test_changes import another_record, content_in_place, new_page_content, note_on_page
from tests.builders import CONFORMING
from tests.cli.terminal import run

from revealbook.archive.signatures import Unreadable, check_signatures

NUMBER = int(os.environ.get("REVEALBOOK_TAMPERINGS", "2000"))
SEED = int(os.environ.get("REVEALBOOK_TAMPERING_SEED", "2026"))
CHECKED_IN_FULL = 50


class Signed(NamedTuple):
    """The bytes that a signature covers, and their digest."""

    before: int
    after: int
    end: int
    digest: bytes

    def holds(self, data: bytes) -> bool:
        covered = data[: self.before] + data[self.after : self.end]
        return hashlib.sha256(covered).digest() == self.digest


def signatures(data: bytes) -> tuple[Signed, ...]:
    found = []
    for embedded in PdfFileReader(BytesIO(data)).embedded_signatures:
        _, before, after, length = map(int, embedded.byte_range)
        (stated,) = (
            one["values"].native[0]
            for one in embedded.signer_info["signed_attrs"]
            if one["type"].native == "message_digest"
        )
        found.append(Signed(before, after, after + length, stated))
        assert found[-1].holds(data), "the quick check itself does not hold"
    return tuple(found)


def places(data: bytes) -> dict[str, list[range]]:
    """Where the things lie that a reader or re-judging sees, in bytes of the file."""

    def lies(stream: Any) -> range:
        raw = stream.read_raw_bytes()
        assert data.count(raw) == 1
        return range(data.index(raw), data.index(raw) + len(raw))

    with pikepdf.open(BytesIO(data)) as pdf:
        found = {
            "embedded files": [lies(file.obj.EF.F) for file in pdf.attachments.values()],
            "page content": [lies(page.obj.Contents) for page in pdf.pages],
            "metadata": [lies(pdf.Root.Metadata)],
            "anywhere": [range(len(data))],
        }
    assert len(found["embedded files"]) > 5
    assert len(found["page content"]) > 5
    return found


def tampered(data: bytes, at: int, choice: random.Random) -> bytes:
    other = choice.choice([value for value in range(256) if value != data[at]])
    return data[:at] + bytes([other]) + data[at + 1 :]


def tamperings(data: bytes) -> Iterator[tuple[str, bytes]]:
    """Change bytes in turn inside files, page content and metadata, and anywhere."""
    choice = random.Random(SEED)
    lying = places(data)
    for number in range(NUMBER):
        what = list(lying)[number % len(lying)]
        where = choice.choice(lying[what])
        yield what, tampered(data, choice.choice(where), choice)


def is_reported(data: bytes) -> bool:
    """Whether checking says that something is wrong."""
    try:
        return not check_signatures(data).good
    except Unreadable:
        return True


def changes_nothing(data: bytes, original: bytes, last: Signed) -> bool:
    """Whether all but the last signature's digits is the same, and checking gives the same to the letter."""
    outside = data[: last.before] + data[last.after :] == original[: last.before] + original[last.after :]
    return outside and check_signatures(data) == check_signatures(original)


@pytest.fixture(scope="module")
def pack(tmp_path_factory: pytest.TempPathFactory) -> bytes:
    folder: Path = tmp_path_factory.mktemp("tampering")
    assert run("pack", CONFORMING, "--to", folder / "pack.pdf").status == 0
    once = signed_by((folder / "pack.pdf").read_bytes(), ada(), "installer")
    return signed_by(once, cleo(), "clerk of works")


@pytest.mark.slow
def test_every_changed_byte_is_reported_or_changes_nothing(pack: bytes) -> None:
    assert check_signatures(pack).good
    signed = signatures(pack)
    told: Counter[tuple[str, str]] = Counter()
    for number, (what, data) in enumerate(tamperings(pack)):
        found = not all(one.holds(data) for one in signed)
        if found and number % max(1, NUMBER // CHECKED_IN_FULL) == 0:
            assert is_reported(data), f"digest differs, checking is content: seed {SEED}, number {number}"
        if not found:
            found = is_reported(data)
            assert found or changes_nothing(data, pack, signed[-1]), f"seed {SEED}, number {number}"
        told[what, "reported" if found else "changes nothing"] += 1
    for (what, outcome), times in sorted(told.items()):
        print(f"{what}: {outcome} {times}")
    assert told.total() == NUMBER
    assert {what for what, outcome in told if outcome == "changes nothing"} <= {"anywhere"}


@pytest.mark.slow
def test_every_change_in_the_room_of_the_last_signature_is_reported_or_changes_nothing() -> None:
    choice = random.Random(SEED)
    last = signatures(signed_twice())[-1]
    outcomes: Counter[bool] = Counter()
    for _ in range(max(100, NUMBER // 20)):
        data = tampered(signed_twice(), choice.randrange(last.before, last.after), choice)
        found = is_reported(data)
        assert found or changes_nothing(data, signed_twice(), last)
        outcomes[found] += 1
    print(f"in the last signature's room: reported {outcomes[True]}, changes nothing {outcomes[False]}")
    assert outcomes[True] > 10 * outcomes[False]


def test_a_digit_in_another_case_is_the_one_change_that_changes_nothing() -> None:
    last = signatures(signed_twice())[-1]
    at = next(at for at in range(last.before, last.after) if signed_twice()[at : at + 1].isalpha())
    data = signed_twice()[:at] + signed_twice()[at : at + 1].swapcase() + signed_twice()[at + 1 :]
    assert data != signed_twice()
    assert changes_nothing(data, signed_twice(), last)


def test_no_number_of_a_byte_range_can_be_changed() -> None:
    """The numbers say what is covered, so that the digest alone cannot be trusted to find a change there."""
    choice = random.Random(SEED)
    for stated in re.finditer(rb"/ByteRange \[([ \d]+)\]", signed_twice()):
        for at in range(stated.start(1), stated.end(1)):
            if signed_twice()[at : at + 1].isdigit():
                other = str((int(signed_twice()[at : at + 1]) + choice.randrange(1, 10)) % 10).encode()
                assert is_reported(signed_twice()[:at] + other + signed_twice()[at + 1 :])


def by_library(data: bytes) -> bool:
    """The signing library's own judgement of all revisions, which takes minutes on a large pack."""
    nobody = ValidationContext(trust_roots=[], allow_fetching=False)
    found = [validate_pdf_signature(one, nobody) for one in PdfFileReader(BytesIO(data)).embedded_signatures]
    return all(one.intact and one.valid and one.docmdp_ok for one in found)


@pytest.mark.slow
@pytest.mark.parametrize("change", [new_page_content, content_in_place, another_record, note_on_page])
def test_the_librarys_own_comparison_of_revisions_agrees(change: Callable[[Any], None]) -> None:
    assert by_library(signed_twice())
    for signed in (signed_once(), signed_twice()):
        forged = appended(signed, change)
        assert not by_library(forged)
        assert is_reported(forged)
