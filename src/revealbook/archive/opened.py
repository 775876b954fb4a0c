"""A pack PDF opened again: the files it carries and the text of its pages, read by PDFium."""

from collections import Counter
from dataclasses import dataclass
from pathlib import Path

import pypdfium2

from revealbook.present.evidence import path_of


class NotAPack(Exception):  # noqa: N818 - it reads as the sentence it is
    """The file cannot be opened, or not as a pack; the message says why."""


@dataclass(frozen=True, slots=True)
class OpenedPack:
    """What stands in a pack.

    Attributes:
        carried: embedded files by path, as `site.yaml`, `openings/W-2.07.yaml`, `findings.json`.
        pages: the text of each page.
        repeated: paths under which it carries more than one file; the first one stands in `carried`.
    """

    carried: dict[str, bytes]
    pages: tuple[str, ...]
    repeated: tuple[str, ...] = ()


def open_pack(file: Path) -> OpenedPack:
    """Open a pack.

    Args:
        file: the PDF; it is only read.

    Raises:
        NotAPack: it is no PDF, it is damaged, or it carries no site file.
    """
    opened = read_carried(file)
    if "site.yaml" not in opened.carried:
        raise NotAPack(f"{file} carries no site file; it is no pack, or its evidence was taken out.")
    return opened


def read_carried(file: Path) -> OpenedPack:
    """Read what any PDF of this program carries and says, whether or not it is a pack.

    Raises:
        NotAPack: it is no PDF, or it is damaged.
    """
    try:
        with pypdfium2.PdfDocument(file.read_bytes()) as pdf:
            attached = [pdf.get_attachment(index) for index in range(pdf.count_attachments())]
            inside = [(path_of(one.get_name()), bytes(one.get_data())) for one in attached]
            pages = tuple(page.get_textpage().get_text_bounded() for page in pdf)
    except (pypdfium2.PdfiumError, UnicodeError, ValueError, OSError) as error:
        raise NotAPack(f"{file} cannot be opened as a PDF: {error}") from error
    number = Counter(path for path, _ in inside)
    return OpenedPack(dict(reversed(inside)), pages, tuple(path for path in number if number[path] > 1))
