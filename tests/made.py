"""Packs for tests that need a really rendered one: made once, then copied and changed."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import Path

import pikepdf

from revealbook import api
from revealbook.making.pack import Packed
from revealbook.present.evidence import Carried
from revealbook.rules.judged import JudgedSite


@dataclass(frozen=True)
class Made:
    """A rendered pack, and what it was made from."""

    site: Path
    cache: Path
    pdf: Path
    packed: Packed


def judged(site: Path) -> JudgedSite:
    """Judge a site in which nothing is wrong with the files."""
    checked = api.check(site)
    assert checked.problems == ()
    assert checked.judged is not None
    return checked.judged


def make(site: Path, folder: Path) -> Made:
    """Render the pack of a site into a folder."""
    packed = api.pack(judged(site), site, folder / "cache", datetime.fromisoformat("2026-12-01T09:00+01:00"))
    assert isinstance(packed, Packed), packed
    target = folder / "pack.pdf"
    target.write_bytes(packed.pdf)
    return Made(site, folder / "cache", target, packed)


def few(found: JudgedSite, rules: int = 3) -> JudgedSite:
    """Keep the first rules only: much less to render."""
    openings = tuple(replace(one, judgements=one.judgements[:rules]) for one in found.openings)
    kept = replace(found.rule_set, rules=found.rule_set.rules[:rules])
    return replace(found, rule_set=kept, openings=openings)


def bare(carried: tuple[Carried, ...], target: Path) -> Path:
    """Write a PDF of one empty page that carries files: all that judging again needs but for the pages."""
    with pikepdf.new() as pdf:
        pdf.add_blank_page()
        for file in carried:
            pdf.attachments[file.name] = pikepdf.AttachedFileSpec(pdf, file.content, filename=file.name)
        pdf.save(target)
    return target


def changed(pack: Path, target: Path, change: Callable[[pikepdf.Pdf], None]) -> Path:
    """Copy a pack with a change to its PDF."""
    with pikepdf.open(pack) as pdf:
        change(pdf)
        pdf.save(target)
    return target


def file_changed(name: str, old: bytes, new: bytes) -> Callable[[pikepdf.Pdf], None]:
    """Replace bytes of an embedded file, which holds them."""

    def change(pdf: pikepdf.Pdf) -> None:
        stream = pdf.attachments[name].obj.EF.F
        content = stream.read_bytes()
        assert old in content
        stream.write(content.replace(old, new, 1))

    return change
