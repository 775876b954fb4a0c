"""Which files are photographs that can be opened; the one place that knows their formats."""

import warnings
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import BinaryIO, Literal

from PIL import Image, ImageFile, UnidentifiedImageError

MAX_PIXELS = 60_000_000
WRONG = (OSError, ValueError, SyntaxError, Image.DecompressionBombError)
"""What opening or decoding a file raises that is no whole picture."""
Fault = Literal["photo_not_a_picture", "photo_cut_short", "photo_too_large"]

_FORMATS = ("JPEG", "PNG", "WEBP")
_ENDS = {"JPEG": b"\xff\xd9", "PNG": b"IEND"}
"""What stands at the end of a whole file (ISO/IEC 10918-1, B.1.1.3; ISO/IEC 15948, 11.2.5)."""
_TAIL_BYTES = 65_536
_HEIF_BOX = b"ftyp"


def opened(stream: BinaryIO) -> Image.Image:
    """Open a JPEG, PNG, WebP or HEIC picture: its header only, until its pixels are asked for.

    Raises:
        UnidentifiedImageError: it is none of these.
        OSError, ValueError, SyntaxError, DecompressionBombError: it is damaged or far too large.
    """
    start = stream.read(8)
    stream.seek(0)
    formats: tuple[str, ...] = _FORMATS
    if start[4:] == _HEIF_BOX:
        from pi_heif import register_heif_opener  # noqa: PLC0415 - few sites have such files

        register_heif_opener()
        formats = ("HEIF",)
    with warnings.catch_warnings():
        # Pillow only warns up to twice its own limit; ours is lower and is checked by the caller.
        warnings.simplefilter("ignore", Image.DecompressionBombWarning)
        return Image.open(stream, formats=formats)


@contextmanager
def whole_only() -> Iterator[None]:
    """The typesetter, once loaded, lets the process show half a picture; evidence is whole or missing."""
    before = ImageFile.LOAD_TRUNCATED_IMAGES
    ImageFile.LOAD_TRUNCATED_IMAGES = False
    try:
        yield
    finally:
        ImageFile.LOAD_TRUNCATED_IMAGES = before


def fault_of(file: Path) -> Fault | None:
    """Say what keeps a photograph from being used, without decoding a sound one: a millisecond a file."""
    try:
        with whole_only(), file.open("rb") as stream, opened(stream) as image:
            if image.width * image.height > MAX_PIXELS:
                return "photo_too_large"
            if not _has_its_end(image.format or "", file):
                image.load()
    except UnidentifiedImageError:
        return "photo_not_a_picture"
    except Image.DecompressionBombError:
        return "photo_too_large"
    except WRONG:
        return "photo_cut_short"
    return None


def _has_its_end(form: str, file: Path) -> bool:
    """Whether the mark of the end stands near it; phones append clips and depth maps, so it need not."""
    with file.open("rb") as stream:
        size = stream.seek(0, 2)
        if form == "WEBP":
            stream.seek(4)
            return int.from_bytes(stream.read(4), "little") + 8 <= size
        stream.seek(max(0, size - _TAIL_BYTES))
        return _ENDS.get(form, b"") in stream.read()
