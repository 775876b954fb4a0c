"""A new site folder: site file, one blank record, and folders for photographs and the site's own rules."""

import json
import re
from collections.abc import Mapping
from errno import EEXIST
from os import strerror
from pathlib import Path
from unicodedata import normalize

from revealbook.records.blank import blank
from revealbook.records.load import OPENINGS, OVERLAYS, PHOTOS, SITE_FILE
from revealbook.records.opening import Opening
from revealbook.records.schema import IN_A_SITE, WRITTEN, schema
from revealbook.records.site import Site

SCHEMAS = ".schema"
_FILE_NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9._ +-]{0,59}")
"""A mark that can name a file as well."""
_MODELINE = "# yaml-language-server: $schema={up}" + SCHEMAS + "/{name}.schema.json\n"
_SITE_HEAD = "# The site: what is the same for all openings. Leave empty what is not known.\n"
_RECORD_HEAD = (
    "# One record per opening, in the order of the work. Enter what was measured and seen, nothing else:\n"
    "# what stays empty counts as not shown. Lengths in mm, times with their zone.\n"
)


def begin(folder: Path, site: str, mark: str) -> tuple[Path, ...]:
    """Make a site folder; nothing that is there already is touched.

    Args:
        folder: where; made if it is not there.
        site: short permanent name of the site.
        mark: mark of the first opening.

    Returns:
        The files made.

    Raises:
        FileExistsError: the folder holds a site already, or is a file.
        ValueError: the mark or name can be none.
    """
    for what, name in (("mark of an opening", mark), ("name of a site", site)):
        if not _FILE_NAME.fullmatch(name):
            raise ValueError(
                f"“{name}” cannot be the {what}: letters, digits, spaces and . _ - + only, beginning with a "
                "letter or digit, at most 60."
            )
    if (folder / SITE_FILE).exists():
        raise FileExistsError(EEXIST, strerror(EEXIST), str(folder / SITE_FILE))
    folder.mkdir(parents=True, exist_ok=True)
    for room in (OPENINGS, PHOTOS, OVERLAYS, SCHEMAS):
        (folder / room).mkdir(exist_ok=True)
    texts = {folder / SCHEMAS / f"{name}.schema.json": schema_text(name) for name in IN_A_SITE}
    texts[folder / SITE_FILE] = _MODELINE.format(up="", name="site") + _SITE_HEAD + _blank_site(site)
    texts[record_file(folder, mark)] = blank_record({"opening": {"mark": mark}})
    made = tuple(file for file in texts if not file.exists())
    for file in made:
        file.write_text(texts[file], encoding="utf-8")
    return made


def record_file(folder: Path, mark: str) -> Path:
    """Give the file of an opening's record."""
    return folder / OPENINGS / f"{mark}.yaml"


def site_id(name: str) -> str:
    """Make a short permanent name of a site out of a folder's name: `Larch Court` gives `larch-court`."""
    ascii_only = normalize("NFKD", name).encode("ascii", "ignore").decode()
    return "-".join(re.findall(r"[a-z0-9]+", ascii_only.lower()))[:60].rstrip("-") or "site"


def schema_text(name: str) -> str:
    """Give the schema of a kind of file as JSON text."""
    return json.dumps(schema(WRITTEN[name], name), indent=1, ensure_ascii=False) + "\n"


def blank_record(known: dict[str, object], planned: Mapping[tuple[str, ...], str] | None = None) -> str:
    """Give a blank record with its heading, what is known filled in, and what is planned in comments."""
    begun = {"frame": {"bonding": [{}]}, **known}
    return _MODELINE.format(up="../", name="record") + _RECORD_HEAD + blank(Opening, begun, planned)


def _blank_site(site_id: str) -> str:
    known = {
        "id": site_id,
        "name": site_id,
        "rules": {"set": "common-practice", "edition": "2026-12"},
    }
    return blank(Site, known)
