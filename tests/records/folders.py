"""Site folders made for a test from plain text."""

from collections.abc import Mapping
from pathlib import Path

SITE = """\
id: s
name: S
rules: {set: common-practice, edition: 2026-12}
people: [{id: ada, name: Ada Laibung, roles: [installer]}, {id: ben, name: Ben Sturz, roles: [foreman]}]
instruments: [{id: tape-1, measures: length, uncertainty: 1}]
products:
  adhesives: [{id: frame-bond}]
  foams: [{id: joint-foam}]
  tapes: [{id: inner-tape}]
  fixings: [{id: frame-screw}]
  profiles: [{id: frame-profile}]
"""


def folder_of(path: Path, files: Mapping[str, str], site: str | None = SITE) -> Path:
    """Write a site folder: its files by their path, and site.yaml."""
    for name, text in files.items():
        (path / name).parent.mkdir(parents=True, exist_ok=True)
        (path / name).write_text(text, encoding="utf-8")
    if site is not None:
        (path / "site.yaml").write_text(site, encoding="utf-8")
    return path


def record(mark: str, rest: str = "") -> str:
    """Give a record's text."""
    return f"opening: {{mark: {mark}}}\n{rest}"
