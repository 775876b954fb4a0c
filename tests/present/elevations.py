"""Elevations to draw in tests: made of plain values, so that each test says what it is about."""

from collections.abc import Mapping
from typing import Any

from revealbook.present.drawing_input import (
    ElevationInput,
    Found,
    PieceShown,
    PlinthShown,
    SupportShown,
    WindowShown,
)
from revealbook.present.words import words_in
from revealbook.rules.finding import Outcome

ENGLISH = words_in("en")
JOINTS = dict.fromkeys(("left", "right", "top", "bottom"), (12.0, 12.5, 11.0))


def holes(length: float) -> tuple[float, ...]:
    """Holes 180 mm from both ends and at most 600 mm apart."""
    gaps = max(1, -(-int(length - 360) // 600))
    return tuple(180 + (length - 360) * number / gaps for number in range(gaps + 1))


def piece(length: float, **other: Any) -> PieceShown:
    """A piece with its holes, each with a fixing."""
    placed = other.pop("holes_mm", holes(length))
    return PieceShown(length, holes_mm=placed, fixings_mm=(placed or (),), **other)


def pieces(width: float, height: float) -> dict[str, PieceShown | None]:
    """The four pieces that an opening asks for."""
    flat = piece(width + 160, overlap_left_mm=80.0, overlap_right_mm=80.0)
    return {"bottom": flat, "left": piece(height), "right": piece(height), "top": flat}


def window(width: float, height: float, **other: Any) -> WindowShown:
    """A window with 12 mm of joint all round."""
    return WindowShown(
        width - 24,
        height - 24,
        **{"joints_mm": JOINTS, "opening_kind": "tilt and turn", "hinge_side": "left", **other},
    )


def supports(*centres: float | None) -> tuple[SupportShown, ...]:
    """Supports of the usual length."""
    return tuple(SupportShown(centre, 150.0, 0.0) for centre in centres)


def plinth(width: float, **other: Any) -> PlinthShown:
    """A plinth profile with two brackets."""
    return PlinthShown(width - 26, 30.0, **{"brackets_mm": (150.0, width - 200), **other})


def given(width: float = 1230.0, height: float = 1480.0, **other: Any) -> ElevationInput:
    """An opening with everything but supports and plinth profile, or with what is stated."""
    named: Mapping[str, Any] = {
        "pieces": pieces(width, height),
        "window": window(width, height),
        **other,
    }
    return ElevationInput("W-1.01", width, height, **named)


def breach(number: int, *path: str | int) -> Found:
    """A nonconformity with its number at a place of the record."""
    return Found(path, Outcome.DOES_NOT_CONFORM, str(number))
