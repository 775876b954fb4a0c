"""The limits that setting out has to keep, as the caller takes them from the rule set in force."""

from dataclasses import dataclass, fields

LEAST_JOINT_DISTANCE_MM = 50
"""Least distance of a hole from a lengthwise joint (own assumption)."""
LEAST_CENTRES_MM = 50
"""Least distance between neighbouring holes (own assumption)."""


def require_whole_mm(name: str, value: float, *, least: int = 0) -> None:
    """Refuse what is no whole number of millimetres (or of things), or less than ``least``.

    Raises:
        ValueError: with the name and the value in a plain sentence.
    """
    whole = isinstance(value, int) and not isinstance(value, bool)
    if not whole or value < least:
        raise ValueError(f"{name} must be a whole number of at least {least}, not {value!r}.")


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """Limits of setting out, in whole millimetres or counts (a drill's diameter apart).

    The fields without a default are limits of practice: they have no value here, the rule set gives them.
    (The base rule set's values stand in brackets; all of them are common practice, no source.)
    The fields with a default are this module's own assumptions, needed to lay anything out at all.

    Attributes:
        overlap_mm: how far the bottom piece runs past the opening on each side (80).
        end_distance_min_mm: least distance of the first and last hole from the piece's end (150).
        end_distance_max_mm: greatest distance of the first and last hole from the piece's end (200).
        centres_max_mm: greatest distance between neighbouring holes (700).
        joint_distance_max_mm: greatest distance of a hole from a lengthwise joint, on both sides (200).
        hole_diameter_mm: diameter of the holes in pieces and supports (8).
        bead_count: continuous beads on the back of a piece and of a support (2).
        support_length_mm: length of a support under a load point (150); None where no rule in force says.
        support_holes: holes in a support (2); None where no rule in force says.
        support_offset_max_mm: greatest distance of a support's middle from its load point (75); None leaves
            it at what its holes allow.
        joint_distance_min_mm: least distance of a hole from a lengthwise joint, so that the end does not
            split or the screws miss the joint's own (own assumption).
        centres_min_mm: least distance between neighbouring holes (own assumption).
        holes_per_part_min: 2 where every part between two ends or joints needs two holes so that it cannot
            turn about one; 1 where a single hole is enough (own assumption).
        support_hole_edge_mm: distance of a support's outer holes from its ends (own assumption).
        support_joint_clear_mm: least distance between a support and a lengthwise joint (own assumption).
        bracket_end_distance_min_mm: least distance of a plinth bracket's centre from the plinth's end
            (own assumption).
        bracket_end_distance_max_mm: greatest such distance (own assumption).
        bracket_centres_min_mm: least distance between bracket centres (own assumption).
        bracket_centres_max_mm: greatest distance between bracket centres (own assumption).

    Raises:
        ValueError: where a value is no whole number or two limits contradict each other.
    """

    overlap_mm: int
    end_distance_min_mm: int
    end_distance_max_mm: int
    centres_max_mm: int
    joint_distance_max_mm: int
    hole_diameter_mm: float
    bead_count: int
    support_length_mm: int | None
    support_holes: int | None
    support_offset_max_mm: int | None = None
    joint_distance_min_mm: int = LEAST_JOINT_DISTANCE_MM
    centres_min_mm: int = LEAST_CENTRES_MM
    holes_per_part_min: int = 2
    support_hole_edge_mm: int = 35
    support_joint_clear_mm: int = 50
    bracket_end_distance_min_mm: int = 50
    bracket_end_distance_max_mm: int = 150
    bracket_centres_min_mm: int = 100
    bracket_centres_max_mm: int = 600

    def __post_init__(self) -> None:
        """Refuse limits that no piece could keep."""
        for field in fields(self):
            if field.name != "hole_diameter_mm" and getattr(self, field.name) is not None:
                require_whole_mm(field.name, getattr(self, field.name))
        if self.hole_diameter_mm <= 0:
            raise ValueError(f"hole_diameter_mm is greater than 0, not {self.hole_diameter_mm}.")
        for smaller, greater in (
            ("end_distance_min_mm", "end_distance_max_mm"),
            ("joint_distance_min_mm", "joint_distance_max_mm"),
            ("centres_min_mm", "centres_max_mm"),
            ("bracket_end_distance_min_mm", "bracket_end_distance_max_mm"),
            ("bracket_centres_min_mm", "bracket_centres_max_mm"),
        ):
            if getattr(self, smaller) > getattr(self, greater):
                raise ValueError(f"{smaller} is greater than {greater}.")
        if self.holes_per_part_min not in (1, 2):
            raise ValueError(f"holes_per_part_min is 1 or 2, not {self.holes_per_part_min}.")
        if self.support_length_mm is not None and 2 * self.support_hole_edge_mm > self.support_length_mm:
            raise ValueError("The support is too short for its holes' edge distances.")
        if self.support_holes == 0 or min(self.centres_min_mm, self.bracket_centres_min_mm) < 1:
            raise ValueError("Least centres and the number of a support's holes must be at least 1.")

    @property
    def part_min_mm(self) -> int:
        """Shortest part beside a lengthwise joint that can still hold its own fixings."""
        outer = max(self.end_distance_min_mm, self.joint_distance_min_mm)
        return outer + (self.holes_per_part_min - 1) * self.centres_min_mm + self.joint_distance_min_mm
