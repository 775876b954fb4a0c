import pytest

from revealbook.measures.physics.support_reactions import PointLoad, SpreadLoad, support_reactions_n


def test_the_worked_example_of_the_docs() -> None:
    """docs/calculations/loads.md: supports at 150 and 1050 mm; 400 N at 300, 300 N at 900, 120 N spread."""
    left, right = support_reactions_n(
        [150, 1050], [PointLoad(300, 400), PointLoad(900, 300), SpreadLoad(0, 1200, 120)]
    )
    assert left == pytest.approx(400 * 750 / 900 + 300 * 150 / 900 + 60)
    assert (left, right) == pytest.approx((443.333, 376.667), abs=5e-4)


def test_a_load_over_a_support_goes_there_whole() -> None:
    assert support_reactions_n([100, 900], [PointLoad(100, 50)]) == (50, 0)
    assert support_reactions_n([100, 900], [PointLoad(900, 50)]) == (0, 50)
    assert support_reactions_n([100, 500, 900], [PointLoad(500, 50)]) == (0, 50, 0)


def test_a_load_beyond_the_last_support_lifts_the_other_one() -> None:
    assert support_reactions_n([200, 1000], [PointLoad(0, 80)]) == pytest.approx((100, -20))
    assert support_reactions_n([200, 1000], [PointLoad(1200, 80)]) == pytest.approx((-20, 100))


def test_with_three_supports_the_two_beside_a_load_share_it() -> None:
    assert support_reactions_n([0, 600, 1200], [PointLoad(150, 100)]) == pytest.approx((75, 25, 0))
    assert support_reactions_n([0, 600, 1200], [PointLoad(750, 100)]) == pytest.approx((0, 75, 25))


def test_an_even_load_gives_inner_supports_twice_the_outer_ones() -> None:
    assert support_reactions_n([0, 500, 1000], [SpreadLoad(0, 1000, 400)]) == pytest.approx((100, 200, 100))


def test_a_spread_load_may_cover_part_of_the_sill_and_reach_out() -> None:
    assert support_reactions_n([0, 500, 1000], [SpreadLoad(600, 800, 100)]) == pytest.approx((0, 60, 40))
    assert support_reactions_n([200, 1000], [SpreadLoad(0, 200, 80)]) == pytest.approx((90, -10))


def test_loads_add_up() -> None:
    one, other = PointLoad(200, 70), SpreadLoad(100, 700, 90)
    together = support_reactions_n([0, 400, 900], [one, other])
    apart = zip(
        support_reactions_n([0, 400, 900], [one]), support_reactions_n([0, 400, 900], [other]), strict=True
    )
    assert together == pytest.approx([a + b for a, b in apart])


def test_supports_may_be_many_and_unequal() -> None:
    loads = [SpreadLoad(0, 1000, 1000)]
    assert support_reactions_n([0, 200, 500, 1000], loads) == pytest.approx((100, 250, 400, 250))


def test_without_load_nothing_is_carried() -> None:
    assert support_reactions_n([0, 1000], []) == (0, 0)


@pytest.mark.parametrize(
    ("supports_mm", "load", "sentence"),
    [
        ([600], PointLoad(600, 1), "at least two supports are needed, not 1"),
        ([], PointLoad(600, 1), "at least two supports are needed, not 0"),
        ([900, 100], PointLoad(600, 1), "supports_mm must rise, but 100 follows 900"),
        ([100, 100], PointLoad(600, 1), "supports_mm must rise, but 100 follows 100"),
        ([100, float("nan")], PointLoad(600, 1), "next_support_mm must be a finite number"),
        ([100, 900], PointLoad(600, -1), "load_n must not be below zero"),
        ([100, 900], PointLoad(float("nan"), 1), "at_mm must be a finite number"),
        ([100, 900], SpreadLoad(0, 0, 1), "must end beyond its start, but 0 follows 0"),
        ([100, 900], SpreadLoad(0, float("inf"), 1), "to_mm must be a finite number"),
        ([100, 900], SpreadLoad(0, 100, -1), "load_n must not be below zero"),
    ],
)
def test_nonsense_is_refused(supports_mm: list[float], load: PointLoad | SpreadLoad, sentence: str) -> None:
    with pytest.raises(ValueError, match=sentence):
        support_reactions_n(supports_mm, [load])
