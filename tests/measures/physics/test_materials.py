import pytest

from revealbook.measures.physics.materials import (
    bead_volume_ml,
    containers_needed,
    foam_volume_l,
    rectangular_section_mm2,
    tape_length_m,
    triangular_section_mm2,
)


def test_the_worked_example_of_the_docs() -> None:
    """docs/calculations/materials.md: two triangular beads, 8 x 10 mm, on 5.74 m of frame, 10 % waste."""
    section_mm2 = triangular_section_mm2(8, 10)
    volume_ml = bead_volume_ml(section_mm2, 2 * 5.74, waste_pct=10)
    assert section_mm2 == 40
    assert volume_ml == pytest.approx(505.12)
    assert containers_needed(volume_ml, 290) == 2
    assert containers_needed(volume_ml, 600) == 1


def test_the_worked_example_of_the_docs_for_the_joint() -> None:
    """docs/calculations/materials.md: a joint of 15 x 70 mm and 5.42 m, 20 % waste; one tape around it."""
    assert foam_volume_l(15, 70, 5.42, waste_pct=20) == pytest.approx(6.8292)
    assert tape_length_m([1230, 1480, 1230, 1480], lap_mm=50, waste_pct=5) == pytest.approx(5.901)


def test_sections_follow_the_shape_of_the_bead() -> None:
    assert rectangular_section_mm2(10, 4) == 40
    assert triangular_section_mm2(10, 4) == 20


def test_a_square_millimetre_over_a_metre_is_a_millilitre() -> None:
    assert bead_volume_ml(1, 1) == 1


def test_a_begun_container_is_a_whole_one() -> None:
    assert containers_needed(290, 290) == 1
    assert containers_needed(290.1, 290) == 2
    assert containers_needed(0, 290) == 0


def test_binary_rounding_buys_no_spare_container() -> None:
    assert containers_needed(0.1 + 0.2, 0.1) == 3


def test_each_run_of_tape_has_its_lap() -> None:
    assert tape_length_m([1000], 50) == pytest.approx(1.05)
    assert tape_length_m([1000, 1000], 50) == pytest.approx(2.1)
    assert tape_length_m([], 50) == 0


@pytest.mark.parametrize(
    ("sentence", "call"),
    [
        ("height_mm must be above zero", lambda: rectangular_section_mm2(1, 0)),
        ("width_mm must be above zero", lambda: triangular_section_mm2(0, 1)),
        ("section_mm2 must be above zero", lambda: bead_volume_ml(0, 1)),
        ("length_m must not be below zero", lambda: bead_volume_ml(1, -1)),
        ("waste_pct must not be below zero", lambda: bead_volume_ml(1, 1, -1)),
        ("volume_ml must not be below zero", lambda: containers_needed(-1, 290)),
        ("content_ml must be above zero", lambda: containers_needed(1, 0)),
        ("run_mm must be above zero", lambda: tape_length_m([1, 0], 50)),
        ("lap_mm must not be below zero", lambda: tape_length_m([1], -1)),
        ("depth_mm must be above zero", lambda: foam_volume_l(15, 0, 5)),
    ],
)
def test_nonsense_is_refused_in_a_plain_sentence(sentence: str, call: object) -> None:
    assert callable(call)
    with pytest.raises(ValueError, match=sentence):
        call()


def test_no_beads_need_no_adhesive() -> None:
    assert bead_volume_ml(40, 0) == 0
