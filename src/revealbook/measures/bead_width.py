"""How wide a bead is once pressed: as seen at a trial piece, or bounded by what was laid and the gap."""

from revealbook.measures.frame import piece_path
from revealbook.measures.physics.cure_depth import pressed_widths_mm
from revealbook.measures.reading import Missing, Path
from revealbook.measures.work import Work


def pressed_width_mm(work: Work, piece: str) -> tuple[float, float] | Missing:
    """Give the least and the greatest width of a piece's beads once pressed, mm.

    What was seen goes first. Else it follows from the bead as laid and the thickness it was pressed to, as
    recorded or as the data sheet of the profile states. The width as laid is never taken for it, except by
    rule sets of format 1.
    """
    path = piece_path(piece, "beads")
    beads = work.look(*path)
    laid, seen = getattr(beads, "width_mm", None), getattr(beads, "pressed_width_mm", None)
    if work.method.computations == 1 and laid:
        return laid, laid
    if work.method.computations > 1 and seen is not None:
        return seen, seen
    height, thickness = getattr(beads, "height_mm", None), _thickness_mm(work, piece)
    needed = {"width_mm": laid, "height_mm": height, "pressed_width_mm": thickness}
    if laid and height and thickness:
        return pressed_widths_mm(laid, height, thickness)
    absent = next(key for key, value in needed.items() if not value)
    return Missing((piece,), absent, (*path, absent))


def pressed_width_path(work: Work, piece: str) -> Path:
    """Give the place of what a pressed width is known from."""
    seen = work.look(*piece_path(piece, "beads", "pressed_width_mm"))
    key = "width_mm" if seen is None or work.method.computations == 1 else "pressed_width_mm"
    return piece_path(piece, "beads", key)


def _thickness_mm(work: Work, piece: str) -> float | None:
    recorded: float | None = work.look(*piece_path(piece, "beads", "pressed_thickness_mm"))
    if recorded is not None:
        return recorded
    profile = work.product("profiles", work.look(*piece_path(piece, "profile")))
    stated: float | None = getattr(profile, "bead_thickness_mm", None)
    return stated
