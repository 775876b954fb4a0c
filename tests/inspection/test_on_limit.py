from collections import Counter
from random import Random

import pytest
from tests.inspection.asking import ask

from revealbook.inspection.chance import heaped
from revealbook.inspection.on_limit import _heap, _on, _thinned, _used, on_limit


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


def test_a_reading_lies_on_a_grid_by_its_value_and_not_by_its_distance_from_the_limit() -> None:
    assert _on([0.3, 0.2], limit=80.2, step=0.5) == 1


def test_coarse_lines_give_up_what_their_share_explains_and_fine_ones_keep_everything() -> None:
    read = Counter({0: 10, 1: 3, -2: 1, 3: 7, 5: 4, 7: 2})
    assert _thinned(read, apart=5, share=0.5) == Counter({0: 3, 1: 3, -2: 1, 3: 7, 7: 2})


def test_a_grid_is_in_use_only_beyond_two_and_a_half_standard_deviations() -> None:
    # 25 readings taken on 1 mm: 5 of them lie on a 5 mm grid by coincidence, with a deviation of 2
    def taken(on: int) -> list[float]:
        return [5.0] * on + [1.0] * (25 - on)

    assert not _used(taken(10), limit=80, finest=1, step=5)
    assert _used(taken(11), limit=80, finest=1, step=5)


def test_a_heap_is_held_against_the_two_steps_beside_it_and_those_from_the_fourth_to_the_eighth() -> None:
    read = Counter({0: 9, 1: 2, 2: 1, 3: 50, 4: 1, 6: 1, 8: 2, 9: 50, -1: 50})
    assert _heap(read) == heaped(9, 3, 4, 4)
