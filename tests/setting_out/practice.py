"""Limits of common practice, as setting out takes them; what the tests of its arithmetic share."""

from revealbook.setting_out.limits import Limits

PRACTICE = Limits(
    overlap_mm=80,
    end_distance_min_mm=150,
    end_distance_max_mm=200,
    centres_max_mm=700,
    joint_distance_max_mm=200,
    hole_diameter_mm=8,
    bead_count=2,
    support_length_mm=150,
    support_holes=2,
)
