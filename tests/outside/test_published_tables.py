"""Our tables against those of pamd-eurocodes 0.3.0, an independent transcription of the Eurocodes' tables."""

import pytest

from revealbook.measures.physics.loads import GLASS_DENSITY_KG_M3, STANDARD_GRAVITY_M_S2
from revealbook.measures.physics.movement import expansion
from revealbook.measures.physics.pressure_coefficients import wall_coefficients
from revealbook.measures.physics.wind import terrain
from revealbook.measures.physics.wind_zones import Zone

pytest.importorskip("pamd_eurocodes", reason="needs the data tables of pamd-eurocodes")
eurocode_1 = pytest.importorskip("pamd_eurocodes.eurocode_1")

ZONES: tuple[Zone, ...] = ("A", "B", "C", "D", "E")


def test_terrain_categories() -> None:
    """EN 1991-1-4 table 4.1."""
    theirs = eurocode_1.part_1_4.Tables.terrain_categories_and_terrain_parameters.values
    assert [(category, z0, zmin) for category, _, z0, zmin in theirs] == [
        (ours.category, ours.z0_m, ours.zmin_m) for ours in map(terrain, ("0", "I", "II", "III", "IV"))
    ]


def test_wall_coefficients() -> None:
    """EN 1991-1-4 table 7.1; a cell with one number gives cpe,10 for both areas."""
    table = eurocode_1.part_1_4.Tables
    theirs = table.external_pressure_coefficients_for_vertical_walls_of_rectangular_buildings.values
    assert len(theirs) == 3
    for (_, *cells), height_to_depth in zip(theirs, (5, 1, 0.25), strict=True):
        for zone, cell in zip(ZONES, cells, strict=True):
            numbers = [float(part) for part in str(cell).split("/")]
            assert wall_coefficients(zone, height_to_depth) == (numbers[0], numbers[-1])


@pytest.mark.parametrize(
    ("ours", "theirs"),
    [
        ("aluminium", "Aluminium, aluminium alloy"),
        ("structural steel", "Structural steel, wrought or cast iron"),
        ("stainless steel", "Stainless steel"),
        ("concrete", "Concrete (normal weight)"),
        ("lightweight concrete", "Concrete (lightweight aggregate)"),
        ("masonry", "Masonry"),
        ("timber along the grain", "Timber, along grain"),
        ("timber across the grain", "Timber, across grain"),
    ],
)
def test_coefficients_of_expansion(ours: str, theirs: str) -> None:
    """EN 1991-1-5 table C.1."""
    cell = str(dict(eurocode_1.part_1_5.Tables.coefficients_of_linear_expansion.values)[theirs])
    lowest, *_, highest = cell.split(" to ") * 2
    found = expansion(ours)
    assert found.lowest_per_k == pytest.approx(float(lowest) * 1e-6)
    assert found.highest_per_k == pytest.approx(float(highest if " to " in cell else lowest) * 1e-6)


def test_the_two_published_weights_of_glass_differ_by_two_percent() -> None:
    """EN 1991-1-1 table A.5 gives 25 kN/m3; 2500 kg/m3 under standard gravity is 24.517 kN/m3."""
    theirs = dict(eurocode_1.part_1_1.Tables.construction_materials_other_materials.values)
    ours = GLASS_DENSITY_KG_M3 * STANDARD_GRAVITY_M_S2 / 1000
    assert theirs["glass, in sheets"] / ours - 1 == pytest.approx(0.0197, abs=5e-5)
