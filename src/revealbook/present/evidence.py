"""What a pack carries inside itself, and its fingerprint."""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from hashlib import sha256
from typing import Any, Literal

from revealbook.present.export import compact, findings
from revealbook.present.words import N_, words_in
from revealbook.rules.judged import JudgedSite

FOLDER = "__"
"""Stands for a folder's slash in the names of embedded files."""
_AMBIGUOUS = re.compile(r"_(?=[_/])|(?<=[_/])_")
"""Underscores that could be taken for a folder's slash; they are written as %5F."""
Kind = Literal["site", "record", "rules", "findings", "volumes"]


_DESCRIPTIONS: dict[Kind, str] = {
    "site": N_("Site file as filed"),
    "record": N_("Record of an opening as filed"),
    "rules": N_("Rules in force"),
    "findings": N_("Findings as judged"),
    "volumes": N_("Volumes of this pack"),
}


_RELATIONSHIPS: dict[Kind, Literal["Data", "Supplement"]] = {
    "rules": "Supplement",
    "findings": "Data",
    "volumes": "Data",
}


@dataclass(frozen=True, slots=True)
class Carried:
    """A file that a pack carries.

    Attributes:
        path: its path, as in the site folder or below the rule sets.
        content: its bytes, exactly as read.
        kind: what it is.
    """

    path: str
    content: bytes
    kind: Kind

    @property
    def name(self) -> str:
        """Its name inside the PDF, where there are no folders."""
        escaped = _AMBIGUOUS.sub("%5F", self.path.replace("%", "%25"))
        return escaped.replace("/", FOLDER)

    @property
    def digest(self) -> str:
        """SHA-256 of its bytes."""
        return sha256(self.content).hexdigest()

    @property
    def description(self) -> str:
        """What it is, in English; translated where it is shown, in the list of attachments."""
        return _DESCRIPTIONS[self.kind]

    @property
    def media_type(self) -> str:
        """Its media type."""
        return "application/yaml" if self.path.endswith((".yaml", ".yml")) else "application/json"

    @property
    def relationship(self) -> Literal["Source", "Data", "Supplement"]:
        """What it is to the pages (ISO 19005-3, annex E)."""
        return _RELATIONSHIPS.get(self.kind, "Source")


def path_of(name: str) -> str:
    """Give back the path of a carried file from its name inside the PDF."""
    return name.replace(FOLDER, "/").replace("%5F", "_").replace("%25", "%")


def evidence(site: JudgedSite) -> tuple[Carried, ...]:
    """Give all that a pack carries: site file, records, rules in force, findings; in order of path."""
    carried = [Carried(site.site.sheet.file, site.site.sheet.raw, "site")]
    carried += [Carried(one.record.sheet.file, one.record.sheet.raw, "record") for one in site.openings]
    carried += [Carried(file.name, file.raw, "rules") for file in site.rule_set.files]
    carried.append(Carried("findings.json", findings_json(site), "findings"))
    return tuple(sorted(carried, key=lambda file: file.path))


def findings_json(site: JudgedSite) -> bytes:
    """Give the findings as they are embedded: English, a judgement a line, same findings, same bytes."""
    return written(findings(site, words_in("en")))


def written(plain: dict[str, Any]) -> bytes:
    """Write findings, a judgement a line."""
    openings = (_in_lines(one, "judgements", map(compact, one["judgements"])) for one in plain["openings"])
    return f"{_in_lines(plain, 'openings', openings)}\n".encode()


def _in_lines(plain: dict[str, Any], key: str, items: Iterable[str]) -> str:
    """Write plain data with the items of one key last, a line each."""
    head, lines = compact({name: value for name, value in plain.items() if name != key}), ",\n".join(items)
    return f'{head[:-1]},"{key}":[\n{lines}\n]}}'


def fingerprint(carried: tuple[Carried, ...]) -> str:
    """Give the fingerprint of a pack: SHA-256 over digests and paths of what it carries, in order of path.

    A PDF cannot hold its own digest; this one stands on its cover, and anybody can compute it again from the
    files inside.
    """
    in_order = sorted(carried, key=lambda file: file.path)
    lines = (f"{file.digest}  {file.path}\n" for file in in_order)
    return sha256("".join(lines).encode()).hexdigest()


def short(whole: str) -> str:
    """Give a fingerprint's first 16 digits in groups of four, as people compare them."""
    return " ".join(whole[start : start + 4] for start in range(0, 16, 4))
