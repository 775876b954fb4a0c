"""The base of every model, and what all sections of a record share."""

from collections.abc import Iterator
from typing import Any, Literal, NamedTuple

from pydantic import BaseModel, ConfigDict, Field

from revealbook.records.quantities import FileName, Many, Mark, Moment, Text


class Part(BaseModel):
    """A piece of a site file or record: frozen, strict, and refusing keys that it does not know."""

    model_config = ConfigDict(frozen=True, strict=True, extra="forbid")


def entry(meaning: str, example: Any) -> Any:
    """Make a key that may be missing; missing means *not shown*.

    Args:
        meaning: what the fitter enters.
        example: what it may look like.
    """
    return Field(default=None, description=meaning, examples=[example])


def required(meaning: str, example: Any) -> Any:
    """Make a key without which the file makes no sense (a name, a mark)."""
    return Field(description=meaning, examples=[example])


def listed(meaning: str, example: Any) -> Any:
    """Make a list that is empty if it is left out, where leaving it out says that there is none."""
    return Field(default=(), description=meaning, examples=[[example]])


Format = Literal[2]
"""The format of site files and records; files of format 1 are brought into it as they are read."""


def file_format() -> Any:
    """Make the key that says which format a file is written in."""
    return Field(
        default=2,
        description="Format of this file; it stands first. A file without it is read as format 1.",
        examples=[2],
    )


class Photo(Part):
    """A photograph named from a record."""

    file: FileName = required("File below photos/: JPEG, PNG, WebP or HEIC.", "W-2.07-beads.jpg")
    shows: Text | None = entry("What it shows, in a few words.", "two beads on the back of the bottom piece")


class Section(Part):
    """What every section of a record may say of itself."""

    by: Mark | None = entry("Who did the work or took the readings: an id from people in site.yaml.", "ada")
    at: Moment | None = entry("When the readings were taken.", "2026-11-20T09:10+01:00")
    photos: Many[Photo] | None = entry(
        "Photographs taken before the work was covered.",
        [{"file": "W-2.07-beads.jpg", "shows": "beads on the bottom piece"}],
    )
    instruments: Many[Mark] | None = entry(
        "Instruments used here, as listed in site.yaml; their uncertainty then counts.", ["tape-1"]
    )
    note: Text | None = entry("Anything else worth knowing in ten years.", "scaffold board removed")


Loc = tuple[str | int, ...]
"""Keys and positions that lead to a part of a record."""


class Named(NamedTuple):
    """A photograph named from a record, with its place there."""

    path: Loc
    photo: Photo


def parts(part: BaseModel, path: Loc = ()) -> Iterator[tuple[Loc, BaseModel]]:
    """Give a model and every model inside it with its place, in the order of the record."""
    yield path, part
    for key, value in part.__dict__.items():
        many = isinstance(value, tuple)
        for number, item in enumerate(value if many else (value,)):
            if isinstance(item, BaseModel):
                yield from parts(item, (*path, key, number) if many else (*path, key))


def photos_named(part: BaseModel) -> Iterator[Named]:
    """Give every photograph that a record, or a part of one, names with its place."""
    for path, inside in parts(part):
        if isinstance(inside, Photo):
            yield Named(path, inside)
