"""The nearest known name to a misspelled one."""

from collections.abc import Iterable
from difflib import get_close_matches


def nearest(name: str, known: Iterable[str]) -> str | None:
    """Give the known name most like `name`, or None if none is much like it."""
    by_folded = {candidate.casefold(): candidate for candidate in known}
    found = get_close_matches(name.casefold(), by_folded, n=1, cutoff=0.6)
    return by_folded[found[0]] if found else None
