"""What an opening takes, and what a whole site takes: adhesive, fixings, tape and foam.

Volumes and lengths are geometry (`measures.physics.materials`). Allowances are own assumptions unless stated
otherwise, and every one is a parameter. Indicative: the suppliers' written instructions govern bead sections.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from typing import Literal, NamedTuple

from revealbook.measures.bonding import adhesives as adhesives_used
from revealbook.measures.physics import materials as physics
from revealbook.measures.work import Work
from revealbook.records.products import Adhesive, Foam, Product, Tape
from revealbook.setting_out.plan import OpeningPlan
from revealbook.setting_out.plinth import Plinth
from revealbook.setting_out.window_fixings import WindowFixings

What = Literal[
    "adhesive", "frame fixings", "support fixings", "bracket fixings", "window fixings", "inner tape",
    "outer tape", "foam",
]  # fmt: skip
_CORNERS = 4
_TAPES = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Allowances:
    """What materials are reckoned with.

    Attributes:
        bead_width_mm: foot of a bead as laid.
        bead_height_mm: height of a bead as laid; its section is a triangle.
        adhesive_waste_pct: on top of what stays in the beads.
        fixing_waste_pct: on top of the fixings set out, rounded up.
        tape_lap_mm: extra tape per side, to lap at the corner.
        tape_waste_pct: on top of runs and laps.
        foam_depth_mm: depth of the filling.
        foam_waste_pct: trimmed off and lost, on top of the joint's volume.
        foam_in_joint_pct: what a can gives in a joint, as a share of its free yield (from memory: foam that
            cannot rise freely gives about half to two thirds).
    """

    bead_width_mm: float = 9
    bead_height_mm: float = 9
    adhesive_waste_pct: float = 10
    fixing_waste_pct: float = 2
    tape_lap_mm: float = 50
    tape_waste_pct: float = 5
    foam_depth_mm: float = 70
    foam_waste_pct: float = 20
    foam_in_joint_pct: float = 60

    def with_waste(self, pct: float | None) -> "Allowances":
        """Give the same with one waste for all materials; unchanged for None."""
        if pct is None:
            return self
        return replace(
            self, adhesive_waste_pct=pct, fixing_waste_pct=pct, tape_waste_pct=pct, foam_waste_pct=pct
        )


class Need(NamedTuple):
    """A quantity of one material, without waste.

    Attributes:
        what: the material.
        product: its product's id, or None as long as it is not known which one is used.
        net: what stays in the work, in `unit`.
        unit: ml, m, l or number.
        pack: what one cartridge, roll or can gives, in `unit`; None where that is not known.
    """

    what: What
    product: str | None
    net: float
    unit: str
    pack: float | None


class Quantity(NamedTuple):
    """A need with its waste: what to bring.

    Attributes:
        what: the material.
        product: its product's id, or None.
        net: what stays in the work.
        gross: with waste.
        unit: of both.
        packs: whole cartridges, rolls or cans; None where the product or its contents are not known.
    """

    what: What
    product: str | None
    net: float
    gross: float
    unit: str
    packs: int | None


def needs(plan: OpeningPlan, work: Work, allowances: Allowances) -> tuple[Need, ...]:
    """Give what one opening takes; a joint whose width is not known yet gives no foam.

    Args:
        plan: the opening as set out.
        work: the opening as far as it is recorded, for its products.
        allowances: what to reckon with; the wastes are not added here.
    """
    return (
        _adhesive(plan, work, allowances),
        *_fixings(plan),
        *_tapes(plan, work, allowances),
        *_foam(plan, work, allowances),
    )


def quantities(wanted: Iterable[Need], allowances: Allowances) -> tuple[Quantity, ...]:
    """Add up needs of one or more openings by material and product, with waste, in whole packs."""
    summed: dict[tuple[What, str | None], Need] = {}
    for need in wanted:
        key = need.what, need.product
        earlier = summed.get(key)
        summed[key] = need if earlier is None else need._replace(net=earlier.net + need.net)
    return tuple(_with_waste(need, allowances) for need in summed.values())


def _with_waste(need: Need, allowances: Allowances) -> Quantity:
    wastes = {
        "ml": allowances.adhesive_waste_pct,
        "m": allowances.tape_waste_pct,
        "l": allowances.foam_waste_pct,
    }
    gross = need.net * (1 + wastes.get(need.unit, allowances.fixing_waste_pct) / 100)
    if need.unit == "number":
        gross = physics.containers_needed(gross, 1)
    packs = None if need.pack is None else physics.containers_needed(gross, need.pack)
    return Quantity(need.what, need.product, need.net, gross, need.unit, packs)


def _adhesive(plan: OpeningPlan, work: Work, allowances: Allowances) -> Need:
    """Beads along pieces and supports, and across the profile's depth at the corners where that is known."""
    count = plan.keeps.limits.bead_count
    run_mm = sum(piece.length_mm for piece in plan.pieces)
    run_mm += sum(support.end_mm - support.start_mm for support in plan.supports)
    profile = work.product("profiles", plan.piece("bottom").profile)
    run_mm += _CORNERS * (getattr(profile, "depth_mm", None) or 0)
    section = physics.triangular_section_mm2(allowances.bead_width_mm, allowances.bead_height_mm)
    adhesives = work.around.site.products.adhesives
    named = adhesives_used(work)[0][0]
    product: Adhesive | None = named or (adhesives[0] if len(adhesives) == 1 else None)
    volume = physics.bead_volume_ml(section, count * run_mm / 1000)
    return Need("adhesive", _id(product), volume, "ml", product.cartridge_ml if product else None)


def _id(product: Product | None) -> str | None:
    return product.id if product else None


def _fixings(plan: OpeningPlan) -> Iterator[Need]:
    counts: dict[What, int] = {
        "frame fixings": sum(len(piece.holes_mm) for piece in plan.pieces),
        "support fixings": sum(len(support.holes_mm) for support in plan.supports),
    }
    if isinstance(plan.plinth, Plinth):
        counts["bracket fixings"] = len(plan.plinth.brackets_mm)
    if isinstance(plan.window, WindowFixings):
        counts["window fixings"] = sum(len(side.fixings_mm) for side in plan.window.sides)
    return (Need(what, None, count, "number", None) for what, count in counts.items() if count)


def _tapes(plan: OpeningPlan, work: Work, allowances: Allowances) -> Iterator[Need]:
    sizes, window = plan.sizes, plan.window_size
    runs = (
        [window.width_mm, window.height_mm] * 2
        if window
        else [sizes.bottom.mm, sizes.top.mm, sizes.left.mm, sizes.right.mm]
    )
    length_m = physics.tape_length_m(runs, allowances.tape_lap_mm)
    inner, outer = _tape_products(work)
    yield Need("inner tape", _id(inner), length_m, "m", inner.roll_m if inner else None)
    yield Need("outer tape", _id(outer), length_m, "m", outer.roll_m if outer else None)


def _tape_products(work: Work) -> tuple[Tape | None, Tape | None]:
    """Give inner and outer tape: as recorded, else the tightest and the most open of the site's two tapes."""
    events = work.look("seals", "events") or ()
    used = {event.step: work.product("tapes", event.product) for event in events}
    tapes = work.around.site.products.tapes
    rated = sorted((tape.sd_m, number) for number, tape in enumerate(tapes) if tape.sd_m is not None)
    both = len(rated) == len(tapes) == _TAPES
    open_, tight = (tapes[rated[0][1]], tapes[rated[-1][1]]) if both else (None, None)
    return used.get("inner tape") or tight, used.get("outer tape") or open_


def _under_the_window(plan: OpeningPlan, work: Work) -> float:
    """Give the height of plinth profile and packers, mm, which is no joint; 0 as far as it is not known."""
    if not isinstance(plan.plinth, Plinth):
        return 0.0
    profile = work.product("profiles", plan.plinth.profile)
    packers = work.look("plinth", "packers", "height_mm") or work.look(
        "plinth", "packers", "height_needed_mm"
    )
    return float((profile.width_mm or 0.0) + (packers or 0.0))


def _foam(plan: OpeningPlan, work: Work, allowances: Allowances) -> Iterator[Need]:
    window = plan.window_size
    if window is None:
        return
    width = (plan.sizes.bottom.mm + plan.sizes.top.mm) / 2 - window.width_mm
    height = (plan.sizes.left.mm + plan.sizes.right.mm) / 2 - window.height_mm - _under_the_window(plan, work)
    if width <= 0 or height <= 0:
        return
    depth = allowances.foam_depth_mm
    # Each gap is shared by the joints on both sides; a long side has half the gap across it.
    volume = physics.foam_volume_l(width / 2, depth, 2 * window.height_mm / 1000)
    volume += physics.foam_volume_l(height / 2, depth, 2 * window.width_mm / 1000)
    foams = work.around.site.products.foams
    events = work.look("seals", "events") or ()
    named = next((work.product("foams", event.product) for event in events if event.step == "foam"), None)
    product: Foam | None = named or (foams[0] if len(foams) == 1 else None)
    yields = product.yield_l if product else None
    in_joint = yields * allowances.foam_in_joint_pct / 100 if yields else None
    yield Need("foam", _id(product), volume, "l", in_joint)
