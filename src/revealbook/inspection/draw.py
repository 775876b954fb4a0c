"""Drawing a sample of openings that anybody can draw again with any tool.

The openings are put in the order of the SHA-256 digests of their marks behind the seed, and the first ones
are the sample. No random generator takes part, so the same seed gives the same sample for ever.
"""

import hashlib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Literal, get_args

from revealbook.measures.physics.sampling import Plan
from revealbook.records.opening import Opening
from revealbook.rules.judged import JudgedSite

Key = Literal["elevation", "fitter", "building", "floor"]
KEYS: tuple[Key, ...] = get_args(Key)
"""What a lot can be divided by."""
Stratum = tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Candidate:
    """An opening of the lot, with what the lot may be divided by; empty where the record does not say."""

    mark: str
    building: str = ""
    floor: str = ""
    elevation: str = ""
    fitter: str = ""


@dataclass(frozen=True, slots=True)
class Chosen:
    """Which openings make the lot; None takes all."""

    building: str | None = None
    floor: str | None = None
    fitter: str | None = None

    def takes(self, one: Candidate) -> bool:
        """Whether an opening belongs to the lot."""
        wanted = ((self.building, one.building), (self.floor, one.floor), (self.fitter, one.fitter))
        return all(asked is None or asked == is_ for asked, is_ in wanted)


def candidate(opening: Opening) -> Candidate:
    """Give an opening as a member of a lot; its fitter made its frame, else set its window."""
    named = opening.opening
    makers = [part.by for part in (opening.frame, opening.window, opening.seals) if part and part.by]
    return Candidate(
        opening.mark, named.building or "", named.floor or "", named.elevation or "", next(iter(makers), "")
    )


def lot(site: JudgedSite, chosen: Chosen) -> tuple[Candidate, ...]:
    """Give the lot: the openings of a site, or those of a building, floor or fitter."""
    return tuple(filter(chosen.takes, (candidate(one.record.opening) for one in site.openings)))


def order(marks: Iterable[str], seed: int) -> tuple[str, ...]:
    """Put marks in drawing order: by the SHA-256 of the seed in decimal digits, a line feed and the mark.

    As UTF-8, without anything behind it; `sha256sum` gives the same digest.
    """
    return tuple(sorted(marks, key=lambda mark: (hashlib.sha256(f"{seed}\n{mark}".encode()).digest(), mark)))


def strata(members: Iterable[Candidate], by: tuple[Key, ...]) -> dict[Stratum, tuple[str, ...]]:
    """Divide a lot; one stratum for all if it is to be divided by nothing."""
    divided: dict[Stratum, list[str]] = {}
    for one in members:
        divided.setdefault(tuple(getattr(one, key) for key in by), []).append(one.mark)
    return {stratum: tuple(divided[stratum]) for stratum in sorted(divided)}


def allocate(sizes: Mapping[Stratum, int], total: int) -> dict[Stratum, int]:
    """Share a sample among strata in proportion to their sizes, at least one each where it is large enough.

    After that one each, the next place goes to the stratum that lags most behind its proportional share.

    Args:
        sizes: openings by stratum, each at least 1.
        total: openings to draw, at most all.
    """
    lot_size = sum(sizes.values())
    given = dict.fromkeys(sizes, 1 if total >= len(sizes) else 0)
    for _ in range(total - sum(given.values())):
        open_ = [stratum for stratum in sizes if given[stratum] < sizes[stratum]]
        lagging = max(open_, key=lambda stratum: total * sizes[stratum] / lot_size - given[stratum])
        given[lagging] += 1
    return given


def draw(members: tuple[Candidate, ...], plan: Plan, seed: int, by: tuple[Key, ...] = ()) -> tuple[str, ...]:
    """Draw the sample of a plan from a lot, divided as asked; in drawing order."""
    divided = strata(members, by)
    places = allocate({stratum: len(marks) for stratum, marks in divided.items()}, plan.sample_size)
    taken = {mark for stratum, marks in divided.items() for mark in order(marks, seed)[: places[stratum]]}
    return tuple(mark for mark in order((one.mark for one in members), seed) if mark in taken)
