"""The gate between a page and the disk: files from the allowed folders, nothing else, no network."""

from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING
from urllib.parse import SplitResult, urlsplit
from urllib.request import url2pathname

if TYPE_CHECKING:
    from weasyprint.urls import URLFetcher

# Relative addresses on a page are meant within the roots. The typesetter writes a digest of each picture's
# address into the PDF, so an address that tells where a folder lies makes other bytes on every machine.
HOST = "report"
BASE = f"file://{HOST}/"

MAX_BYTES = 40 * 1024 * 1024
_SHOWN = 120


class Refused(ValueError):  # noqa: N818 - it reads as the sentence it is
    """An address that a page may not draw on."""


@dataclass(frozen=True, slots=True)
class Gate:
    """Decides what a page may read.

    Attributes:
        roots: folders, resolved; a file is let through when its real path lies under one of them. A relative
            address is looked for in each, in this order.
        max_bytes: the largest file or data address let through.
        refused: a plain sentence for everything turned away, in the order it was asked for.
    """

    roots: tuple[Path, ...]
    max_bytes: int = MAX_BYTES
    refused: list[str] = field(default_factory=list)

    def check(self, url: str) -> Path | None:
        """Turn away what may not be read.

        Returns:
            The real path of a file, or None for a `data:` address, which carries its own content.

        Raises:
            Refused: not an allowed kind of address, outside of the folders, missing, or too large.
        """
        try:
            return self._examined(url)
        except Refused as refusal:
            if str(refusal) not in self.refused:
                self.refused.append(str(refusal))
            raise

    def _examined(self, url: str) -> Path | None:
        shown = url if len(url) <= _SHOWN else url[:_SHOWN] + "..."
        try:
            parts = urlsplit(url)
        except ValueError:
            raise Refused(f"{shown} is no address.") from None
        if parts.scheme == "data":
            if len(url) > self.max_bytes:
                raise Refused(f"{shown} is larger than {self.max_bytes} bytes.")
            return None
        if parts.scheme != "file" or parts.netloc not in ("", "localhost", HOST):
            raise Refused(f"{shown} is not a file on this machine; pages are made without a network.")
        return self._file(shown.removeprefix(BASE), parts)

    def _file(self, shown: str, parts: SplitResult) -> Path:
        try:
            real = self._real(parts)
        except (OSError, ValueError, RuntimeError):
            raise Refused(f"{shown} cannot be found.") from None
        if not any(real.is_relative_to(root) for root in self.roots):
            raise Refused(f"{shown} lies outside of the folders that pages may read.")
        if not real.is_file():
            raise Refused(f"{shown} is not a file.")
        if real.stat().st_size > self.max_bytes:
            raise Refused(f"{shown} is larger than {self.max_bytes} bytes.")
        return real

    def _real(self, parts: SplitResult) -> Path:
        """The file with all links followed; for a relative address the first root's that has it."""
        path = url2pathname(parts.path)
        if parts.netloc != HOST:
            return Path(path).resolve(strict=True)
        places = [root / path.lstrip("/") for root in self.roots]
        return next((place for place in places if place.exists()), places[0]).resolve(strict=True)


def url_fetcher(gate: Gate) -> "URLFetcher":
    """A fetcher for the typesetter that asks the gate first: for styles, pictures, pictures in pictures."""
    from weasyprint.urls import URLFetcher, URLFetcherResponse  # noqa: PLC0415 - fonts must be set before

    class GatedFetcher(URLFetcher):  # type: ignore[misc]
        def fetch(self, url: str, headers: dict[str, str] | None = None) -> object:
            file = gate.check(url)
            if file is None:
                return super().fetch(url, headers)
            kind = _MEDIA_TYPES.get(file.suffix.lower(), "application/octet-stream")
            return URLFetcherResponse(file.as_uri(), file.read_bytes(), {"Content-Type": kind})

    return GatedFetcher(allowed_protocols=("data",), allow_redirects=False)


_MEDIA_TYPES = {
    ".css": "text/css",
    ".jpeg": "image/jpeg",
    ".jpg": "image/jpeg",
    ".png": "image/png",
    ".svg": "image/svg+xml",
    ".webp": "image/webp",
}
