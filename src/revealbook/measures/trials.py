"""Readings of the tests on the finished installation: thermometry, air leakage, water spray.

A test that was not made gives no reading; `made` tells rules so, and they then do not apply.
"""

from collections.abc import Callable, Iterator
from math import isfinite
from typing import NamedTuple

from revealbook.measures.physics.leakage import FlowEstimate, PowerLaw, fit_power_law
from revealbook.measures.physics.permeability_class import (
    REFERENCE_PRESSURE_PA,
    class_by,
    permeability_classes,
    permitted_flow,
)
from revealbook.measures.physics.surface_temperature import factor_uncertainty, temperature_factor
from revealbook.measures.physics.uncertainty import expanded
from revealbook.measures.reading import Detail, Missing, Outcome, Path, Reading, Subject
from revealbook.measures.work import Work, lacking

THERMOMETRY: Path = ("tests", "thermometry")
LEAKAGE: Path = ("tests", "air_leakage")
K = 2
"""Coverage factor of the instruments' expanded uncertainty."""
_AIR = ((*THERMOMETRY, "inside_air_c"), (*THERMOMETRY, "outside_air_c"))
_SURFACE = (*THERMOMETRY, "surface_c")
Points = list[tuple[float, float]]


def made(work: Work, test: str) -> Iterator[Outcome]:
    """Whether a test was made: whether the record has its part under `tests`."""
    yield Reading((), work.look("tests", test) is not None, ("tests", test))


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


def _points(work: Work) -> Iterator[tuple[Subject, Points] | Missing]:
    """The points read under overpressure and those under suction, as magnitudes; each set stands alone."""
    readings = work.look(*LEAKAGE, "readings")
    if not readings:
        yield Missing((), "readings", (*LEAKAGE, "readings"))
        return
    paths: list[Path] = [
        (*LEAKAGE, "readings", number, key)
        for number in range(len(readings))
        for key in ("pressure_pa", "flow_m3_h")
    ]
    if missing := lacking(work, (), *paths):
        yield from missing
        return
    for name, sign in (("overpressure", 1), ("suction", -1)):
        points = [(sign * one.pressure_pa, one.flow_m3_h) for one in readings if sign * one.pressure_pa > 0]
        if points:
            yield (name,), points
    if all(one.pressure_pa == 0 for one in readings):
        yield Missing((), "pressure_pa", (*LEAKAGE, "readings"))


class Fit(NamedTuple):
    """The law through the points of one set."""

    subject: Subject
    law: PowerLaw


def _fits(work: Work) -> Iterator[Fit | Missing]:
    for found in _points(work):
        if isinstance(found, Missing):
            yield found
            continue
        subject, points = found
        law = _law(points)
        if law is None:
            yield Missing(subject, "no_law_fits", (*LEAKAGE, "readings"), _range(points))
        else:
            yield Fit(subject, law)


def _law(points: Points) -> PowerLaw | None:
    """Fit the points; None where they are too few or too close together for any law."""
    try:
        law = fit_power_law(points)
    except (ValueError, ArithmeticError):
        return None
    return law if all(map(isfinite, (law.exponent, law.r_squared, law.s_exponent))) else None


def _range(points: Points) -> tuple[Detail, ...]:
    pressures = [pressure for pressure, _ in points]
    return (
        Detail("points", len(points), "number"),
        Detail("lowest_pa", min(pressures), "Pa"),
        Detail("highest_pa", max(pressures), "Pa"),
    )


def exponent(work: Work) -> Iterator[Outcome]:
    """Exponent n of the law q = C dp^n, with half its 95 % confidence interval as uncertainty."""
    return _of_fits(work, lambda law: (law.exponent, law.exponent_interval.high - law.exponent))


def r_squared(work: Work) -> Iterator[Outcome]:
    """Coefficient of determination of the fit on logarithms."""
    return _of_fits(work, lambda law: (law.r_squared, None))


def _of_fits(work: Work, value_of: Callable[[PowerLaw], tuple[float, float | None]]) -> Iterator[Outcome]:
    for fit in _fits(work):
        if isinstance(fit, Missing):
            yield fit
            continue
        value, spread = value_of(fit.law)
        points = [(reading.pressure_pa, reading.flow_m3_h) for reading in fit.law.readings]
        yield Reading(fit.subject, value, (*LEAKAGE, "readings"), spread, _range(points))


def flow_at_100_pa(work: Work, size_key: str) -> Iterator[Outcome]:
    """Flow at 100 Pa for each m2 of area or m of joint (`size_key`), from the fitted law.

    Its uncertainty is the wider half of the 95 % confidence interval. Readings that do not reach 100 Pa on
    either side of it show nothing: the law is not carried beyond them.
    """
    size, size_path = work.look(*LEAKAGE, size_key), (*LEAKAGE, size_key)
    if size is None:
        yield Missing((), size_key, size_path)
    for fit in _fits(work):
        if isinstance(fit, Missing):
            yield fit
            continue
        if size is None:
            continue
        points = [(reading.pressure_pa, reading.flow_m3_h) for reading in fit.law.readings]
        estimate = _at_100_pa(fit.law)
        if estimate is None or estimate.extrapolated:
            why = "no_law_fits" if estimate is None else "not_read_at_100_pa"
            yield Missing(fit.subject, why, (*LEAKAGE, "readings"), _range(points))
            continue
        unit = "m2" if size_key == "area_m2" else "m"
        details = (
            Detail("flow_at_100_pa", estimate.flow_m3_h, "m3/h"),
            Detail(size_key, size, unit, size_path),
        )
        reach = (estimate.interval.high - estimate.flow_m3_h) / size
        yield Reading(fit.subject, estimate.flow_m3_h / size, (*LEAKAGE, "readings"), reach, details)


def _at_100_pa(law: PowerLaw) -> FlowEstimate | None:
    try:
        estimate = law.flow_at(REFERENCE_PRESSURE_PA)
    except ArithmeticError:
        return None
    return estimate if isfinite(estimate.interval.high) else None


def reaches_a_class(work: Work) -> Iterator[Outcome]:
    """Whether the readings reach the test pressure of the lowest air permeability class at all."""
    highest = 0.0
    for found in _points(work):
        if isinstance(found, Missing):
            yield found
        else:
            highest = max(highest, *(pressure for pressure, _ in found[1]))
    if not highest:
        return
    lowest = permeability_classes()[0].max_pressure_pa
    yield Reading((), highest >= lowest, (*LEAKAGE, "readings"), None, (Detail("highest_pa", highest, "Pa"),))


def permeability_class(work: Work) -> Iterator[Outcome]:
    """Air permeability class by area that the readings show, as EN 12207 counts; 0 for none.

    The class by joint is left out: the record's `joint_length_m` is the joint tested, not the opening joint
    that the standard means. As long as a better class than the one shown is neither reached nor refuted the
    class is open, and there is no reading: nothing is extrapolated.
    """
    area, path = work.look(*LEAKAGE, "area_m2"), (*LEAKAGE, "area_m2")
    if area is None:
        yield Missing((), "area_m2", path)
    for found in _points(work):
        if isinstance(found, Missing):
            yield found
        elif area is not None:
            subject, points = found
            shown = class_by("area", points, area) or 0
            details = (Detail("class_shown", shown, "number"), *_range(points)[2:])
            if _better_is_open(shown, points, area):
                yield Missing(subject, "class_open", (*LEAKAGE, "readings"), details)
            else:
                yield Reading(subject, shown, (*LEAKAGE, "readings"), None, details[1:])


def _better_is_open(shown: int, points: Points, area_m2: float) -> bool:
    """Whether no reading speaks against some class above the one shown, for want of pressure only."""
    better = [row for row in permeability_classes() if row.number > shown]
    return any(
        all(
            flow / area_m2 <= permitted_flow(row.number, pressure, "area")
            for pressure, flow in points
            if pressure <= row.max_pressure_pa
        )
        for row in better
    )
