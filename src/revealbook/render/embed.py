"""Files carried inside the PDF (PDF/A-3, ISO 19005-3, 6.8), each with what it is to the page.

The typesetter finds a file's relationship by the digest of its content, guesses its media type from its name
and dates it now. Here all three are stated by the caller and set by the file's name, which is unique.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from io import BytesIO
from itertools import pairwise
from typing import TYPE_CHECKING, Any, Literal

from revealbook.render.failure import RenderFailed

if TYPE_CHECKING:
    import weasyprint

Relationship = Literal["Source", "Data", "Alternative", "Supplement", "Unspecified"]


@dataclass(frozen=True, slots=True)
class Attachment:
    """One embedded file.

    Attributes:
        name: its name inside the PDF, unique there; flat, because readers of PDFs do not make folders.
        content: its bytes, kept as they are.
        description: what it is, for the reader's list of attachments.
        media_type: such as "application/yaml".
        relationship: what it is to the page (ISO 19005-3, annex E): its source, data shown in it, ...
        modified: when it was last changed, with zone.

    Raises:
        ValueError: the name is empty or holds a folder, the media type is none, the time has no zone.
    """

    name: str
    content: bytes
    description: str
    media_type: str
    relationship: Relationship
    modified: datetime

    def __post_init__(self) -> None:
        if not self.name.isprintable() or not self.name.strip(". ") or {"/", "\\"} & set(self.name):
            raise ValueError(f"{self.name!r} is no name for an embedded file.")
        if self.media_type.count("/") != 1 or not self.media_type.replace("/", "").isascii():
            raise ValueError(f"{self.media_type!r} is no media type such as application/yaml.")
        if self.modified.tzinfo is None:
            raise ValueError(f"The time of {self.name} has no zone.")


def in_order(attachments: Sequence[Attachment]) -> tuple[Attachment, ...]:
    """Sorted by name as the PDF's name tree wants it (ISO 32000-1, 7.9.6).

    Raises:
        ValueError: two files have one name.
    """
    ordered = tuple(sorted(attachments, key=lambda one: one.name.encode()))
    for one, following in pairwise(ordered):
        if one.name == following.name:
            raise ValueError(f"Two embedded files are called {one.name}.")
    return ordered


def for_typesetter(attachments: Sequence[Attachment]) -> "list[weasyprint.Attachment]":
    """The files as the typesetter takes them."""
    import weasyprint  # noqa: PLC0415 - fonts must be set before

    return [
        weasyprint.Attachment(
            file_obj=BytesIO(one.content),
            name=one.name,
            description=one.description,
            created=one.modified.astimezone(UTC),
            modified=one.modified.astimezone(UTC),
            relationship=one.relationship,
        )
        for one in attachments
    ]


def finisher(attachments: Sequence[Attachment]) -> Callable[[object, Any], None]:
    """What is done to the PDF before it is written: each file gets its own relationship and media type."""
    stated = {one.name: one for one in attachments}

    def finish(_document: object, pdf: Any) -> None:
        objects: list[Any] = [one for one in pdf.objects if isinstance(one, dict)]
        specifications = [one for one in objects if one.get("Type") == "/Filespec"]
        for specification in specifications:
            file = stated.get(specification["UF"].string)
            if file is None:
                raise RenderFailed(
                    f"The page itself attaches {specification['UF'].string}; hand it over instead."
                )
            specification["AFRelationship"] = f"/{file.relationship}"
            stream = pdf.objects[int(specification["EF"]["F"].split()[0])]
            stream.extra["Subtype"] = "/" + file.media_type.replace("/", "#2F")
        if specifications:
            # The typesetter lists each file twice.
            pdf.catalog["AF"][:] = [specification.reference for specification in specifications]

    return finish
