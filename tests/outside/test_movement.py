"""Thermal movement and sealant joints against published values and worked numbers."""

import pytest

from revealbook.measures.physics.movement import (
    expansion,
    joint_width_mm,
    thermal_movement_mm,
    worst_one_way_movement_mm,
)


@pytest.mark.parametrize(
    ("material", "length_mm", "change_k", "expected_mm"),
    [
        ("PVC-U", 2000, 50, 7.0),
        ("PVC-U", 1500, 40, 4.2),
        ("aluminium", 2000, 50, 2.4),
        ("structural steel", 2000, 50, 1.2),
        ("timber along the grain", 2000, 50, 0.5),
        ("glass", 2000, 50, 0.9),
    ],
)
def test_thermal_movement(material: str, length_mm: float, change_k: float, expected_mm: float) -> None:
    """Coefficients of EN 1991-1-5 table C.1 and EN 572-1, PVC-U of public tables (published)."""
    moved_mm = thermal_movement_mm(expansion(material).per_k, length_mm, change_k)
    assert moved_mm == pytest.approx(expected_mm, abs=1e-9)


@pytest.mark.parametrize(
    ("material", "lowest", "taken", "highest"),
    [
        ("stainless steel", 16, 16, 16),
        ("concrete", 10, 10, 10),
        ("masonry", 6, 10, 10),
        ("timber across the grain", 30, 70, 70),
        ("PVC-U", 40, 70, 80),
        ("GRP mat", 20, 35, 35),
        ("GRP pultruded", 8, 14, 14),
    ],
)
def test_ranges_of_expansion(material: str, lowest: float, taken: float, highest: float) -> None:
    """EN 1991-1-5 table C.1 and public tables (published); pultruded GRP from memory, data-sheet-type."""
    found = expansion(material)
    ours = (found.lowest_per_k, found.per_k, found.highest_per_k)
    assert ours == pytest.approx((lowest * 1e-6, taken * 1e-6, highest * 1e-6))


@pytest.mark.parametrize(
    ("movement_mm", "class_pct", "expected_mm"),
    [
        (3.5, 25, 14.0),
        (3.5, 20, 17.5),
        (3.5, 12.5, 28.0),
        (3.5, 7.5, 46.7),
        (2.0, 25, 8.0),
        (2.0, 20, 10.0),
        (2.0, 12.5, 16.0),
        (2.0, 7.5, 26.7),
        (1.6, 25, 6.4),
        (1.6, 20, 8.0),
        (1.6, 12.5, 12.8),
        (1.6, 7.5, 21.3),
        (4.0, 30, 13.3),
    ],
)
def test_joint_width(movement_mm: float, class_pct: float, expected_mm: float) -> None:
    """W = M / c, classes of ISO 11600 (published); the last row is an example printed on a public page."""
    assert joint_width_mm(movement_mm, class_pct) == pytest.approx(expected_mm, abs=0.051)


def test_a_class_25_sealant_takes_four_times_the_movement() -> None:
    """A public data sheet of that class says so in these words (published, data-sheet-type)."""
    assert joint_width_mm(1, 25) == 4


def test_the_worst_one_way_movement_of_a_joint() -> None:
    """PVC-U 2.0 m, half to each side, +30 and -25 K, class 25: 8.4 mm (worked by hand; ASTM C1472's idea).

    Half of the total would give 7.7 mm, the total 15.4 mm: other conventions, not taken.
    """
    per_k = expansion("PVC-U").per_k
    one_way_mm = worst_one_way_movement_mm(per_k, 1000, installed_c=15, coldest_c=-10, warmest_c=45)
    assert joint_width_mm(one_way_mm, 25) == pytest.approx(8.4)


@pytest.mark.parametrize(
    ("material", "per_m_mm", "expected_k"), [("PVC-U", 1.6, 23), ("PVC-U", 2.4, 34), ("aluminium", 1.2, 50)]
)
def test_the_german_trade_table_stands_for_small_changes_of_temperature(
    material: str, per_m_mm: float, expected_k: float
) -> None:
    """1.6 mm/m white PVC-U, 2.4 coloured, 1.2 light aluminium (common practice, published): do not add."""
    moved_mm = thermal_movement_mm(expansion(material).per_k, 1000, expected_k)
    assert moved_mm == pytest.approx(per_m_mm, abs=0.04)
