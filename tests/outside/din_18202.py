"""Tables 1 and 2 of DIN 18202:2019-07 (limits as in 2013-04), typed from public sources.

Table 1: published, a public page has it in full (secondary source). Table 2: from memory, no public copy was
found. Sizes and limits in mm; a size on a border takes the smaller limit.
"""

from math import inf

Steps = tuple[tuple[float, float], ...]
OPENINGS: Steps = ((1000, 10), (3000, 12), (6000, 16))
"""Table 1, openings for windows, doors and built-in parts."""
ANGLES: Steps = ((500, 3), (1000, 6), (3000, 8), (6000, 12), (15000, 16), (30000, 20), (inf, 30))
"""Table 2, offsets from the square or plumb line."""


def limit_mm(steps: Steps, size_mm: float) -> float | None:
    """Give the limit of the first step that holds a size; None beyond the last."""
    return next((limit for border, limit in steps if size_mm <= border), None)
