"""Thermal movement of the window's frame against what the foam in its joints can follow.

Indicative only: joints defer to the data sheet, the supplier's written instructions and local codes.
"""

from collections.abc import Iterator, Mapping
from types import MappingProxyType

from revealbook.measures.physics.movement import expansion, joint_width_mm, worst_one_way_movement_mm
from revealbook.measures.reading import Detail, Missing, Outcome, Path, Reading
from revealbook.measures.work import Work, lacking

MATERIALS: Mapping[str, str] = MappingProxyType(
    {
        "PVC-U": "PVC-U",
        "timber": "timber along the grain",
        "aluminium": "aluminium",
        "timber-aluminium": "aluminium",
        "steel": "structural steel",
    }
)
"""The record's frame materials as the table of expansion calls them; the clad frame moves as its cladding."""
COLOUR: Path = ("window", "frame_colour")
INSTALLED: Path = ("window", "frame_temperature_c")
MATERIAL: Path = ("window", "frame_material")
_SIDES = {"left": "width_mm", "right": "width_mm", "bottom": "height_mm", "top": "height_mm"}
_PLACES = ("start", "middle", "end")


def movement_reserve(work: Work) -> Iterator[Outcome]:
    """By how many mm the foam on each side can follow more than the frame moves; negative if less.

    The foam follows its share of the narrowest joint recorded on that side, one way. The frame moves from its
    temperature when set to the coldest or the warmest, whichever is farther (the worst one-way movement, the
    idea of ASTM C1472). How much of its size, or of a coupled assembly's length, moves towards a side is the
    method's: all of the height towards the head of a window that stands on packers.
    """
    missing = (*_lacks(work), *lacking(work, (), *_frame_paths(work)))
    yield from missing
    capability = _capability(work)
    for side, size_key in _SIDES.items():
        widths = [("window", "joint_widths_mm", side, place) for place in _PLACES]
        size = ("window", size_key)
        short = lacking(work, (side,), size, *widths)
        if short or missing or capability is None:
            yield from short
            continue
        yield _margin(work, side, size, min((work.look(*path), path) for path in widths), capability)


def _margin(
    work: Work, side: str, size: Path, narrowest: tuple[float, Path], capability_pct: float
) -> Outcome:
    coldest, warmest = getattr(work.around.site.exposure, "coldest_frame_c", 0.0), _warmest(work)
    length, share = work.look(*size), _share(work, side)
    if size[-1] == "width_mm":
        length = max(length, work.look("window", "assembly_length_mm") or 0)
    installed, alpha = work.look(*INSTALLED), expansion(MATERIALS[work.look(*MATERIAL)]).per_k
    try:
        moves = worst_one_way_movement_mm(alpha, length * share, installed, coldest, warmest)
    except ValueError:
        details = (Detail("lowest", coldest, "degC"), Detail("highest", warmest, "degC"))
        return Missing((side,), "installed_beyond_extremes", INSTALLED, details)
    width, path = narrowest
    follows = width * capability_pct / 100
    parts = (
        Detail("moves_mm", moves, "mm"),
        Detail("follows_mm", follows, "mm"),
        Detail("joint_width_mm", width, "mm", path),
        Detail("movement_pct", capability_pct, "%"),
        Detail("frame_temperature_c", installed, "degC", INSTALLED),
        Detail("warmest_taken_c", warmest, "degC"),
        Detail("movement_share_pct", 100 * share, "%"),
        Detail("least_joint_mm", joint_width_mm(moves, capability_pct), "mm"),
    )
    tape = work.uncertainty("window", "length")
    return Reading(
        (side,), follows - moves, path, None if tape is None else tape * capability_pct / 100, parts
    )


def _by_colour(work: Work) -> Mapping[str, float | None]:
    method = work.method
    return {
        "white": method.warmest_white_c,
        "light": method.warmest_light_c,
        "dark": method.warmest_dark_c,
    }


def _frame_paths(work: Work) -> tuple[Path, ...]:
    """What a frame moves by in the record; its colour counts if the method has a temperature for any."""
    coloured = any(known is not None for known in _by_colour(work).values())
    return (INSTALLED, MATERIAL, COLOUR) if coloured else (INSTALLED, MATERIAL)


def _warmest(work: Work) -> float:
    """Warmest frame in degC: that of its colour, or the site's if that is warmer, which never lowers it."""
    of_site: float = getattr(work.around.site.exposure, "warmest_frame_c", 0.0)
    of_colour = _by_colour(work).get(work.look(*COLOUR))
    return of_site if of_colour is None else max(of_site, of_colour)


def _share(work: Work, side: str) -> float:
    """Share of the frame's movement that goes to the joint on a side."""
    method = work.method
    return {"top": method.movement_to_head, "bottom": method.movement_to_sill}.get(
        side, method.movement_to_side
    )


def _foams(work: Work) -> list[tuple[Path, object | None]]:
    events = work.look("seals", "events") or ()
    return [
        (("seals", "events", number, "product"), work.product("foams", event.product))
        for number, event in enumerate(events)
        if event.step == "foam"
    ]


def _capability(work: Work) -> float | None:
    """Least movement capability of all foam used, %."""
    known = [getattr(foam, "movement_pct", None) for _, foam in _foams(work)]
    return min((one for one in known if one is not None), default=None)


def _lacks(work: Work) -> Iterator[Missing]:
    exposure = work.around.site.exposure
    for key in ("coldest_frame_c", "warmest_frame_c"):
        if getattr(exposure, key, None) is None:
            yield Missing((), key, ("window",))
    foams = _foams(work)
    if not foams:
        yield Missing((), "foam", ("seals", "events"))
    for path, foam in foams:
        if foam is None:
            yield Missing(("foam",), "product", path)
        elif getattr(foam, "movement_pct", None) is None:
            yield Missing(("foam",), "movement_pct", path)
