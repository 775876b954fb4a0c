"""Where on an elevation a finding belongs: from its place in the record to a place on the wall."""

from collections.abc import Callable, Mapping, Sequence
from itertools import pairwise
from typing import TypeVar

from revealbook.measures.reading import Path
from revealbook.present.drawing_input import PieceShown
from revealbook.present.drawing_scene import Placed, Scene

Item = TypeVar("Item")
Spot = tuple[float, float]
"""A place on the wall, mm, from the lower left corner of the opening."""


def spot_of(path: Path, scene: Scene) -> Spot | None:
    """Give the place that a finding is marked at; None if it belongs to the opening as a whole."""
    section, *rest = path or ("",)
    place = _SECTIONS.get(str(section))
    return place(rest, scene) if place else None


def _on_frame(rest: Sequence[str | int], scene: Scene) -> Spot | None:
    match rest:
        case ("pieces", str(name), *of_piece) if name in scene.pieces:
            return _on_piece(scene.pieces[name], scene.piece(name), of_piece)
        case ("corners" | "ends" as kind, str(corner), *_):
            return _corner(corner, scene, at_end=kind == "ends")
        case ("top_edge_sealed" | "insulation_follows_at_once",):
            top = scene.pieces["top"]
            return top.left + 0.3 * (top.right - top.left), top.top
    return None


def _on_seals(_rest: Sequence[str | int], scene: Scene) -> Spot:
    return (scene.window.right + scene.opening.right) / 2, 0.62 * scene.opening.top


def _on_piece(placed: Placed, piece: PieceShown, rest: Sequence[str | int]) -> Spot:
    length = (placed.top - placed.bottom) if placed.upright else (placed.right - placed.left)
    at: float | None = None
    match rest:
        case ("holes_mm", int(number)):
            at = _item(piece.holes_mm or (), number)
        case ("lengthwise_joints", int(number), *_):
            at = _item(piece.joints_mm, number)
        case ("fixings", int(number), "at_mm", int(index)):
            at = _item(_item(piece.fixings_mm, number) or (), index)
        case ("fixings", int(number), *_):
            at = _item(_item(piece.fixings_mm, number) or (), 0)
        case ("overlap_left_mm",):
            at = 0.0
        case ("overlap_right_mm",) | ("length_mm",):
            at = length
    return placed.along(_between_holes(piece, length) if at is None else at)


def _between_holes(piece: PieceShown, length: float) -> float:
    """Give a place near a piece's middle that no hole takes: the middle of the widest gap next to it."""
    stops = [0.0, *sorted(piece.holes_mm or ()), length]
    gaps = [(there - here, (here + there) / 2) for here, there in pairwise(stops)]
    widest = max(gap for gap, _ in gaps)
    return min((at for gap, at in gaps if gap >= 0.6 * widest), key=lambda at: abs(at - length / 2))


def _item(items: Sequence[Item], number: int) -> Item | None:
    return items[number] if 0 <= number < len(items) else None


def _corner(corner: str, scene: Scene, *, at_end: bool) -> Spot | None:
    """Give where two pieces meet; for an end, the outer end of the bottom or top piece."""
    low, _, side = corner.partition("_")
    if low not in ("bottom", "top") or side not in ("left", "right"):
        return None
    flat, upright = scene.pieces[low], scene.pieces[side]
    if at_end:
        return (flat.left if side == "left" else flat.right), flat.middle[1]
    return upright.middle[0], (flat.top if low == "bottom" else flat.bottom)


def _on_supports(rest: Sequence[str | int], scene: Scene) -> Spot:
    bottom = scene.pieces["bottom"]
    match rest:
        case ("placed", int(number), *_):
            support = _item(scene.supports, number)
            if support is not None:
                return support.middle
        case ("load_points_mm", int(number), *_):
            at = _item(scene.given.load_points_mm, number)
            if at is not None:
                return bottom.left + at, bottom.top
    return bottom.left + 0.4 * (bottom.right - bottom.left), bottom.bottom


def _on_plinth(rest: Sequence[str | int], scene: Scene) -> Spot:
    plinth, given = scene.plinth, scene.given.plinth
    if plinth is None or given is None:
        return 0.3 * scene.opening.right, scene.window.bottom
    at: float | None = None
    match rest:
        case ("brackets", int(number), *_):
            at = _item(given.brackets_mm, number)
        case ("lengthwise_joints", int(number), *_):
            at = _item(given.joints_mm, number)
        case ("screw_positions_mm", int(number), *_):
            at = _item(given.screws_mm, number)
        case ("packers", *_):
            first = _item(given.brackets_mm, 0)
            return plinth.along(first or 0)[0], plinth.bottom
    return plinth.along(0.3 * (plinth.right - plinth.left) if at is None else at)


_SHARES = {"start": 0.14, "middle": 0.5, "end": 0.86}


def _on_window(rest: Sequence[str | int], scene: Scene) -> Spot:
    window = scene.window
    match rest:
        case ("joint_widths_mm", str(side), *place):
            share = _SHARES.get(str(place[0]) if place else "", 0.35)
            return _in_joint(side, share, scene)
        case ("joint_widths_mm",):
            return _in_joint("left", 0.35, scene)
        case ("fixings", int(number), *more):
            return _window_fixing(number, more, scene)
    return window.left + 0.5 * (window.right - window.left), window.bottom + 0.6 * (
        window.top - window.bottom
    )


def _in_joint(side: str, share: float, scene: Scene) -> Spot:
    window, opening = scene.window, scene.opening
    x = window.left + share * (window.right - window.left)
    y = window.bottom + share * (window.top - window.bottom)
    return {
        "left": (window.left / 2, y),
        "right": ((window.right + opening.right) / 2, y),
        "top": (x, (window.top + opening.top) / 2),
    }.get(side, (x, window.bottom / 2))


def _window_fixing(number: int, more: Sequence[str | int], scene: Scene) -> Spot:
    window = scene.window
    sets = scene.given.window.fixings_mm if scene.given.window else ()
    side, positions = _item(sets, number) or (None, ())
    index = more[1] if len(more) > 1 and isinstance(more[1], int) else 0
    at = _item(positions, index)
    along = 0.3 * (window.right - window.left) if at is None else at
    return {
        "right": (window.right, window.bottom + along),
        "top": (window.left + along, window.top),
        "bottom": (window.left + along, window.bottom),
    }.get(side or "", (window.left, window.bottom + along))


def _surveyed(rest: Sequence[str | int], scene: Scene) -> Spot | None:
    wide, high = scene.opening.right, scene.opening.top
    match rest:
        case ("widths_mm", str(place), *_):
            return 0.0, {"top": 0.92, "bottom": 0.08}.get(place, 0.5) * high
        case ("heights_mm", str(place), *_):
            return {"left": 0.08, "right": 0.92}.get(place, 0.5) * wide, high
        case ("diagonals_mm", *_):
            return wide, high
    return None


_SECTIONS: Mapping[str, Callable[[Sequence[str | int], Scene], Spot | None]] = {
    "frame": _on_frame,
    "supports": _on_supports,
    "plinth": _on_plinth,
    "window": _on_window,
    "seals": _on_seals,
    "survey": _surveyed,
}
"""Who knows the places of a section of the record; other sections have none on an elevation."""
