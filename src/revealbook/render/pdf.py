"""HTML to a PDF that is both PDF/A-3a (ISO 19005-3) and PDF/UA-1 (ISO 14289-1), the same bytes every time."""

import gc
import importlib
import logging
import os
import threading
import warnings
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from types import ModuleType

from revealbook.render.embed import Attachment, finisher, for_typesetter, in_order
from revealbook.render.failure import RenderFailed
from revealbook.render.fetcher import BASE, Gate, url_fetcher
from revealbook.render.fonts import use_own_fonts_only
from revealbook.render.pdf_writing import nothing_written_twice

# Environment, log and fonts belong to the whole process, so pages are typeset one after another.
_ONE_AT_A_TIME = threading.Lock()
# A page is thousands of small objects, all of them alive until the PDF is written. Looking through them for
# circles as often as through those of an ordinary program takes a quarter of all the time.
_SELDOM = (200_000, 20, 100)

# PDF/A refuses a property that no schema describes (ISO 19005-3, 6.6.2.3); PDF/UA's own is not predefined.
_UA_IDENTIFICATION = b"""
<rdf:Description rdf:about="" xmlns:pdfuaid="http://www.aiim.org/pdfua/ns/id/">
<pdfuaid:part>1</pdfuaid:part></rdf:Description>
<rdf:Description rdf:about="" xmlns:pdfaExtension="http://www.aiim.org/pdfa/ns/extension/"
 xmlns:pdfaSchema="http://www.aiim.org/pdfa/ns/schema#" xmlns:pdfaProperty="http://www.aiim.org/pdfa/ns/property#">
<pdfaExtension:schemas><rdf:Bag><rdf:li rdf:parseType="Resource">
<pdfaSchema:schema>PDF/UA Universal Accessibility Schema</pdfaSchema:schema>
<pdfaSchema:namespaceURI>http://www.aiim.org/pdfua/ns/id/</pdfaSchema:namespaceURI>
<pdfaSchema:prefix>pdfuaid</pdfaSchema:prefix>
<pdfaSchema:property><rdf:Seq><rdf:li rdf:parseType="Resource">
<pdfaProperty:name>part</pdfaProperty:name><pdfaProperty:valueType>Integer</pdfaProperty:valueType>
<pdfaProperty:category>internal</pdfaProperty:category>
<pdfaProperty:description>Part of ISO 14289 that the document conforms to</pdfaProperty:description>
</rdf:li></rdf:Seq></pdfaSchema:property>
</rdf:li></rdf:Bag></pdfaExtension:schemas></rdf:Description>"""


@dataclass(frozen=True, slots=True)
class Rendered:
    """A finished PDF.

    Attributes:
        pdf: its bytes; equal input gives equal bytes on one machine.
        pages: how many pages it has.
        warnings: what the reader of the page would not see but its maker should know; one sentence each.
    """

    pdf: bytes
    pages: int
    warnings: tuple[str, ...] = ()


def typeset(
    html: str, *, roots: Sequence[Path], attachments: Sequence[Attachment], made: datetime
) -> Rendered:
    """Typeset a page.

    Args:
        html: the whole page, with language, title and an `alt` on every picture.
        roots: folders that pictures may be read from. A relative address is looked for in each, in this
            order, and is the better one: an absolute path leaves its trace in the bytes of the PDF.
        attachments: files to carry inside.
        made: the date the fonts are stamped with, with zone; the page's own dates stand in its head.

    Raises:
        RenderFailed: something was refused, missing or not accessible; every such problem is named.
        ValueError: `made` has no zone, or two attachments have one name.
    """
    if made.tzinfo is None:
        raise ValueError("The time a page is made has no zone.")
    files = in_order(attachments)
    gate = Gate(tuple(root.resolve() for root in roots))
    with _ONE_AT_A_TIME, _seldom_collected(), _undisturbed(), _stamped(made), _overheard() as heard:
        pdf, pages = _typeset(html, gate, files, heard)
    return Rendered(pdf, pages, _warnings(heard))


def _typeset(
    html: str, gate: Gate, files: Sequence[Attachment], heard: Sequence[logging.LogRecord]
) -> tuple[bytes, int]:
    """Give the PDF and its number of pages; the document is out of reach after that, and can be collected."""
    page = _typesetter().HTML(string=html, base_url=BASE, url_fetcher=url_fetcher(gate))
    document = page.render(pdf_variant="pdf/a-3a")
    _fail_on(gate.refused, heard)
    identify = document.metadata.generate_rdf_metadata
    document.metadata.generate_rdf_metadata = _identified(identify)
    with nothing_written_twice():
        pdf: bytes = document.write_pdf(
            pdf_variant="pdf/a-3a", attachments=for_typesetter(files), finisher=finisher(files)
        )
    _fail_on(gate.refused, heard)
    return pdf, len(document.pages)


def _typesetter() -> ModuleType:
    """Loaded late, because it looks for fonts when loaded."""
    use_own_fonts_only()
    return importlib.import_module("weasyprint")


@contextmanager
def _seldom_collected() -> Iterator[None]:
    """Look for unreachable circles of objects seldom, and once at the end, so that volumes do not add up.

    What was there before is set aside meanwhile, or looking through a large program would take longer than
    the page; unless that program has set aside something itself, which stays so.
    """
    before, ours = gc.get_threshold(), gc.get_freeze_count() == 0
    gc.set_threshold(*_SELDOM)
    if ours:
        gc.freeze()
    try:
        yield
    finally:
        gc.set_threshold(*before)
        gc.collect()
        if ours:
            gc.unfreeze()


@contextmanager
def _undisturbed() -> Iterator[None]:
    """Without two warnings of the typesetter: a missing library is the doctor's, the open file its own."""
    with warnings.catch_warnings():
        warnings.filterwarnings("ignore", "HarfBuzz-Subset will be required", DeprecationWarning)
        warnings.filterwarnings("ignore", r"unclosed file.*\.icc", ResourceWarning)
        yield


def _identified(identify: Callable[..., bytes]) -> Callable[..., bytes]:
    def both(*arguments: object) -> bytes:
        head, end, tail = identify(*arguments).rpartition(b"</rdf:RDF>")
        return head + _UA_IDENTIFICATION + end + tail

    return both


def _warnings(heard: Sequence[logging.LogRecord]) -> tuple[str, ...]:
    """Each warning once; a library missing from the machine is for the doctor to say, not for every page."""
    messages = (record.getMessage() for record in heard if record.levelno == logging.WARNING)
    return tuple(dict.fromkeys(message for message in messages if "install HarfBuzz-Subset" not in message))


def _fail_on(refused: Sequence[str], heard: Sequence[logging.LogRecord]) -> None:
    errors = [record.getMessage() for record in heard if record.levelno >= logging.ERROR]
    # What was refused has its own sentence already; the typesetter only repeats it.
    problems = [*refused, *(error for error in errors if not any(sentence in error for sentence in refused))]
    if problems:
        raise RenderFailed(*dict.fromkeys(problems))


@contextmanager
def _stamped(made: datetime) -> Iterator[None]:
    """Fonts cut down within are dated `made`, not now; nothing but the font library reads this variable."""
    before = os.environ.get("SOURCE_DATE_EPOCH")
    os.environ["SOURCE_DATE_EPOCH"] = str(int(made.timestamp()))
    try:
        yield
    finally:
        if before is None:
            del os.environ["SOURCE_DATE_EPOCH"]
        else:
            os.environ["SOURCE_DATE_EPOCH"] = before


class _Listener(logging.Handler):
    def __init__(self) -> None:
        super().__init__(logging.WARNING)
        self.records: list[logging.LogRecord] = []

    def emit(self, record: logging.LogRecord) -> None:
        self.records.append(record)


@contextmanager
def _overheard() -> Iterator[list[logging.LogRecord]]:
    """Everything that the typesetter logs at WARNING or above, whatever the host's logging is set to."""
    log, listener = logging.getLogger("weasyprint"), _Listener()
    level, propagates = log.level, log.propagate
    log.addHandler(listener)
    log.setLevel(logging.WARNING)
    log.propagate = False
    try:
        yield listener.records
    finally:
        log.removeHandler(listener)
        log.setLevel(level)
        log.propagate = propagates
