"""Material used against the least that the work as recorded must have taken: beads, joint, tape runs.

Each need is a lower bound: nothing is added for waste. Where less was used than that, the record contradicts
itself, or beads and joint are thinner than it says; so a ratio below 1 needs no further tolerance.
"""

from collections.abc import Iterable, Iterator

from revealbook.measures.frame import PIECES, piece_path
from revealbook.measures.physics.materials import foam_volume_l, tape_length_m, triangular_section_mm2
from revealbook.measures.reading import Detail, Missing, Outcome, Path, Reading
from revealbook.measures.seals import EVENTS, TAPES
from revealbook.measures.work import Work, lacking
from revealbook.records.seals import SealEvent

BONDING: Path = ("frame", "bonding")
_BEAD_KEYS = ("number", "width_mm", "height_mm")
_CORNERS = 4


def adhesive_ratio(work: Work) -> Iterator[Outcome]:
    """Adhesive used by what the beads on the back of the four pieces hold at least.

    A bead w wide and h high, bulging as beads do, has at least the section w h / 2. Beads between pieces and
    on supports are left out.
    """
    paths: list[Path] = [piece_path(piece, "length_mm") for piece in PIECES]
    paths += [piece_path(piece, "beads", key) for piece in PIECES for key in _BEAD_KEYS]
    missing = [one._replace(subject=(str(one.path[2]),)) for one in lacking(work, (), *paths)]
    used = _adhesive_used(work)
    if missing or isinstance(used, Missing):
        yield from (*missing, *((used,) if isinstance(used, Missing) else ()))
        return
    needed = sum(_bead_ml(work, piece) for piece in PIECES)
    details = (Detail("used_ml", used[0], "ml", used[1]), Detail("needed_ml", needed, "ml"))
    yield (
        Reading(("bonding",), used[0] / needed, used[1], None, details)
        if needed > 0
        else Missing(("bonding",), "no_beads", ("frame", "pieces"))
    )


def _adhesive_used(work: Work) -> tuple[float, Path] | Missing:
    used, cartridges = (work.look(*BONDING, key) for key in ("used_ml", "cartridges"))
    content = getattr(work.product("adhesives", work.look(*BONDING, "product")), "cartridge_ml", None)
    if used is not None:
        return used, (*BONDING, "used_ml")
    if cartridges is None:
        return Missing(("bonding",), "used_ml", (*BONDING, "used_ml"))
    if content is None:
        return Missing(("bonding",), "cartridge_ml", (*BONDING, "product"))
    return cartridges * content, (*BONDING, "cartridges")


def _bead_ml(work: Work, piece: str) -> float:
    number, width, height = (work.look(*piece_path(piece, "beads", key)) for key in _BEAD_KEYS)
    if not (width and height):
        return 0.0
    length_m = work.look(*piece_path(piece, "length_mm")) / 1000
    return float(number * triangular_section_mm2(width, height) * length_m)


def foam_ratio(work: Work) -> Iterator[Outcome]:
    """Foam used, as the can's free yield, by the volume of the joint around the window.

    A can yields less in a joint than it foams freely, so the need is a lower bound. Where several foamings
    are recorded, the smallest width times depth among them counts for the whole joint.
    """
    foams = _of_kind(work, "foam")
    missing = [*_lacks_perimeter(work), *_lacks(work, foams, ("joint_width_mm", "joint_depth_mm", "used_ml"))]
    missing += [
        Missing(("foam",), key, (*path, "product"))
        for event, path in foams
        for key in ("yield_l", "can_ml")
        if not getattr(work.product("foams", event.product), key, None)
    ]
    if missing or not foams:
        yield from missing or (Missing((), "foam", EVENTS),)
        return
    width, depth = min(((event.joint_width_mm, event.joint_depth_mm) for event, _ in foams), key=_section)
    if not (width and depth):
        yield Missing(("foam",), "no_joint", foams[0][1])
        return
    made = sum(_foamed_l(work, event) for event, _ in foams)
    needed = foam_volume_l(width, depth, sum(_perimeter_mm(work)) / 1000)
    details = (Detail("foamed_l", made, "l"), Detail("needed_l", needed, "l"))
    yield Reading(("foam",), made / needed, (*foams[0][1], "used_ml"), None, details)


def _section(joint: tuple[float | None, float | None]) -> float:
    return (joint[0] or 0.0) * (joint[1] or 0.0)


def _foamed_l(work: Work, event: SealEvent) -> float:
    foam = work.product("foams", event.product)
    return float((event.used_ml or 0.0) / foam.can_ml * foam.yield_l)


def tape_ratio(work: Work) -> Iterator[Outcome]:
    """Tape used on each side of the joint by the window's perimeter with the laps recorded at its corners."""
    around = tuple(_lacks_perimeter(work))
    yield from around
    for kind in TAPES:
        tapes = _of_kind(work, kind)
        missing = _lacks(work, tapes, ("used_m", "corner_overlap_mm"))
        if missing or not tapes:
            yield from missing or (Missing((), kind, EVENTS),)
        elif not around:
            lap = min(event.corner_overlap_mm or 0.0 for event, _ in tapes)
            used, needed = (
                sum(event.used_m or 0.0 for event, _ in tapes),
                tape_length_m(_perimeter_mm(work), lap),
            )
            path: Path = (*tapes[0][1], "used_m")
            details = (
                Detail("used_m", used, "m", path),
                Detail("needed_m", needed, "m"),
                Detail("laps_m", _CORNERS * lap / 1000, "m"),
            )
            yield Reading((kind,), used / needed, path, None, details)


def _of_kind(work: Work, kind: str) -> list[tuple[SealEvent, Path]]:
    events = work.look(*EVENTS) or ()
    return [(event, (*EVENTS, number)) for number, event in enumerate(events) if event.step == kind]


def _lacks(work: Work, events: Iterable[tuple[SealEvent, Path]], keys: tuple[str, ...]) -> list[Missing]:
    return [
        missing
        for event, path in events
        for missing in lacking(work, (str(event.step),), *((*path, key) for key in keys))
    ]


def _lacks_perimeter(work: Work) -> tuple[Missing, ...]:
    return lacking(work, (), ("window", "width_mm"), ("window", "height_mm"))


def _perimeter_mm(work: Work) -> tuple[float, float, float, float]:
    width, height = work.look("window", "width_mm"), work.look("window", "height_mm")
    return (width, height, width, height)
