"""Whether the lot of a drawn sample is accepted, by the openings that were measured again."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from revealbook.inspection.compare import OpeningCompared
from revealbook.inspection.sample import Sample

Decision = Literal["accepted", "rejected", "open"]


@dataclass(frozen=True, slots=True)
class LotResult:
    """What the sample says of its lot.

    Attributes:
        sample: the sample as drawn.
        nonconforming: openings of the sample that count as nonconforming.
        conforming: openings of the sample that were inspected and do not.
        missing: openings of the sample that were not measured again, or in which nothing could be decided.
        beside: openings measured again that were not drawn; they do not count.
        decision: accepted, rejected, or open as long as what is missing could change it.
    """

    sample: Sample
    nonconforming: tuple[str, ...]
    conforming: tuple[str, ...]
    missing: tuple[str, ...]
    beside: tuple[str, ...]
    decision: Decision


def lot_result(sample: Sample, compared: Iterable[OpeningCompared]) -> LotResult:
    """Accept or reject a lot against the numbers of its plan.

    An opening is nonconforming if one of its readings differs from the record, or if a rule does not conform
    by the inspector's value. The lot is rejected as soon as the rejection number is reached, and accepted
    once no missing opening could reach it.
    """
    found = {one.mark: one for one in compared if one.inspected}
    drawn = sample.drawn
    bad = tuple(mark for mark in drawn if mark in found and found[mark].nonconforming)
    good = tuple(mark for mark in drawn if mark in found and not found[mark].nonconforming)
    missing = tuple(mark for mark in drawn if mark not in found)
    beside = tuple(mark for mark in found if mark not in drawn)
    decision: Decision = "open"
    if len(bad) >= sample.plan.reject:
        decision = "rejected"
    elif len(bad) + len(missing) <= sample.plan.accept:
        decision = "accepted"
    return LotResult(sample, bad, good, missing, beside, decision)
