"""Packs that agree with themselves, typeset in no time: every text that must stand there, in plain lines."""

from collections.abc import Sequence
from hashlib import sha256
from html import escape
from io import BytesIO
from pathlib import Path

import pikepdf
import weasyprint
from tests.made import judged

from revealbook.making.pack import pack_of
from revealbook.making.volumes import file_name
from revealbook.present.page_text import expected_text
from revealbook.present.present import Pack
from revealbook.present.volumes import VolumeLine, groups, index_of
from revealbook.present.words import words_in


def typeset(pack: Pack, target: Path) -> Path:
    """Write a presented pack in plain lines, with everything it carries."""
    lines = (text for _, texts in expected_text(pack) for text in texts if text)
    html = "".join(f"<p>{escape(line)}</p>" for line in lines)
    with pikepdf.open(BytesIO(weasyprint.HTML(string=html).write_pdf())) as pdf:
        for file in pack.carried:
            pdf.attachments[file.name] = pikepdf.AttachedFileSpec(pdf, file.content, filename=file.name)
        target.parent.mkdir(parents=True, exist_ok=True)
        pdf.save(target, deterministic_id=True)
    return target


def whole_pack(site: Path) -> Path:
    """Make the pack of a site where it is looked for."""
    found = judged(site)
    return typeset(pack_of(found), site / "pack" / f"{found.site.site.id}.pdf")


def in_volumes(site: Path) -> list[Path]:
    """Make a site's volumes by building, and their index; the index comes last."""
    found = judged(site)
    words, site_id = words_in(found.site.site.language), found.site.site.id
    files, lines = [], []
    for group in groups(found, "building", words):
        pack = pack_of(group.judged)
        file = typeset(pack, site / "pack" / file_name(site_id, group.name))
        digest = sha256(file.read_bytes()).hexdigest()
        openings = len(group.judged.openings)
        lines.append(VolumeLine(group.title, file.name, openings, 1, pack.fingerprint, digest))
        files.append(file)
    index = index_of(pack_of(found), lines, words)
    return [*files, typeset(index, site / "pack" / f"{site_id}-index.pdf")]


def variants(pack: Path, folder: Path, number: int) -> Sequence[Path]:
    """Copy a pack as often as asked; each copy says the same in other bytes."""
    folder.mkdir(parents=True, exist_ok=True)
    files = []
    for one in range(number):
        with pikepdf.open(pack) as pdf:
            pdf.Root.Variant = one
            pdf.save(folder / f"{one}.pdf", deterministic_id=True)
        files.append(folder / f"{one}.pdf")
    return files
