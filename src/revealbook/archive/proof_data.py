"""A proof for machines: what `prove --format json` prints and a statement carries; its heads read back."""

import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from revealbook import __version__
from revealbook.archive.fixity import Fault
from revealbook.archive.opened import NotAPack, read_carried
from revealbook.archive.proof import Proof
from revealbook.archive.refusal import Refused

PROOF_FILE = "proof.json"
"""What it is called inside a statement."""
_FORMAT = "revealbook-proof-1"


def proof_data(proof: Proof, copies: Mapping[str, Path]) -> dict[str, object]:
    """Give a proof as plain values, in English.

    Args:
        proof: the proof.
        copies: where else the content of damaged files was found, by SHA-512.
    """
    return {
        "format": _FORMAT,
        "made_with": __version__,
        "sound": proof.sound,
        "since": proof.since.isoformat(),
        "faults": [_fault(fault, copies) for fault in proof.faults],
        "sites": [
            {
                "site": site.site,
                "heads": [version.head for version in site.versions],
                "files": site.files,
                "packs": site.packs,
                "packs_with_signatures": site.signed,
                "packs_with_signatures_not_checked": site.unchecked,
                "versions_with_noted_heads": list(site.noted),
                "faults": [_fault(fault, copies) for fault in site.faults],
            }
            for site in proof.sites
        ],
    }


def _fault(fault: Fault, copies: Mapping[str, Path]) -> dict[str, object]:
    copy = copies.get(fault.sha512)
    return {
        "path": fault.path,
        "holds": fault.holds,
        "what": fault.what,
        "sha512": fault.sha512 or None,
        "copy": str(copy) if copy else None,
    }


def proof_json(proof: Proof, copies: Mapping[str, Path]) -> bytes:
    """Write a proof as JSON; as `proof_data`."""
    return (json.dumps(proof_data(proof, copies), ensure_ascii=False, indent=1) + "\n").encode()


def noted_heads(statement: Path) -> dict[str, str]:
    """Read the latest head of each site out of a statement.

    Args:
        statement: its PDF; it is only read.

    Raises:
        Refused: it is no statement, or the heads that it carries are not those printed on its pages.
    """
    try:
        opened = read_carried(statement)
    except NotAPack as reason:
        raise Refused(str(reason)) from reason
    try:
        heads = _latest(json.loads(opened.carried[PROOF_FILE]))
    except (KeyError, ValueError, TypeError) as error:
        raise Refused(f"{statement} carries no proof with heads; it is no statement.") from error
    printed = "".join("".join(opened.pages).split())
    for site, head in heads.items():
        if head not in printed:
            raise Refused(f"The head of {site} inside {statement} is not the one printed on its pages.")
    return heads


def _latest(told: Any) -> dict[str, str]:
    """Give the latest head of each site that has one, from plain values of a known format."""
    if told["format"] != _FORMAT:
        raise ValueError(told["format"])
    return {str(site["site"]): str(site["heads"][-1]) for site in told["sites"] if site["heads"]}
