"""Material used against the least that the work as recorded must have taken: beads, joint, tape runs.

Each need is a lower bound: nothing is added for waste. Where less was used than that, the record contradicts
itself, or beads and joint are thinner than it says; so a ratio below 1 needs no further tolerance.
"""

from collections.abc import Iterable, Iterator, Sequence
from math import inf
from typing import NamedTuple

from revealbook.measures.arch import RISE, head_length_mm, is_arched, rise_at
from revealbook.measures.bonding import adhesive_of
from revealbook.measures.frame import piece_path
from revealbook.measures.left_out import PIECES, standing
from revealbook.measures.physics.materials import foam_volume_l, tape_length_m, triangular_section_mm2
from revealbook.measures.reading import Detail, Missing, Outcome, Path, Reading
from revealbook.measures.tapes import EVENTS, TAPES
from revealbook.measures.work import Work, lacking
from revealbook.records.applications import BONDING, Applied, applications
from revealbook.records.seals import SealEvent

_BEAD_KEYS = ("number", "width_mm", "height_mm")
_CORNERS = 4
_SIDES = ("bottom", "left", "top", "right")
"""Sides of the joint in the order of `_perimeter_mm`."""


class _Amount(NamedTuple):
    """The adhesive that an application took at most, ml, where it stands, and what is missing for it."""

    ml: float | None
    path: Path
    missing: tuple[Missing, ...]


def adhesive_ratio(work: Work) -> Iterator[Outcome]:
    """Adhesive used by what the beads on the back of the bonded pieces hold at least.

    A bead w wide and h high, bulging as beads do, has at least the section w h / 2. Every application of a
    piece lays its beads anew. Beads between pieces and on supports are left out, and so is an application of
    nothing else. Of the amount told and the cartridges opened the lesser counts.
    """
    applied = [one for one in applications(work.opening) if _pieces(one) or not one.recorded.of]
    paths: list[Path] = [piece_path(piece, "length_mm") for piece in standing(work)]
    paths += [piece_path(piece, "beads", key) for piece in standing(work) for key in _BEAD_KEYS]
    missing = [one._replace(subject=(str(one.path[2]),)) for one in lacking(work, (), *paths)]
    missing += _not_bonded(work, applied)
    amounts = [_amount(work, one) for one in applied]
    unread = [one for amount in amounts for one in amount.missing]
    if not applied:
        unread = [Missing(("bonding",), "used_ml", (*BONDING, "used_ml"))]
    known = [amount.ml for amount in amounts if amount.ml is not None]
    if missing or len(known) < max(len(amounts), 1):
        yield from (*missing, *unread)
        return
    used, needed = sum(known), sum(_bead_ml(work, piece) for one in applied for piece in _pieces(one))
    if unread and used >= needed:
        yield from unread
    elif needed > 0:
        details = (Detail("used_ml", used, "ml", amounts[0].path), Detail("needed_ml", needed, "ml"))
        yield Reading(("bonding",), used / needed, amounts[0].path, None, details)
    else:
        yield Missing(("bonding",), "no_beads", ("frame", "pieces"))


def _pieces(applied: Applied) -> tuple[str, ...]:
    return tuple(piece for piece in PIECES if piece in (applied.recorded.of or ()))


def _not_bonded(work: Work, applied: Sequence[Applied]) -> Iterator[Missing]:
    """Name the pieces that no application is about: what was used is not held against the others only."""
    unnamed = [one for one in applied if not one.recorded.of]
    yield from (Missing(one.subject, "of", (*one.path, "of")) for one in unnamed)
    bonded = {piece for one in applied for piece in _pieces(one)}
    if bonded and not unnamed:
        yield from (
            Missing((piece,), "no_application", BONDING) for piece in standing(work) if piece not in bonded
        )


def _amount(work: Work, applied: Applied) -> _Amount:
    used, counted = applied.recorded.used_ml, _in_cartridges(work, applied)
    told, cartridges = (*applied.path, "used_ml"), (*applied.path, "cartridges")
    if work.method.computations == 1:
        return _amount_of_edition_1(used, counted, applied)
    missing = (Missing(applied.subject, "used_ml", told),) if used is None else ()
    if isinstance(counted, Missing):
        return _Amount(used, told, (*missing, counted))
    if used is None or counted < used:
        return _Amount(counted, cartridges, missing)
    return _Amount(used, told, missing)


def _amount_of_edition_1(used: float | None, counted: float | Missing, applied: Applied) -> _Amount:
    """Give the amount told, and only without it what the cartridges held."""
    told: Path = (*applied.path, "used_ml")
    if used is not None:
        return _Amount(used, told, ())
    if not isinstance(counted, Missing):
        return _Amount(counted, (*applied.path, "cartridges"), ())
    untold = Missing(applied.subject, "used_ml", told)
    return _Amount(None, told, (untold if applied.recorded.cartridges is None else counted,))


def _in_cartridges(work: Work, applied: Applied) -> float | Missing:
    """Give what the cartridges of an application held, ml."""
    cartridges, content = (
        applied.recorded.cartridges,
        getattr(adhesive_of(work, applied), "cartridge_ml", None),
    )
    if cartridges is None:
        return Missing(applied.subject, "cartridges", (*applied.path, "cartridges"))
    if content is None:
        return Missing(applied.subject, "cartridge_ml", (*applied.path, "product"))
    return float(cartridges * content)


def cartridge_share(work: Work) -> Iterator[Outcome]:
    """Adhesive used in each application by what the cartridges opened for it held."""
    if not applications(work.opening):
        yield Missing(("bonding",), "used_ml", (*BONDING, "used_ml"))
    for one in applications(work.opening):
        used, counted = one.recorded.used_ml, _in_cartridges(work, one)
        path: Path = (*one.path, "used_ml")
        if used is None:
            yield Missing(one.subject, "used_ml", path)
        elif isinstance(counted, Missing):
            yield counted
        else:
            details = (
                Detail("used_ml", used, "ml", path),
                Detail("cartridges_ml", counted, "ml", (*one.path, "cartridges")),
            )
            yield Reading(one.subject, used / counted if counted else inf, path, None, details)


def _bead_ml(work: Work, piece: str) -> float:
    number, width, height = (work.look(*piece_path(piece, "beads", key)) for key in _BEAD_KEYS)
    if not (width and height):
        return 0.0
    length_m = work.look(*piece_path(piece, "length_mm")) / 1000
    return float(number * triangular_section_mm2(width, height) * length_m)


def foam_ratio(work: Work) -> Iterator[Outcome]:
    """Foam used, as the can's free yield, by the volume of the joint around the window.

    A can yields less in a joint than it foams freely, so the need is a lower bound: each side counts with its
    own length and with the least of the widths read there, and all of them with the least depth filled.
    Plinth profile and packers are no joint.
    """
    foams, first = _of_kind(work, "foam"), work.method.computations == 1
    keys = ("joint_width_mm", "joint_depth_mm", "used_ml") if first else ("joint_depth_mm", "used_ml")
    missing = [*_lacks_perimeter(work), *_lacks(work, foams, keys)]
    if foams and not first:
        missing += lacking(work, (), *(path for side in _SIDES for path in _widths_of(side)))
    missing += [
        Missing(("foam",), key, (*path, "product"))
        for event, path in foams
        for key in ("yield_l", "can_ml")
        if not getattr(work.product("foams", event.product), key, None)
    ]
    if missing or not foams:
        yield from missing or (Missing((), "foam", EVENTS),)
        return
    events = [event for event, _ in foams]
    needed = _joint_of_edition_1(work, events) if first else _joint_l(work, events)
    if needed <= 0:
        yield Missing(("foam",), "no_joint", foams[0][1])
        return
    made = sum(_foamed_l(work, event) for event in events)
    details = (Detail("foamed_l", made, "l"), Detail("needed_l", needed, "l"))
    yield Reading(("foam",), made / needed, (*foams[0][1], "used_ml"), None, details)


def _joint_l(work: Work, foams: Sequence[SealEvent]) -> float:
    depth = min(event.joint_depth_mm or 0.0 for event in foams)
    around = zip(_SIDES, _perimeter_mm(work), strict=True)
    widths = ((min(work.look(*path) for path in _widths_of(side)), length) for side, length in around)
    return sum(foam_volume_l(width, depth, length / 1000) for width, length in widths if width and depth)


def _joint_of_edition_1(work: Work, foams: Sequence[SealEvent]) -> float:
    """Give the volume with the smallest width times depth of any foaming all around."""
    width, depth = min(((event.joint_width_mm, event.joint_depth_mm) for event in foams), key=_section)
    return foam_volume_l(width, depth, sum(_perimeter_mm(work)) / 1000) if width and depth else 0.0


def _widths_of(side: str) -> tuple[Path, ...]:
    return tuple(("window", "joint_widths_mm", side, place) for place in ("start", "middle", "end"))


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
    arch = (RISE, ("survey", "widths_mm", "top")) if is_arched(work) else ()
    return lacking(work, (), ("window", "width_mm"), ("window", "height_mm"), *arch)


def _perimeter_mm(work: Work) -> tuple[float, float, float, float]:
    width, height = work.look("window", "width_mm"), work.look("window", "height_mm")
    upright = height - float(rise_at(work, "left"))  # type: ignore[arg-type]  # a rise that is missing was named
    return (width, upright, head_length_mm(work) or width, upright)
