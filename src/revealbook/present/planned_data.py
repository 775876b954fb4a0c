"""Setting out and cutting list for machines: the same values as the pages, as plain data for JSON."""

from typing import Any

from revealbook.present.planned_limits import bounds_of
from revealbook.present.refusals import refusal
from revealbook.present.words import Words
from revealbook.setting_out.bounds import Bound
from revealbook.setting_out.materials import Quantity, quantities
from revealbook.setting_out.plan import OpeningPlan
from revealbook.setting_out.plinth import Plinth
from revealbook.setting_out.refusal import NotPossible
from revealbook.setting_out.site import SetOut, SetOutSite
from revealbook.setting_out.site_cuts import ProfileCuts
from revealbook.setting_out.window_fixings import WindowFixings

PLANS_FORMAT = "revealbook-setting-out-1"
CUTS_FORMAT = "revealbook-cutting-list-1"


def planned_data(site: SetOutSite, words: Words) -> dict[str, Any]:
    """Give the openings of a site as set out; lengths and positions in mm."""
    return {
        "format": PLANS_FORMAT,
        "site": site.site.site.id,
        "rule_set": {"id": site.rule_set.id, "edition": site.rule_set.edition},
        "openings": [_opening(one, site, words) for one in site.openings],
        "materials": [_quantity(one) for one in site.materials],
    }


def _opening(one: SetOut, site: SetOutSite, words: Words) -> dict[str, Any]:
    plan = one.plan
    if isinstance(plan, NotPossible):
        return {"mark": one.mark, "not_possible": _refused(plan, words)}
    return {
        "mark": one.mark,
        "sizes": {
            name: {"mm": size.mm, "surveyed": size.surveyed} for name, size in plan.sizes._asdict().items()
        },
        "overlap_mm": plan.keeps.limits.overlap_mm,
        "hole_diameter_mm": plan.keeps.limits.hole_diameter_mm,
        "beads": plan.keeps.limits.bead_count,
        "pieces": [
            {
                "piece": piece.name,
                "profile": piece.profile,
                "length_mm": piece.length_mm,
                "parts_mm": piece.parts_mm,
                "joints_mm": piece.joints_mm,
                "holes_mm": piece.holes_mm,
                "margin_mm": piece.margin_mm,
            }
            for piece in plan.pieces
        ],
        "load_points": plan.load_points,
        "supports": [
            {
                "load_point_mm": support.load_point_mm,
                "start_mm": support.start_mm,
                "end_mm": support.end_mm,
                "holes_mm": support.holes_mm,
                "hole_diameter_mm": plan.keeps.support_hole_diameter_mm,
            }
            for support in plan.supports
        ],
        "window": _window(plan, words),
        "plinth": _plinth(plan, words),
        "materials": [_quantity(quantity) for quantity in quantities(one.needs, site.allowances)],
        "limits": [_bound(bound) for bound in bounds_of(plan)],
        "guard_mm": {"one_reading": plan.keeps.guard.one_mm, "two_readings": plan.keeps.guard.two_mm},
    }


def _refused(refused: NotPossible, words: Words) -> dict[str, Any]:
    figures = {f"{figure.name}_mm": figure.mm for figure in refused.figures}
    return {
        "reason": str(refused.reason),
        "about": refused.about,
        "figures": figures,
        "says": refusal(refused, words),
    }


def _window(plan: OpeningPlan, words: Words) -> dict[str, Any] | None:
    if isinstance(plan.window, NotPossible):
        return {"not_possible": _refused(plan.window, words)}
    if not isinstance(plan.window, WindowFixings):
        return None
    return {
        side.side: {"length_mm": side.length_mm, "fixings_mm": side.fixings_mm} for side in plan.window.sides
    }


def _plinth(plan: OpeningPlan, words: Words) -> dict[str, Any] | None:
    if isinstance(plan.plinth, NotPossible):
        return {"not_possible": _refused(plan.plinth, words)}
    if not isinstance(plan.plinth, Plinth):
        return None
    plinth = plan.plinth
    return {
        "profile": plinth.profile,
        "length_mm": plinth.length_mm,
        "parts_mm": plinth.parts_mm,
        "joints_mm": plinth.joints_mm,
        "brackets_mm": plinth.brackets_mm,
    }


def _quantity(one: Quantity) -> dict[str, Any]:
    return one._asdict()


def _bound(bound: Bound) -> dict[str, Any]:
    changed = [held.id for held in bound.rules if held.change]
    return {
        "measure": bound.measure,
        "at_least": bound.low,
        "at_most": bound.high,
        "rules": bound.ids,
        "changed_by_site": changed,
    }


def cutting_data(site: SetOutSite, profiles: tuple[ProfileCuts, ...], words: Words) -> dict[str, Any]:
    """Give a site's cutting list; openings that are not in it stand with the reason."""
    plans = [(one.mark, one.plan) for one in site.openings]
    return {
        "format": CUTS_FORMAT,
        "site": site.site.site.id,
        "openings": [mark for mark, plan in plans if not isinstance(plan, NotPossible)],
        "not_possible": {
            mark: _refused(plan, words) for mark, plan in plans if isinstance(plan, NotPossible)
        },
        "profiles": [_profile(one, words) for one in profiles],
    }


def _profile(one: ProfileCuts, words: Words) -> dict[str, Any]:
    head = {"profile": one.profile, "stock_mm": one.stock_mm, "pieces": one.pieces}
    cuts = one.cuts
    if isinstance(cuts, NotPossible):
        return {**head, "not_possible": _refused(cuts, words)}
    return {
        **head,
        "bought_mm": cuts.bought_mm,
        "bound_mm": cuts.bound_mm,
        "gap_pct": cuts.gap_pct,
        "waste_pct": cuts.waste_pct,
        "method": cuts.method,
        "returned_mm": cuts.returned_mm,
        "bars": [
            {
                "stock_mm": bar.stock_mm,
                "from_store": bar.from_store,
                "cuts": [{"length_mm": cut.length_mm, "label": cut.label} for cut in bar.cuts],
                "kerf_mm": bar.kerf_mm,
                "offcut_mm": bar.offcut_mm,
            }
            for bar in cuts.bars
        ],
    }
