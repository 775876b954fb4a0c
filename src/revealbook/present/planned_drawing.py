"""The elevation of an opening as set out."""

from collections.abc import Mapping

from revealbook.present.drawing import PaperSize, elevation
from revealbook.present.drawing_input import (
    PIECES,
    ElevationInput,
    PieceShown,
    PlinthShown,
    SupportShown,
    WindowShown,
)
from revealbook.present.drawing_sheet import Drawing
from revealbook.present.words import Words
from revealbook.records.products import Profile
from revealbook.setting_out.pieces import Piece
from revealbook.setting_out.plan import OpeningPlan
from revealbook.setting_out.plinth import Plinth
from revealbook.setting_out.site import SetOut
from revealbook.setting_out.window_fixings import WindowFixings

_PAPER = PaperSize(169.0, 132.0)


def planned_elevation(one: SetOut, plan: OpeningPlan, words: Words) -> Drawing:
    """Draw an opening as it is to be built."""
    return elevation(_input(one, plan), words, _PAPER)


def _input(one: SetOut, plan: OpeningPlan) -> ElevationInput:
    profiles = {profile.id: profile for profile in one.work.around.site.products.profiles}
    overlap = plan.keeps.limits.overlap_mm
    return ElevationInput(
        mark=one.mark,
        width_mm=plan.sizes.bottom.mm,
        height_mm=max(plan.sizes.left.mm, plan.sizes.right.mm),
        pieces={piece.name: _piece(piece, profiles, overlap) for piece in plan.pieces},
        supports=tuple(
            SupportShown(support.centre_mm, support.end_mm - support.start_mm, 0) for support in plan.supports
        ),
        load_points_mm=tuple(support.load_point_mm for support in plan.supports),
        plinth=_plinth(plan, profiles),
        window=_window(one, plan),
        left_out=frozenset(PIECES) - {piece.name for piece in plan.pieces},
    )


def _piece(piece: Piece, profiles: Mapping[str, Profile], overlap_mm: int) -> PieceShown:
    flat = piece.name in {"bottom", "top"}
    return PieceShown(
        length_mm=piece.length_mm,
        overlap_left_mm=overlap_mm if flat else None,
        overlap_right_mm=overlap_mm if flat else None,
        width_mm=profiles[piece.profile].width_mm or 0,
        holes_mm=piece.holes_mm,
        joints_mm=piece.joints_mm,
    )


def _plinth(plan: OpeningPlan, profiles: Mapping[str, Profile]) -> PlinthShown | None:
    if not isinstance(plan.plinth, Plinth):
        return None
    return PlinthShown(
        length_mm=plan.plinth.length_mm,
        height_mm=profiles[plan.plinth.profile].width_mm,
        brackets_mm=plan.plinth.brackets_mm,
        joints_mm=plan.plinth.joints_mm,
    )


def _window(one: SetOut, plan: OpeningPlan) -> WindowShown | None:
    if plan.window_size is None:
        return None
    sides = plan.window.sides if isinstance(plan.window, WindowFixings) else ()
    return WindowShown(
        width_mm=plan.window_size.width_mm,
        height_mm=plan.window_size.height_mm,
        opening_kind=one.work.look("window", "opening_kind"),
        hinge_side=one.work.look("window", "hinge_side"),
        fixings_mm=tuple((side.side, side.fixings_mm) for side in sides),
    )
