from random import Random

import pytest
from tests.inspection.asking import ask

from revealbook.inspection.on_limit import on_limit


def overlaps(random: Random, share: float, number: int = 40) -> dict[str, dict[str, object]]:
    """Openings whose bottom pieces run 87 mm past, give or take; a share of them is written as 80."""

    def read() -> float:
        return 80.0 if random.random() < share else float(max(80, round(random.gauss(87, 1))))

    sides = [f"frame.pieces.bottom.overlap_{side}_mm" for side in ("left", "right")]
    return {f"W-{n:02}": {side: read() for side in sides} for n in range(number)}


def test_a_heap_exactly_on_the_limit_is_asked_about() -> None:
    (found,) = ask(on_limit, overlaps(Random(1), 0.5))
    assert found.facts["rule"] == "frame-overlap"
    assert found.facts["limit"] == 80
    assert found.chance is not None
    assert found.chance < 0.01
    assert len(found.spots) == found.facts["on"]


def test_a_smooth_scatter_that_reaches_the_limit_is_not() -> None:
    assert ask(on_limit, overlaps(Random(1), 0.02)) == []


def test_who_aims_at_the_limit_and_hits_it_is_not_asked() -> None:
    random = Random(1)
    side = "frame.pieces.bottom.overlap_left_mm"
    assert ask(on_limit, {f"W-{n:02}": {side: float(round(random.gauss(80, 1)))} for n in range(40)}) == []


def test_who_reads_to_five_millimetres_is_not_asked() -> None:
    random = Random(1)
    side = "frame.pieces.bottom.overlap_left_mm"
    read = {f"W-{n:02}": {side: float(5 * round(random.gauss(83, 2) / 5))} for n in range(40)}
    assert ask(on_limit, read) == []


@pytest.mark.parametrize("seed", range(5))
def test_readings_that_some_take_to_five_millimetres_are_not_asked_about(seed: int) -> None:
    random = Random(seed)
    sides = [f"frame.pieces.bottom.overlap_{side}_mm" for side in ("left", "right")]

    def read() -> float:
        step = random.choice((1, 1, 5))
        return float(step * round(random.gauss(83, 2) / step))

    assert ask(on_limit, {f"W-{n:02}": {side: read() for side in sides} for n in range(40)}) == []
