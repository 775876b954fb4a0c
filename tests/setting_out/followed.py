"""A record that follows its setting-out sheet exactly: what is planned is what is read."""

from typing import Any

from revealbook.measures.work import Surroundings, Work
from revealbook.records.opening import Opening
from revealbook.records.site import Site
from revealbook.rules.rule_set import RuleSet
from revealbook.setting_out.pieces import Piece
from revealbook.setting_out.plan import OpeningPlan
from revealbook.setting_out.plinth import Plinth
from revealbook.setting_out.window_fixings import WindowFixings

SITE: dict[str, Any] = {
    "id": "alder-yard",
    "name": "Alder Yard (invented)",
    "rules": {"set": "common-practice", "edition": "2026-12"},
    "products": {
        "profiles": [
            {"id": "frame-profile", "kind": "frame", "width_mm": 80, "depth_mm": 160, "stock_mm": 3000},
            {"id": "plinth-profile", "kind": "plinth", "width_mm": 60, "depth_mm": 80, "stock_mm": 2500},
        ]
    },
    "instruments": [{"id": "tape-1", "measures": "length", "uncertainty": 1}],
}


def around(rule_set: RuleSet, site: dict[str, Any] = SITE) -> Surroundings:
    return Surroundings.of(Site.model_validate(site), rule_set.method)


def before_work(
    width_mm: float, height_mm: float, window_gap_mm: float = 12, **sections: Any
) -> dict[str, Any]:
    """A record as it stands before the work: sizes, the window as ordered, a plinth."""
    return {
        "opening": {"mark": "W-1.01", "width_mm": width_mm, "height_mm": height_mm},
        "window": {"width_mm": width_mm - 2 * window_gap_mm, "height_mm": height_mm - 2 * window_gap_mm},
        "supports": {"called_for": True},
        "plinth": {"used": True},
        **sections,
    }


def work_on(record: dict[str, Any], surroundings: Surroundings) -> Work:
    return Work(Opening.model_validate(record), surroundings)


def followed(before: dict[str, Any], plan: OpeningPlan, *, with_tape: bool = True) -> dict[str, Any]:
    """The record once the work was done exactly as planned, each section read with the site's tape."""
    tape = {"instruments": ["tape-1"] if with_tape else []}
    limits = plan.keeps.limits
    pieces = {piece.name: _piece(piece, plan) for piece in plan.pieces}
    for side in ("left", "right"):
        pieces["bottom"][f"overlap_{side}_mm"] = (plan.piece("bottom").length_mm - plan.sizes.bottom.mm) / 2
    placed = [
        {
            "centre_mm": support.centre_mm,
            "length_mm": support.end_mm - support.start_mm,
            "holes": len(support.holes_mm),
            "hole_diameter_mm": plan.keeps.support_hole_diameter_mm,
            "beads": {"number": limits.bead_count, "continuous": True},
        }
        for support in plan.supports
    ]
    points = [support.load_point_mm for support in plan.supports]
    record = {
        **before,
        "survey": {**_survey(plan), **tape},
        "frame": {"pieces": pieces, **_over_the_sides(plan), **tape},
        "supports": {**before["supports"], "load_points_mm": points, "placed": placed, **tape},
    }
    if isinstance(plan.window, WindowFixings):
        fixings = [{"side": side.side, "at_mm": list(side.fixings_mm)} for side in plan.window.sides]
        record["window"] = {**before["window"], "fixings": fixings, **tape}
    if isinstance(plan.plinth, Plinth):
        brackets = [{"at_mm": at} for at in plan.plinth.brackets_mm]
        record["plinth"] = {"used": True, "length_mm": plan.plinth.length_mm, "brackets": brackets}
    return record


def _over_the_sides(plan: OpeningPlan) -> dict[str, Any]:
    """Side pieces against the jambs, in the order of the work."""
    widths = {profile["id"]: profile["width_mm"] for profile in SITE["products"]["profiles"]}
    sides = sum(widths[plan.piece(side).profile] for side in ("left", "right"))
    return {"order": ["bottom", "left", "right", "top"], "span_over_sides_mm": plan.sizes.top.mm + sides}


def _survey(plan: OpeningPlan) -> dict[str, Any]:
    sizes = plan.sizes
    return {
        "widths_mm": {"bottom": sizes.bottom.mm, "top": sizes.top.mm},
        "heights_mm": {"left": sizes.left.mm, "right": sizes.right.mm},
    }


def _piece(piece: Piece, plan: OpeningPlan) -> dict[str, Any]:
    return {
        "profile": piece.profile,
        "length_mm": piece.length_mm,
        "holes_mm": list(piece.holes_mm),
        "hole_diameter_mm": plan.keeps.limits.hole_diameter_mm,
        "lengthwise_joints": [{"at_mm": at} for at in piece.joints_mm],
        "beads": {"number": plan.keeps.limits.bead_count, "continuous": True},
    }
