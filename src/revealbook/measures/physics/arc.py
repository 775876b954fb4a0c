"""The length of a circular arch over a chord. Geometry: textbook."""

import math

from revealbook.measures.physics.plausibility import require_positive


def arc_length_mm(chord_mm: float, rise_mm: float) -> float:
    """Return the length of a circular arc.

    R = (w^2 / 4 + h^2) / (2 h); length = 2 R atan2(w / 2, R - h).

    Args:
        chord_mm: w, distance between the springing points, above zero.
        rise_mm: h, height of the crown above them, above zero and at most half of w.

    Raises:
        ValueError: a size is not above zero, or the arch is higher than a semicircle.
    """
    require_positive(chord_mm=chord_mm, rise_mm=rise_mm)
    if rise_mm > chord_mm / 2:
        raise ValueError(f"rise_mm is {rise_mm}; at most half of the chord, {chord_mm / 2}, is expected")
    radius = (chord_mm**2 / 4 + rise_mm**2) / (2 * rise_mm)
    return 2 * radius * math.atan2(chord_mm / 2, radius - rise_mm)
