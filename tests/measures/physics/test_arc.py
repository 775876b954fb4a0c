from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from revealbook.measures.physics.arc import arc_length_mm


def test_a_semicircle_is_half_a_circle() -> None:
    assert arc_length_mm(1000, 500) == pytest.approx(500 * pi)


def test_an_arc_of_sixty_degrees_is_a_sixth_of_its_circle() -> None:
    radius = 1000.0  # its chord is the radius, its rise R (1 - cos 30 degrees)
    assert arc_length_mm(radius, radius * (1 - 3**0.5 / 2)) == pytest.approx(2 * pi * radius / 6)


@given(st.floats(200, 6000), st.floats(0.001, 0.499))
def test_an_arc_lies_between_its_chord_and_both_sides_of_the_triangle_round_it(
    chord: float, share: float
) -> None:
    rise = share * chord
    length = arc_length_mm(chord, rise)
    assert chord < length <= chord + 2 * rise
    assert length >= 2 * ((chord / 2) ** 2 + rise**2) ** 0.5 * (1 - 1e-12)


def test_more_than_a_semicircle_is_refused() -> None:
    with pytest.raises(ValueError, match="half of the chord"):
        arc_length_mm(1000, 501)
