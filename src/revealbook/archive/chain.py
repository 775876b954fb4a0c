"""The chain of heads: one number for a site's whole history, which nobody can change unseen.

The head of a version stands for its content and for all versions before it. Whoever noted a head, on paper
for instance, can tell later whether any of it was rewritten or taken back.
"""

from collections.abc import Iterable, Mapping
from hashlib import sha256

BEFORE_THE_FIRST = "0" * 64
"""Stands for the head before the first version."""


def head_text(before: str, site: str, number: int, state: Mapping[str, str]) -> str:
    """Give the text whose SHA-256 is the head of a version, so that it can also be made by hand.

    Args:
        before: the head of the version before; 64 zeros for the first.
        site: the site's id.
        number: the version's number, from 1.
        state: SHA-512 of each file by logical path.

    Returns:
        Lines that each end with a line feed: the head before, the site, the number, then for each file in
        order of path (by code point) its digest, two blanks and its path.
    """
    lines = (before, site, str(number), *(f"{state[path]}  {path}" for path in sorted(state)))
    return "".join(f"{line}\n" for line in lines)


def head(before: str, site: str, number: int, state: Mapping[str, str]) -> str:
    """Give the head of a version: SHA-256, in hexadecimal digits, of `head_text` in UTF-8."""
    return sha256(head_text(before, site, number, state).encode()).hexdigest()


def heads(site: str, states: Iterable[Mapping[str, str]]) -> tuple[str, ...]:
    """Give the heads of all versions, from the first one."""
    found = [BEFORE_THE_FIRST]
    for number, state in enumerate(states, 1):
        found.append(head(found[-1], site, number, state))
    return tuple(found[1:])
