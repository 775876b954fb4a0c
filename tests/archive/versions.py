"""Two versions of a small site, as plain files, for tests of what differs."""

import json
from typing import Any

RECORD = b"""\
opening: {mark: W 1}
frame: {pieces: {left: {overlap_mm: 80, holes_mm: [150, 600]}}}
concessions: [{rule: frame-overlap, reason: pipe}]
"""
SITE = b"id: s\nname: S\npeople: [{id: ada, name: Ada}, {id: ben, name: Ben}]\n"


def judged(outcomes: dict[str, dict[str, str]], edition: str = "2026-12", **more: Any) -> bytes:
    """Give findings.json: outcomes by opening and rule."""
    openings = [
        {"mark": mark, "judgements": [judgement(rule, outcome, **more) for rule, outcome in rules.items()]}
        for mark, rules in outcomes.items()
    ]
    rules = {"id": "common-practice", "edition": edition}
    return json.dumps({"made_with": "0.1", "rule_set": rules, "openings": openings}).encode()


def judgement(rule: str, outcome: str, found: str = "80 mm", line: int = 2) -> dict[str, Any]:
    """Give one judgement."""
    return {"rule": rule, "outcome": outcome, "findings": [{"found": found, "line": line}]}


FILES = {
    "site.yaml": SITE,
    "openings/W 1.yaml": RECORD,
    "findings/s.json": judged({"W 1": {"frame-overlap": "conforms", "beads": "conforms"}}),
    "photos/a.jpg": b"jpeg",
    "packs/s.pdf": b"%PDF",
    "afterwards/c-1.yaml": b"kind: claim\nmark: W 1\n",
    "facts.json": b"{}",
    "filing.json": b"{}",
}
