"""Where the plinth's brackets stand."""

from collections.abc import Sequence

from revealbook.setting_out.limits import Limits
from revealbook.setting_out.refusal import NotPossible
from revealbook.setting_out.spread import Interval, Spacing, Spread, spread


def bracket_positions(
    length_mm: int, limits: Limits, joints_mm: Sequence[int] = (), blocked: Sequence[Interval] = ()
) -> Spread | NotPossible:
    """Give the centres of the brackets that carry a plinth to the wall, from the plinth's left end.

    The same layout as for holes, with the brackets' own end distance and centres. A joint of the plinth has
    a bracket on both sides. Indicative: the number of brackets that the plinth's load calls for is the
    supplier's and the engineer's to state; this keeps distances only.

    Args:
        length_mm: the plinth's length.
        limits: the limits in force.
        joints_mm: lengthwise joints of the plinth.
        blocked: stretches where no bracket can be fixed, half a bracket's width included.

    Returns:
        The positions with their margin to the nearest limit, or the reason why there are none.

    Raises:
        ValueError: for a length, joint or stretch that makes no sense.
    """
    spacing = Spacing(
        end_min_mm=limits.bracket_end_distance_min_mm,
        end_max_mm=limits.bracket_end_distance_max_mm,
        centres_min_mm=limits.bracket_centres_min_mm,
        centres_max_mm=limits.bracket_centres_max_mm,
        joint_min_mm=limits.joint_distance_min_mm,
        joint_max_mm=limits.joint_distance_max_mm,
        per_part_min=limits.holes_per_part_min,
    )
    return spread(length_mm, spacing, joints_mm, blocked)
