import pytest

from revealbook.measures.physics.continuous_sill import continuous_reactions_n
from revealbook.measures.physics.support_reactions import SpreadLoad, support_reactions_n


def test_two_supports_share_by_the_lever_rule() -> None:
    load = SpreadLoad(100, 1700, 900)
    assert continuous_reactions_n([300, 1200], load) == support_reactions_n([300, 1200], [load])


def test_an_inner_support_gets_more_than_under_hinged_spans() -> None:
    load = SpreadLoad(0, 2000, 800)
    assert continuous_reactions_n([0, 1000, 2000], load) == pytest.approx((150, 500, 150))
    assert support_reactions_n([0, 1000, 2000], [load]) == pytest.approx((200, 400, 200))


@pytest.mark.parametrize(
    ("supports", "load"),
    [
        ([100, 700, 1900, 2300], SpreadLoad(0, 2500, 1000)),
        ([100, 700, 1900], SpreadLoad(400, 1500, 640)),
        ([0, 500, 900, 1700, 2400], SpreadLoad(-200, 1800, 10)),
        ([500, 800, 1000], SpreadLoad(0, 450, 70)),
    ],
)
def test_forces_and_moments_balance(supports: list[float], load: SpreadLoad) -> None:
    reactions = continuous_reactions_n(supports, load)
    assert sum(reactions) == pytest.approx(load.load_n)
    about_zero = sum(force * at for force, at in zip(reactions, supports, strict=True))
    assert about_zero == pytest.approx(load.load_n * (load.from_mm + load.to_mm) / 2)


def test_a_mirrored_sill_has_mirrored_reactions() -> None:
    straight = continuous_reactions_n([100, 700, 1900, 2300], SpreadLoad(0, 2600, 1000))
    turned = continuous_reactions_n([300, 700, 1900, 2500], SpreadLoad(0, 2600, 1000))
    assert turned == pytest.approx(tuple(reversed(straight)))


def test_one_support_or_supports_out_of_order_are_refused() -> None:
    with pytest.raises(ValueError, match="at least two"):
        continuous_reactions_n([100], SpreadLoad(0, 1000, 10))
    with pytest.raises(ValueError, match="rise"):
        continuous_reactions_n([100, 100], SpreadLoad(0, 1000, 10))
