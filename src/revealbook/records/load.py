"""The step: a site folder to a site, its records, and everything that keeps them from being used."""

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from revealbook.records.first_format import read_record
from revealbook.records.opening import Opening
from revealbook.records.part import photos_named
from revealbook.records.record import Record, Sheet, SiteFile
from revealbook.records.references import unknown_references
from revealbook.records.site import Site
from revealbook.source.place import Place
from revealbook.source.problem import Problem
from revealbook.source.read import Document
from revealbook.source.validate import Model, validate

SITE_FILE = "site.yaml"
OPENINGS = "openings"
PHOTOS = "photos"
OVERLAYS = "rules"
_ENDINGS = frozenset({".yaml", ".yml"})


@dataclass(frozen=True, slots=True)
class Folder:
    """A site folder, with what lies in it.

    Attributes:
        path: the folder.
        records: its record files, in order of name.
        overlays: its overlay files, in order of name.
        photos: files below photos/, as records name them; None if they are not to be looked for.
    """

    path: Path
    records: tuple[Path, ...]
    overlays: tuple[Path, ...]
    photos: frozenset[str] | None

    def shown(self, file: Path) -> str:
        """Give a file's path from the folder, as places show it."""
        return file.relative_to(self.path).as_posix()


def look_into(path: Path) -> Folder | Problem:
    """Look what a site folder holds, without reading it."""
    if not (path / SITE_FILE).is_file():
        code = "no_site_file" if path.is_dir() else "no_such_folder"
        return Problem(Place(str(path)), code, {"file": SITE_FILE})
    photos = path / PHOTOS
    names = (file.relative_to(photos).as_posix() for file in photos.rglob("*") if file.is_file())
    return Folder(path, _yaml_files(path / OPENINGS), _yaml_files(path / OVERLAYS), frozenset(names))


def _yaml_files(folder: Path) -> tuple[Path, ...]:
    """Find all YAML files below a folder, so that none is left out for its ending or place."""
    found = (file for file in folder.rglob("*") if file.suffix.casefold() in _ENDINGS)
    return tuple(sorted(file for file in found if file.is_file() and not _hidden(file.relative_to(folder))))


def _hidden(path: Path) -> bool:
    return any(part.startswith(".") for part in path.parts)


def load_site(folder: Folder) -> SiteFile | tuple[Problem, ...]:
    """Read site.yaml."""
    loaded = _load(Site, folder, folder.path / SITE_FILE)
    if not isinstance(loaded[0], Site):
        return loaded[1]
    site, sheet = loaded[0], loaded[1]
    repeated = tuple(_repeated_ids(site, sheet))
    return repeated or SiteFile(site, sheet)


def load_records(folder: Folder, site: Site) -> Iterator[Record | tuple[Problem, ...]]:
    """Read the records one by one, in order of name.

    Each is checked against the site's names, the photographs present and the marks before it; one with any
    fault is given as its faults, never as half a record.
    """
    marks: dict[str, str] = {}
    faults: dict[str, str | None] = {}
    for file in folder.records:
        loaded = _load(Opening, folder, file)
        if not isinstance(loaded[0], Opening):
            yield loaded[1]
            continue
        record = Record(loaded[0], loaded[1])
        problems = [*unknown_references(record, site, folder.photos), *_unusable(record, folder, faults)]
        first = marks.setdefault(record.opening.mark, record.sheet.file)
        if first != record.sheet.file:
            facts = {"name": record.opening.mark, "first": first}
            problems.append(Problem(record.sheet.place(("opening", "mark")), "repeated_mark", facts))
        yield tuple(sorted(problems, key=lambda problem: problem.place)) or record


def _unusable(record: Record, folder: Folder, faults: dict[str, str | None]) -> Iterator[Problem]:
    """Give a problem for each photograph that is there and cannot be opened; `faults` are those known."""
    for path, photo in photos_named(record.opening):
        if folder.photos is None or photo.file not in folder.photos:
            continue
        if photo.file not in faults:
            from revealbook.source.picture import fault_of  # noqa: PLC0415 - no photographs, no decoder

            faults[photo.file] = fault_of(folder.path / PHOTOS / photo.file)
        if fault := faults[photo.file]:
            yield Problem(record.sheet.place((*path, "file")), fault, {"file": photo.file})


def _load(
    model: type[Model], folder: Folder, file: Path
) -> tuple[Model, Sheet] | tuple[None, tuple[Problem, ...]]:
    document = read_record(file, folder.shown(file))
    if not isinstance(document, Document):
        return None, (document,)
    valid = validate(model, document)
    return (None, valid) if isinstance(valid, tuple) else (valid, Sheet.of(document))


def _repeated_ids(site: Site, sheet: Sheet) -> Iterator[Problem]:
    lists: dict[tuple[str, ...], Any] = {("people",): site.people, ("instruments",): site.instruments}
    lists |= {("products", name): getattr(site.products, name) for name in type(site.products).model_fields}
    for loc, things in lists.items():
        seen: set[str] = set()
        for number, thing in enumerate(things):
            if thing.id in seen:
                yield Problem(sheet.place((*loc, number, "id")), "repeated_id", {"name": thing.id})
            seen.add(thing.id)
