"""Sets of whole-millimetre positions along a piece, each held as the bits of one integer.

Bit x stands for the position x mm from the piece's left or lower end. A piece of 6 m is then one number of
6,001 bits, and "every position that can follow one of these" is a handful of shifts: exact, and fast enough
to search for the best layout instead of guessing at it.
"""


def span(first_mm: int, last_mm: int) -> int:
    """Give all positions from ``first_mm`` to ``last_mm``, both included; none where the last is the smaller.

    Positions below 0 lie off the piece and are left out.
    """
    first_mm = max(first_mm, 0)
    return ((1 << (last_mm - first_mm + 1)) - 1) << first_mm if last_mm >= first_mm else 0


def moved(positions: int, least_mm: int, most_mm: int) -> int:
    """Give every position that lies ``least_mm`` to ``most_mm`` further on than one of ``positions``."""
    if most_mm < least_mm:
        return 0
    width, covered = most_mm - least_mm + 1, 1
    while covered < width:
        step = min(covered, width - covered)
        positions |= positions << step
        covered += step
    return positions << least_mm


def furthest(positions: int) -> int:
    """Give the greatest position of the set; -1 where it is empty."""
    return positions.bit_length() - 1


def nearest(positions: int, target_mm: int) -> int:
    """Give the position closest to ``target_mm``, the smaller one where two are equally close.

    Raises:
        ValueError: where the set is empty.
    """
    if not positions:
        raise ValueError("No position is left to choose from.")
    below = furthest(positions & span(0, target_mm))
    beyond = positions >> max(target_mm, 0)
    above = max(target_mm, 0) + furthest(beyond & -beyond) if beyond else -1
    if above < 0:
        return below
    return below if below >= 0 and target_mm - below <= above - target_mm else above
