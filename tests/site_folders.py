"""Copies of the conforming site, changed as text, as somebody at the scaffold would change them."""

import shutil
from pathlib import Path

CONFORMING = Path(__file__).parent / "conforming"
RECORD = Path("openings") / "W-1.01.yaml"


def conforming(to: Path) -> Path:
    """Copy the conforming site to a folder."""
    return Path(shutil.copytree(CONFORMING, to))


def change(file: Path, old: str, new: str) -> None:
    """Replace a text in a file that holds it once."""
    text = file.read_text(encoding="utf-8")
    assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times in {file.name}"
    file.write_text(text.replace(old, new), encoding="utf-8")


def opening(site: Path, mark: str, *changes: tuple[str, str]) -> Path:
    """Add an opening: the conforming record under another mark, with texts replaced."""
    file = site / "openings" / f"{mark}.yaml"
    shutil.copy(CONFORMING / RECORD, file)
    for old, new in (("mark: W-1.01\n", f"mark: {mark}\n"), *changes):
        change(file, old, new)
    return file


SHORT_OVERLAP = (
    "length_mm: 2565\n      overlap_left_mm: 82\n      overlap_right_mm: 82\n",
    "length_mm: 2565\n      overlap_left_mm: 62\n      overlap_right_mm: 102\n",
)
"""The bottom piece's left end runs 62 mm past the opening."""
EARLY_TRIM = ("at: 2026-11-20T15:30+01:00, by: ada}", "at: 2026-11-20T12:00+01:00, by: ada}")
"""The foam is trimmed an hour after it was filled in."""
NOT_SOUND = ("  sound: true\n", "  sound:\n")
"""Nobody says whether the substrate is sound."""


ACCEPTED = "accepted_by: cleo, accepted_on: 2026-11-02"
"""What lets a change ask for less of a critical rule: Cleo is the clerk of works."""


def with_few_rules(site: Path, *kept: str) -> Path:
    """Retire all rules but a few by an overlay: a real site whose pack is quickly rendered."""
    from revealbook.rules.read import read_rules
    from revealbook.rules.rule_set import RuleSet

    rules = read_rules("common-practice", None)
    assert isinstance(rules, RuleSet)
    retired = "".join(
        f"  - {{id: {held.id}, retire: true, basis: {{kind: common practice}}, reason: few, {ACCEPTED}}}\n"
        for held in rules.rules
        if held.id not in kept
    )
    (site / "rules").mkdir()
    (site / "rules" / "few.yaml").write_text(f"overlay: few rules\nchange:\n{retired}", encoding="utf-8")
    return site


SMALL = """\
opening: {{mark: {mark}, building: {building}, floor: "{floor}", width_mm: 900, height_mm: 1200}}
survey:
  by: ada
  at: 2026-11-19T08:40+01:00
  sound: true
  photos: [{{file: {mark}.jpg, shows: wall}}]
frame:
  by: ada
  at: 2026-11-19T10:00+01:00
  pieces: {{bottom: {{overlap_left_mm: 82, overlap_right_mm: 81}}}}
"""


OWN_PACK = """\
{% extends "base.html" %}
{% block title %}{{ pack.site.name }}{% endblock %}
{% block body %}<h1>{{ pack.part or pack.site.name }}</h1>
{% for sheet in pack.sheets %}<p>{{ sheet.mark }}: {{ sheet.verdict.sentence }}</p>
{% for picture in sheet.pictures %}<img src="{{ photos[picture.file].address }}" alt="{{ picture.caption }}">
{% endfor %}{% endfor %}
{% for line in pack.volumes %}<p>{{ line.title }} {{ line.file }} {{ line.sha256 }}</p>{% endfor %}
{% endblock %}
"""
"""A pack of a page, for tests of what is made and kept rather than of what it says."""


def own_templates(site: Path) -> Path:
    """Give a site its own short pack and index."""
    (site / "report_templates").mkdir()
    for name in ("pack.html", "index.html"):
        (site / "report_templates" / name).write_text(OWN_PACK, encoding="utf-8")
    return site


def small_site(to: Path, places: dict[str, tuple[str, str]]) -> Path:
    """Make a site of short records and few rules, by mark in which building and on which floor."""
    from PIL import Image

    conforming(to)
    (to / RECORD).unlink()
    shutil.rmtree(to / "photos")
    (to / "photos").mkdir()
    with_few_rules(to, "substrate-sound", "frame-overlap")
    for number, (mark, (building, floor)) in enumerate(places.items()):
        text = SMALL.format(mark=mark, building=building, floor=floor)
        (to / "openings" / f"{mark}.yaml").write_text(text, encoding="utf-8")
        Image.new("RGB", (120, 90), (40 * number % 255, 90, 120)).save(to / "photos" / f"{mark}.jpg")
    return to
