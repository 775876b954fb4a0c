"""Setting-out sheets: what the foreman takes to the saw and to the wall."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from revealbook.present import labels
from revealbook.present.drawing_sheet import Drawing
from revealbook.present.planned_drawing import planned_elevation
from revealbook.present.planned_limits import LimitLine, guard_words, limit_lines
from revealbook.present.refusals import refusal
from revealbook.present.register import place
from revealbook.present.sources import sources
from revealbook.present.words import N_, Words
from revealbook.setting_out.materials import Quantity, quantities
from revealbook.setting_out.plan import OpeningPlan
from revealbook.setting_out.plinth import Plinth
from revealbook.setting_out.refusal import NotPossible
from revealbook.setting_out.site import SetOut, SetOutSite
from revealbook.setting_out.window_fixings import WindowFixings

Rows = tuple[tuple[str, ...], ...]
_WHAT = {
    "adhesive": N_("adhesive"),
    "frame fixings": N_("fixings of the frame pieces"),
    "support fixings": N_("fixings of the supports"),
    "bracket fixings": N_("fixings of the brackets, one each"),
    "window fixings": N_("fixings of the window"),
    "inner tape": N_("inner tape"),
    "outer tape": N_("outer tape"),
    "foam": N_("foam, set"),
}
_PACKS = {
    "ml": (N_("1 cartridge"), N_("{number} cartridges")),
    "m": (N_("1 roll"), N_("{number} rolls")),
    "l": (N_("1 can"), N_("{number} cans")),
}
_LOAD_POINTS = {
    "as recorded": N_("The load points are those of the record."),
    "quarter points": N_(
        "No load points are recorded: the quarter points stand in for them. The window's drawing governs."
    ),
    "none": N_("The window's drawing calls for none."),
}


@dataclass(frozen=True, slots=True)
class PlannedSheet:
    """The setting-out sheet of one opening.

    Attributes:
        mark: the opening's mark.
        place: where it is.
        refused: why it cannot be set out; then nothing else is there.
        cautions: what to know before the first cut.
        facts: sizes and what is the same for all pieces, as (name, value).
        drawing: its elevation.
        pieces: piece, profile, length, parts, joints, holes.
        supports: number, load point, left end, right end, holes.
        supports_note: where the load points come from.
        plinth: facts of the plinth.
        window: side, length, fixings.
        window_note: why there are none, or what they rest on.
        materials: material, product, in the work, with waste, packs.
        limits: the limits kept.
        guard: how far inside them.
    """

    mark: str
    place: str
    refused: str = ""
    cautions: tuple[str, ...] = ()
    facts: tuple[tuple[str, str], ...] = ()
    drawing: Drawing | None = None
    pieces: Rows = ()
    supports: Rows = ()
    supports_note: str = ""
    plinth: tuple[tuple[str, str], ...] = ()
    window: Rows = ()
    window_note: str = ""
    materials: Rows = ()
    limits: tuple[LimitLine, ...] = ()
    guard: str = ""


@dataclass(frozen=True, slots=True)
class PlannedSite:
    """All setting-out sheets of a site.

    Attributes:
        name: the project.
        facts: site, firm, rules, as (name, value).
        sheets: one per opening.
        register: mark, place, size and the four lengths of each opening, if there is more than one.
        materials: the materials of all openings together, if there is more than one.
        changed: the rules kept whose limit the site changed.
        allowances: what materials were reckoned with, as (name, value).
    """

    name: str
    facts: tuple[tuple[str, str], ...]
    sheets: tuple[PlannedSheet, ...]
    register: Rows
    materials: Rows
    changed: tuple[LimitLine, ...]
    allowances: tuple[tuple[str, str], ...]

    @property
    def refused(self) -> tuple[PlannedSheet, ...]:
        """The openings that could not be set out."""
        return tuple(sheet for sheet in self.sheets if sheet.refused)


def planned_site(site: SetOutSite, words: Words) -> PlannedSite:
    """Give the setting-out sheets of a site."""
    of_site, rules = site.site.site, sources(site.rule_set, words, site.site.site)
    named = ((N_("Project"), of_site.name), (N_("Place"), of_site.place), (N_("Installed by"), of_site.firm))
    facts = [(words.say(label), value) for label, value in named if value]
    sheets = tuple(_sheet(one, site, words) for one in site.openings)
    kept = dict.fromkeys(line for sheet in sheets for line in sheet.limits if line.changed)
    return PlannedSite(
        name=of_site.name,
        facts=(*facts, (words.say(N_("Set out by")), f"{rules.title} ({rules.judged_by})")),
        sheets=sheets,
        register=tuple(_register(site, words)) if len(sheets) > 1 else (),
        changed=tuple(kept),
        materials=material_rows(site.materials, words) if len(site.openings) > 1 else (),
        allowances=tuple(_allowances(site, words)),
    )


def _register(site: SetOutSite, words: Words) -> Iterator[tuple[str, ...]]:
    for one in site.openings:
        if isinstance(one.plan, OpeningPlan):
            sizes, lengths = one.plan.sizes, (words.number(piece.length_mm) for piece in one.plan.pieces)
            size = f"{words.number(sizes.bottom.mm)} × {words.number(sizes.left.mm)}"
            kind = words.say(N_("surveyed") if sizes.surveyed else N_("nominal"))
            yield one.mark, place(one.work.opening, words), size, kind, *lengths


def _sheet(one: SetOut, site: SetOutSite, words: Words) -> PlannedSheet:
    where, plan = place(one.work.opening, words), one.plan
    if isinstance(plan, NotPossible):
        return PlannedSheet(one.mark, where, refused=refusal(plan, words))
    return PlannedSheet(
        mark=one.mark,
        place=where,
        cautions=tuple(_cautions(plan, words)),
        facts=tuple(_facts(plan, words)),
        drawing=planned_elevation(one, plan, words),
        pieces=tuple(_pieces(plan, words)),
        supports=tuple(_supports(plan, words)),
        supports_note=_supports_note(plan, words),
        plinth=tuple(_plinth(plan, words)),
        window=tuple(_window(plan, words)),
        window_note=_window_note(plan, words),
        materials=material_rows(quantities(one.needs, site.allowances), words),
        limits=limit_lines(plan, site.rule_set, words),
        guard=guard_words(plan, words),
    )


def _cautions(plan: OpeningPlan, words: Words) -> Iterator[str]:
    if not plan.sizes.surveyed:
        yield words.say(
            N_("Set out from nominal sizes. Measure the opening and set it out again before anything is cut.")
        )


def _facts(plan: OpeningPlan, words: Words) -> Iterator[tuple[str, str]]:
    sizes, limits = plan.sizes, plan.keeps.limits
    for name, size in (
        (N_("Width, sill"), sizes.bottom),
        (N_("Width, head"), sizes.top),
        (N_("Height, left"), sizes.left),
        (N_("Height, right"), sizes.right),
    ):
        kind = words.say(N_("surveyed") if size.surveyed else N_("nominal"))
        yield words.say(name), f"{words.quantity(size.mm, 'mm')} ({kind})"
    if plan.window_size:
        width, height = words.number(plan.window_size.width_mm), plan.window_size.height_mm
        yield words.say(N_("Window")), f"{width} × {words.quantity(height, 'mm')}"
    yield words.say(N_("Overlap")), words.quantity(limits.overlap_mm, "mm")
    yield words.say(N_("Holes")), words.quantity(limits.hole_diameter_mm, "mm")
    yield words.say(N_("Beads")), words.number(limits.bead_count, "number")


def _mm(positions: Iterable[float], words: Words) -> str:
    return " · ".join(words.number(at) for at in positions)


def _pieces(plan: OpeningPlan, words: Words) -> Iterator[tuple[str, ...]]:
    for piece in plan.pieces:
        parts = " + ".join(words.number(part) for part in piece.parts_mm) if piece.joints_mm else ""
        yield (
            words.say(labels.PARTS[piece.name]),
            piece.profile,
            words.number(piece.length_mm),
            parts or words.say(N_("in one length")),
            _mm(piece.joints_mm, words) or "–",
            _mm(piece.holes_mm, words),
        )


def _supports(plan: OpeningPlan, words: Words) -> Iterator[tuple[str, ...]]:
    for number, support in enumerate(plan.supports, start=1):
        ends = (support.load_point_mm, support.start_mm, support.end_mm)
        yield (str(number), *(words.number(at) for at in ends), _mm(support.holes_mm, words))


def _supports_note(plan: OpeningPlan, words: Words) -> str:
    said = [words.say(_LOAD_POINTS[plan.load_points])]
    if plan.supports and plan.supports_asked is None:
        said.append(words.say(N_("The record does not say whether the drawing calls for supports at all.")))
    if plan.supports and plan.keeps.support_hole_diameter_mm:
        diameter = words.quantity(plan.keeps.support_hole_diameter_mm, "mm")
        said.append(words.say(N_("Holes {diameter}, no gap to the bottom piece."), diameter=diameter))
    return " ".join(said)


def _plinth(plan: OpeningPlan, words: Words) -> Iterator[tuple[str, str]]:
    if isinstance(plan.plinth, NotPossible):
        yield words.say(N_("Not set out")), refusal(plan.plinth, words)
    elif isinstance(plan.plinth, Plinth):
        plinth = plan.plinth
        yield words.say(N_("Profile")), plinth.profile
        parts = " + ".join(words.number(part) for part in plinth.parts_mm)
        length = words.quantity(plinth.length_mm, "mm")
        yield words.say(N_("Length")), f"{length} = {parts}" if plinth.joints_mm else length
        yield words.say(N_("Brackets at")), _mm(plinth.brackets_mm, words)


def _window(plan: OpeningPlan, words: Words) -> Iterator[tuple[str, ...]]:
    if isinstance(plan.window, WindowFixings):
        for side in plan.window.sides:
            name = words.say(labels.PARTS[side.side])
            yield name, words.number(side.length_mm), _mm(side.fixings_mm, words)


def _window_note(plan: OpeningPlan, words: Words) -> str:
    if isinstance(plan.window, NotPossible):
        return refusal(plan.window, words)
    if plan.window is None:
        return words.say(N_("Not set out: the window's size is not recorded yet."))
    return words.say(
        N_("From the window's left or lower corner; the window's supplier governs where and with what.")
    )


def material_rows(of: Iterable[Quantity], words: Words) -> Rows:
    """Give quantities as rows: material, product, in the work, with waste, packs."""
    return tuple(
        (
            words.say(_WHAT[one.what]),
            one.product or "–",
            _amount(one.net, one.unit, words),
            _amount(one.gross, one.unit, words),
            "–" if one.packs is None else words.count(one.packs, *_PACKS[one.unit]),
        )
        for one in sorted(of, key=lambda one: list(_WHAT).index(one.what))
    )


def _amount(value: float, unit: str, words: Words) -> str:
    places: Mapping[str, int] = {"ml": 0, "m": 1, "l": 1, "number": 0}
    return words.quantity(round(value, places[unit]), unit)


def _allowances(site: SetOutSite, words: Words) -> Iterator[tuple[str, str]]:
    given = site.allowances
    bead = f"{words.number(given.bead_width_mm)} × {words.quantity(given.bead_height_mm, 'mm')}"
    yield words.say(N_("Beads")), words.say(N_("triangles of {size}"), size=bead)
    for name, pct in (
        (N_("Waste of adhesive"), given.adhesive_waste_pct),
        (N_("Spare fixings"), given.fixing_waste_pct),
        (N_("Waste of tape"), given.tape_waste_pct),
        (N_("Waste of foam"), given.foam_waste_pct),
    ):
        yield words.say(name), words.quantity(pct, "%")
    yield words.say(N_("Lap of tape")), words.quantity(given.tape_lap_mm, "mm")
    yield words.say(N_("Depth of foam")), words.quantity(given.foam_depth_mm, "mm")
    yield (
        words.say(N_("Foam in a joint")),
        words.say(N_("{share} of a can's free yield"), share=words.quantity(given.foam_in_joint_pct, "%")),
    )
