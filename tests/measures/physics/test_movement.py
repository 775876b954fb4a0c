import pytest

from revealbook.measures.physics.movement import (
    expansion,
    joint_width_mm,
    thermal_movement_mm,
    worst_one_way_movement_mm,
)


def test_the_worked_example_of_the_docs() -> None:
    """docs/calculations/movement.md: PVC-U, 2.0 m, half to each side, filled at 15 C, -10 to 45 C in use."""
    per_k = expansion("PVC-U").per_k
    worst_mm = worst_one_way_movement_mm(per_k, 1000, installed_c=15, coldest_c=-10, warmest_c=45)
    assert worst_mm == pytest.approx(2.1)
    assert joint_width_mm(worst_mm, 25) == pytest.approx(8.4)


def test_the_colder_way_counts_when_it_is_the_longer_one() -> None:
    assert worst_one_way_movement_mm(1e-5, 1000, installed_c=30, coldest_c=-20, warmest_c=60) == (
        pytest.approx(0.5)
    )
    assert worst_one_way_movement_mm(1e-5, 1000, installed_c=0, coldest_c=-20, warmest_c=60) == (
        pytest.approx(0.6)
    )


def test_a_cooling_part_shrinks() -> None:
    assert thermal_movement_mm(24e-6, 2000, -50) == pytest.approx(-2.4)


def test_a_range_of_coefficients_is_taken_at_its_upper_end() -> None:
    for material in ("timber across the grain", "masonry", "GRP pultruded", "GRP mat"):
        found = expansion(material)
        assert found.lowest_per_k < found.per_k == found.highest_per_k


def test_a_coefficient_carries_its_source_and_how_sure_it_is() -> None:
    assert expansion("aluminium") == (
        "aluminium",
        24e-6,
        24e-6,
        24e-6,
        "EN 1991-1-5:2003 table C.1",
        "published (secondary source)",
    )
    assert expansion("GRP pultruded").tag == "from memory"


def test_a_joint_that_does_not_move_needs_no_width() -> None:
    assert joint_width_mm(0, 25) == 0


@pytest.mark.parametrize(
    ("sentence", "call"),
    [
        ("no material 'brass'; it has aluminium", lambda: expansion("brass")),
        ("expansion_per_k must not be below zero", lambda: thermal_movement_mm(-1e-6, 1, 1)),
        ("length_mm must be above zero", lambda: thermal_movement_mm(1e-6, 0, 1)),
        ("change_k must be a finite number", lambda: thermal_movement_mm(1e-6, 1, float("nan"))),
        (
            "installed_c must lie between -10 and 45, not 46",
            lambda: worst_one_way_movement_mm(1, 1, 46, -10, 45),
        ),
        ("installed_c must lie between", lambda: worst_one_way_movement_mm(1, 1, 0, 10, -10)),
        ("warmest_c must be a finite number", lambda: worst_one_way_movement_mm(1, 1, 0, 0, float("inf"))),
        ("capability_pct must be above zero", lambda: joint_width_mm(1, 0)),
        ("capability_pct must lie between 0 and 100", lambda: joint_width_mm(1, 101)),
        ("movement_mm must not be below zero", lambda: joint_width_mm(-1, 25)),
    ],
)
def test_nonsense_is_refused_in_a_plain_sentence(sentence: str, call: object) -> None:
    assert callable(call)
    with pytest.raises(ValueError, match=sentence):
        call()


def test_a_steady_climate_moves_nothing() -> None:
    assert worst_one_way_movement_mm(1e-5, 1000, 20, 20, 20) == 0
