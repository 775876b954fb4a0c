"""Readings of surface thermometry: how warm the coldest place is, by itself and for the room it is in."""

from collections.abc import Iterator

from revealbook.measures.physics.surface_temperature import (
    factor_uncertainty,
    required_factor,
    required_surface_c,
    temperature_factor,
)
from revealbook.measures.physics.uncertainty import expanded
from revealbook.measures.reading import Detail, Missing, Outcome, Path, Reading
from revealbook.measures.work import Work, lacking

THERMOMETRY: Path = ("tests", "thermometry")
K = 2
"""Coverage factor of the instruments' expanded uncertainty."""
_AIR = ((*THERMOMETRY, "inside_air_c"), (*THERMOMETRY, "outside_air_c"))
_SURFACE = (*THERMOMETRY, "surface_c")
_ROOM = ("room_air_c", "room_rh_pct", "room_outside_c")


def inside_outside_difference(work: Work) -> Iterator[Outcome]:
    """By how many kelvin the air was warmer inside than outside during thermometry; negative if colder."""
    if missing := lacking(work, (), *_AIR):
        yield from missing
        return
    inside, outside = (work.look(*path) for path in _AIR)
    spread = work.uncertainty(THERMOMETRY, "temperature", 2)
    yield Reading((), inside - outside, _AIR[0], spread, _air_details(inside, outside))


def _air_details(inside: float, outside: float) -> tuple[Detail, Detail]:
    return (
        Detail("inside_air_c", inside, "degC", _AIR[0]),
        Detail("outside_air_c", outside, "degC", _AIR[1]),
    )


def factor(work: Work) -> Iterator[Outcome]:
    """Temperature factor of the coldest inside surface, with the uncertainty of three readings.

    The three are taken as independent. With one thermometer for all of them part of its error cancels, so
    that the uncertainty is on the safe side.
    """
    if missing := lacking(work, (), _SURFACE, *_AIR):
        yield from missing
        return
    surface, inside, outside = (work.look(*path) for path in (_SURFACE, *_AIR))
    if inside == outside:
        yield Missing((), "no_temperature_difference", THERMOMETRY)
        return
    details = (Detail("surface_c", surface, "degC", _SURFACE), *_air_details(inside, outside))
    value = temperature_factor(surface, inside, outside)
    kelvin, spread = work.uncertainty(THERMOMETRY, "temperature"), None
    if kelvin is not None:
        u = kelvin / K
        spread = expanded(
            factor_uncertainty(surface, inside, outside, u_surface_k=u, u_inside_k=u, u_outside_k=u), K
        )
    yield Reading((), value, _SURFACE, spread, details)


def room_climate_stated(work: Work) -> Iterator[Outcome]:
    """Whether the record states any figure of the climate that the room is meant for."""
    stated = any(work.look(*THERMOMETRY, key) is not None for key in _ROOM)
    yield Reading((), stated, THERMOMETRY)


def factor_reserve(work: Work) -> Iterator[Outcome]:
    """By how much the temperature factor exceeds what the room's own climate asks for.

    Asked for is at most 80 % humidity at the surface in that climate (ISO 13788:2012).
    """
    paths = [(*THERMOMETRY, key) for key in _ROOM]
    if missing := lacking(work, (), *paths):
        yield from missing
        return
    inside, humidity, outside = (work.look(*path) for path in paths)
    if inside <= outside:
        yield Missing((), "no_temperature_difference", THERMOMETRY)
        return
    asked = required_factor(inside, humidity, outside)
    for found in factor(work):
        if isinstance(found, Missing):
            yield found
            continue
        details = (
            Detail("temperature_factor", found.value, "-", _SURFACE),
            Detail("required_factor", asked, "-"),
            Detail("required_surface_c", required_surface_c(inside, humidity), "degC"),
        )
        yield Reading((), float(found.value) - asked, _SURFACE, found.uncertainty, details)
