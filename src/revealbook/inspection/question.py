"""A question that records give rise to: no finding, no accusation, and no outcome changes by it."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime
from typing import Literal

from revealbook.measures.reading import Path
from revealbook.rules.judged import JudgedSite

Kind = Literal["repeated", "photo twice", "two places", "pace", "entry", "capture", "on limit"]


@dataclass(frozen=True, slots=True)
class Spot:
    """A place in an opening's record that a question points to."""

    mark: str
    path: Path


@dataclass(frozen=True, slots=True)
class Question:
    """Something worth asking.

    Attributes:
        kind: which kind of question.
        code: which sentence asks it.
        openings: the openings that it is about, in the order of the site.
        spots: where in their records to look.
        facts: what the sentence names.
        chance: how likely so much of it is at most on a site where all is honest, all comparisons of this
            kind counted; None where no model gives one.
        comparisons: how many comparisons that counts.
    """

    kind: Kind
    code: str
    openings: tuple[str, ...]
    spots: tuple[Spot, ...]
    facts: Mapping[str, object] = field(default_factory=dict)
    chance: float | None = None
    comparisons: int | None = None


@dataclass(frozen=True, slots=True)
class Photograph:
    """What a photograph's file says.

    Attributes:
        sha256: digest of its bytes.
        taken: when the camera says it was taken, without zone if it names none; None if it says nothing.
    """

    sha256: str
    taken: datetime | None


@dataclass(frozen=True, slots=True)
class Evidence:
    """What questions are asked of: the judged records, and the photographs by the name that records give."""

    site: JudgedSite
    photos: Mapping[str, Photograph] = field(default_factory=dict)
