"""A new site folder: site file, one blank record, and folders for photographs and the site's own rules."""

import json
from pathlib import Path

from revealbook.records.blank import blank
from revealbook.records.load import OPENINGS, OVERLAYS, PHOTOS, SITE_FILE
from revealbook.records.opening import Opening
from revealbook.records.schema import WRITTEN, schema
from revealbook.records.site import Site

SCHEMAS = ".schema"
_MODELINE = "# yaml-language-server: $schema={up}" + SCHEMAS + "/{name}.schema.json\n"
_SITE_HEAD = "# The site: what is the same for all openings. Leave empty what is not known.\n"
_RECORD_HEAD = (
    "# One record per opening, in the order of the work. Enter what was measured and seen, nothing else:\n"
    "# what stays empty counts as not shown. Lengths in mm, times with their zone.\n"
)


def begin(folder: Path, site_id: str, mark: str) -> tuple[Path, ...]:
    """Make a site folder; nothing that is there already is touched.

    Args:
        folder: where; made if it is not there.
        site_id: short permanent name of the site.
        mark: mark of the first opening.

    Returns:
        The files made.

    Raises:
        FileExistsError: the folder holds a site already.
    """
    if (folder / SITE_FILE).exists():
        raise FileExistsError(folder / SITE_FILE)
    for name in (OPENINGS, PHOTOS, OVERLAYS, SCHEMAS):
        (folder / name).mkdir(parents=True, exist_ok=True)
    made = {folder / SCHEMAS / f"{name}.schema.json": schema_text(name) for name in WRITTEN}
    made[folder / SITE_FILE] = _MODELINE.format(up="", name="site") + _SITE_HEAD + _blank_site(site_id)
    made[folder / OPENINGS / f"{mark}.yaml"] = blank_record({"opening": {"mark": mark}})
    for file, text in made.items():
        file.write_text(text, encoding="utf-8")
    return tuple(made)


def schema_text(name: str) -> str:
    """Give the schema of a kind of file as JSON text."""
    return json.dumps(schema(WRITTEN[name], name), indent=1, ensure_ascii=False) + "\n"


def blank_record(known: dict[str, object]) -> str:
    """Give a blank record with its heading, and what is known filled in."""
    return _MODELINE.format(up="../", name="record") + _RECORD_HEAD + blank(Opening, known)


def _blank_site(site_id: str) -> str:
    known = {
        "id": site_id,
        "name": site_id,
        "language": "en",
        "paper": "A4",
        "keep_gps": False,
        "rules": {"set": "common-practice", "edition": "2026-11"},
    }
    return blank(Site, known)
