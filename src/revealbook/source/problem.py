"""A fault found while reading, as a value: what the sentence needs, not the sentence."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from revealbook.source.place import Place


@dataclass(frozen=True, slots=True)
class Problem:
    """Something that keeps a file from being used.

    Attributes:
        place: where it stands.
        code: its kind; `present.sentences` holds the words of each.
        facts: what the words need (the key, the value, what would be right).
    """

    place: Place
    code: str
    facts: Mapping[str, object] = field(default_factory=dict)
