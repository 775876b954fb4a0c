"""A record or site file together with the places of its values."""

from dataclasses import dataclass

from revealbook.records.opening import Opening
from revealbook.records.site import Site
from revealbook.source.follow import Path, at
from revealbook.source.place import Place
from revealbook.source.read import Document, Marks


@dataclass(frozen=True, slots=True)
class Sheet:
    """The places of one file.

    Attributes:
        file: the file as shown to the user.
        marks: the places of its values.
        raw: the file's bytes as they were read.
    """

    file: str
    marks: Marks
    raw: bytes

    @classmethod
    def of(cls, document: Document) -> "Sheet":
        """Keep a document's places and bytes and let its plain data go."""
        return cls(document.file, document.marks, document.raw)

    def place(self, path: Path) -> Place:
        """Give the place of the value at `path`, or of what should hold it."""
        return at(self.marks, path, self.file)


@dataclass(frozen=True, slots=True)
class Record:
    """One opening's record and where it stands."""

    opening: Opening
    sheet: Sheet


@dataclass(frozen=True, slots=True)
class SiteFile:
    """The site file and where it stands."""

    site: Site
    sheet: Sheet
