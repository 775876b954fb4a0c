"""A refusal: the setting out that cannot be made, with the reason and the figures that show it."""

from dataclasses import dataclass
from enum import StrEnum
from typing import NamedTuple


class Reason(StrEnum):
    """Why no layout keeps every limit."""

    PIECE_TOO_SHORT = "piece too short"
    END_BLOCKED = "end blocked"
    JOINT_NOT_HELD = "joint not held"
    NO_ARRANGEMENT = "no arrangement"
    MARGIN_TOO_WIDE = "margin too wide"
    LOAD_POINT_OFF_PIECE = "load point off piece"
    JOINT_AT_SUPPORT = "joint at support"
    SUPPORTS_OVERLAP = "supports overlap"
    PIECE_LONGER_THAN_STOCK = "piece longer than stock"
    SIDE_WIDER_THAN_OVERLAP = "side wider than overlap"
    NO_RULE = "no rule in force"
    RULES_DISAGREE = "rules disagree"
    LIMIT_BY_UNKNOWN_SIZE = "limit by unknown size"
    FRAME_LEFT_OUT = "frame left out"
    SIZE_NOT_RECORDED = "size not recorded"
    PROFILE_NOT_NAMED = "profile not named"
    PRODUCT_FIGURE_MISSING = "product figure missing"


class Figure(NamedTuple):
    """One number of a refusal, by name."""

    name: str
    mm: int


@dataclass(frozen=True, slots=True)
class NotPossible:
    """No layout keeps every limit. A value like any other, so that it can stand on the setting-out sheet.

    Attributes:
        reason: what stands in the way.
        figures: the numbers that show it, in whole millimetres.
        about: what it speaks of, by name: a piece, rules by their ids, a product and its missing key.
    """

    reason: Reason
    figures: tuple[Figure, ...] = ()
    about: tuple[str, ...] = ()

    def mm(self, name: str) -> int:
        """Give the figure of that name; ``KeyError`` where the refusal has none."""
        return dict(self.figures)[name]


def not_possible(reason: Reason, **figures_mm: int) -> NotPossible:
    """Make a refusal from named figures; the names' ``_mm`` is dropped since every figure is in mm."""
    return NotPossible(
        reason, tuple(Figure(name.removesuffix("_mm"), value) for name, value in figures_mm.items())
    )
