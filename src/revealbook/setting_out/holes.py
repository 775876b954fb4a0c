"""Where to drill along a frame piece."""

from collections.abc import Sequence

from revealbook.setting_out.limits import Limits
from revealbook.setting_out.refusal import NotPossible
from revealbook.setting_out.spread import Interval, Spacing, Spread, spread


def hole_positions(
    length_mm: int,
    limits: Limits,
    joints_mm: Sequence[int] = (),
    blocked: Sequence[Interval] = (),
    *,
    margin_mm: int = 0,
) -> Spread | NotPossible:
    """Give the hole centres along a frame piece, from its left or lower end.

    The first and the last hole lie inside the end distances, neighbouring holes at most
    ``limits.centres_max_mm`` apart, and each lengthwise joint has a hole on both sides of it. The holes are
    the fewest that do this, as even as the limits and the blocked stretches let them be.

    A piece shorter than twice the least end distance plus the least centres is refused: two holes cannot both
    keep their end distance there. Where the limits allow a single hole (``holes_per_part_min`` = 1), a piece
    between twice the least and twice the greatest end distance gets one in its middle, which keeps both. The
    rule set has nearer end distances, and one hole, for short pieces.

    Args:
        length_mm: the piece's length over all, joints included.
        limits: the limits in force.
        joints_mm: lengthwise joints along the piece.
        blocked: stretches kept clear for supports or the window's own fixings, clearance included.
        margin_mm: least distance to keep to the limits themselves, such as the tape's uncertainty.

    Returns:
        The positions with their margin to the nearest limit, or the reason why there are none.

    Raises:
        ValueError: for a length, joint, stretch or margin that makes no sense.
    """
    spacing = Spacing(
        end_min_mm=limits.end_distance_min_mm,
        end_max_mm=limits.end_distance_max_mm,
        centres_min_mm=limits.centres_min_mm,
        centres_max_mm=limits.centres_max_mm,
        joint_min_mm=limits.joint_distance_min_mm,
        joint_max_mm=limits.joint_distance_max_mm,
        per_part_min=limits.holes_per_part_min,
    )
    return spread(length_mm, spacing, joints_mm, blocked, margin_mm=margin_mm)
