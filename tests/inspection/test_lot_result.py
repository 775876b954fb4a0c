from types import SimpleNamespace
from typing import Any

from revealbook.inspection.draw import Candidate
from revealbook.inspection.lot_result import lot_result
from revealbook.inspection.sample import Sample, take_sample

FIVE = take_sample(tuple(Candidate(f"W-{n:02}") for n in range(40)), "s", "2.5", 1)
TWENTY = take_sample(tuple(Candidate(f"W-{n:02}") for n in range(60)), "s", "2.5", 1)


def found(sample: Sample, bad: int, missing: int = 0, blank: int = 0) -> Any:
    """Openings of a sample: some nonconforming, some in which nothing could be decided, some not there."""
    marks = sample.drawn[missing:]
    return [
        SimpleNamespace(mark=mark, nonconforming=number < bad, inspected=number < len(marks) - blank)
        for number, mark in enumerate(marks)
    ]


def test_a_lot_is_accepted_up_to_the_acceptance_number() -> None:
    assert lot_result(FIVE, found(FIVE, 0)).decision == "accepted"
    assert lot_result(TWENTY, found(TWENTY, 1)).decision == "accepted"


def test_a_lot_is_rejected_from_the_rejection_number() -> None:
    assert lot_result(FIVE, found(FIVE, 1)).decision == "rejected"
    result = lot_result(TWENTY, found(TWENTY, 2))
    assert result.decision == "rejected"
    assert result.nonconforming == TWENTY.drawn[:2]


def test_a_lot_stays_open_only_while_what_is_missing_could_change_it() -> None:
    assert lot_result(TWENTY, found(TWENTY, 2, missing=10)).decision == "rejected"
    assert lot_result(TWENTY, found(TWENTY, 0, missing=1)).decision == "accepted"
    assert lot_result(TWENTY, found(TWENTY, 0, missing=2)).decision == "open"
    assert lot_result(TWENTY, found(TWENTY, 1, missing=1)).decision == "open"


def test_an_opening_in_which_nothing_was_decided_was_not_measured() -> None:
    result = lot_result(FIVE, found(FIVE, 0, blank=1))
    assert result.decision == "open"
    assert result.missing == FIVE.drawn[-1:]


def test_an_opening_that_was_not_drawn_does_not_count() -> None:
    other = next(one.mark for one in FIVE.members if one.mark not in FIVE.drawn)
    beside: Any = SimpleNamespace(mark=other, nonconforming=True, inspected=True)
    result = lot_result(FIVE, [*found(FIVE, 0), beside])
    assert (result.decision, result.beside) == ("accepted", (other,))
