"""Time of checking two signatures on a pack of a hundred pages, beside the signing library's own comparison.

Run: python tests/benchmarks/signature_speed.py [openings] [--library]. Prints seconds; never fails a build.
With --library, the library's own comparison of revisions is timed as well: minutes.
"""

import logging
import sys
import time
from collections.abc import Callable
from io import BytesIO
from pathlib import Path
from tempfile import TemporaryDirectory

sys.path.insert(0, str(Path(__file__).parents[2]))

import pikepdf
from pyhanko.pdf_utils.reader import PdfFileReader
from pyhanko.sign.validation import validate_pdf_signature
from pyhanko_certvalidator import ValidationContext
from tests.archive.packs import signed_by
from tests.archive.people import Person, ada, cleo
from tests.benchmarks.check_speed import many
from tests.cli.terminal import run

from revealbook.archive.signatures import check_signatures

OPENINGS = 9


def seconds(work: Callable[[], object]) -> str:
    """Time something, in CPU and by the clock."""
    clock, cpu = time.perf_counter(), time.process_time()
    work()
    return f"{time.process_time() - cpu:.2f} s CPU, {time.perf_counter() - clock:.2f} s by the clock"


def by_library(data: bytes) -> None:
    """Check both signatures with the library's own comparison of revisions."""
    logging.disable(logging.CRITICAL)
    nobody = ValidationContext(trust_roots=[], allow_fetching=False)
    for one in PdfFileReader(BytesIO(data)).embedded_signatures:
        validate_pdf_signature(one, nobody)


def main() -> None:
    """Print the figures."""
    numbers = [int(one) for one in sys.argv[1:] if one.isdigit()]
    with TemporaryDirectory() as name:
        many(numbers[0] if numbers else OPENINGS, Path(name, "site"))
        pack = Path(name, "pack.pdf")
        assert run("pack", Path(name, "site"), "--to", pack).status == 0
        data = pack.read_bytes()
    with pikepdf.open(BytesIO(data)) as pdf:
        print(f"{len(pdf.pages)} pages, {len(pdf.objects)} objects, {len(data) / 1e6:.1f} MB")
    signed = [data]

    def sign_as(person: Person, role: str) -> None:
        signed.append(signed_by(signed[-1], person, role))

    print(f"signing as installer: {seconds(lambda: sign_as(ada(), 'installer'))}")
    print(f"signing as clerk of works: {seconds(lambda: sign_as(cleo(), 'clerk of works'))}")
    assert check_signatures(signed[-1]).good
    print(f"checking two signatures: {seconds(lambda: check_signatures(signed[-1]))} (aim: seconds)")
    if "--library" in sys.argv:
        print(f"the library's own comparison: {seconds(lambda: by_library(signed[-1]))}")


if __name__ == "__main__":
    main()
