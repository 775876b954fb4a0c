"""A blank record with what is known, and what is planned beside the empty keys.

A plan is no evidence. Identity and nominal sizes are entered; every planned value stands in a comment, and
the key beside it stays empty until somebody has measured.
"""

from collections.abc import Iterator, Mapping, Sequence

from revealbook.records.begin import blank_record
from revealbook.records.opening import Identity
from revealbook.setting_out.pieces import Piece
from revealbook.setting_out.plan import OpeningPlan
from revealbook.setting_out.plinth import Plinth
from revealbook.setting_out.window_fixings import WindowFixings

Path = tuple[str, ...]


def prefilled(identity: Identity, plan: OpeningPlan | None) -> str:
    """Give a blank record as YAML.

    Args:
        identity: which opening it is, with its nominal sizes.
        plan: the opening as set out, if it could be.
    """
    known: dict[str, object] = {"opening": identity.model_dump(exclude_none=True)}
    return blank_record(known, planned(plan) if plan else {})


def planned(plan: OpeningPlan) -> Mapping[Path, str]:
    """Give the planned values in words, by the path of the key that they stand beside."""
    return dict(_planned(plan))


def _planned(plan: OpeningPlan) -> Iterator[tuple[Path, str]]:
    for piece in plan.pieces:
        yield from _of_piece(piece, plan)
    if plan.supports:
        middles = [support.centre_mm for support in plan.supports]
        yield ("supports", "placed"), f"{len(middles)}, middle at {_listed(middles)}"
        if plan.load_points == "quarter points":
            points = [support.load_point_mm for support in plan.supports]
            yield ("supports", "load_points_mm"), f"{_listed(points)} (quarter points; the drawing governs)"
    if isinstance(plan.plinth, Plinth):
        yield ("plinth", "length_mm"), str(plan.plinth.length_mm)
        yield ("plinth", "lengthwise_joints"), _listed(plan.plinth.joints_mm) or "none"
        yield ("plinth", "brackets"), f"{len(plan.plinth.brackets_mm)}, at {_listed(plan.plinth.brackets_mm)}"
    if isinstance(plan.window, WindowFixings):
        sides = (f"{side.side} {_listed(side.fixings_mm)}" for side in plan.window.sides)
        yield ("window", "fixings"), "; ".join(sides)


def _of_piece(piece: Piece, plan: OpeningPlan) -> Iterator[tuple[Path, str]]:
    limits, path = plan.keeps.limits, ("frame", "pieces", piece.name)
    yield (*path, "length_mm"), str(piece.length_mm)
    if piece.name == "bottom":
        for side in ("left", "right"):
            yield (*path, f"overlap_{side}_mm"), str(limits.overlap_mm)
    yield (*path, "hole_diameter_mm"), f"{limits.hole_diameter_mm:g}"
    yield (*path, "holes_mm"), _listed(piece.holes_mm)
    yield (*path, "lengthwise_joints"), _listed(piece.joints_mm) or "none"
    yield (*path, "beads", "number"), str(limits.bead_count)


def _listed(positions_mm: Sequence[float]) -> str:
    return ", ".join(f"{at:g}" for at in positions_mm)
