"""Readings of the tests on the finished installation: whether they were made, and air leakage.

A test that was not made gives no reading; `made` tells rules so, and they then do not apply.
"""

from collections.abc import Callable, Iterator
from math import isfinite
from typing import NamedTuple

from revealbook.measures.physics.leakage import (
    FlowEstimate,
    PowerLaw,
    fit_power_law,
    reference_flow_factor,
)
from revealbook.measures.physics.permeability_class import (
    REFERENCE_PRESSURE_PA,
    class_by,
    permeability_classes,
    permitted_flow,
)
from revealbook.measures.reading import Detail, Missing, Outcome, Path, Reading, Subject
from revealbook.measures.work import Work, lacking

LEAKAGE: Path = ("tests", "air_leakage")
Points = list[tuple[float, float]]


class Air(NamedTuple):
    """What the air that was metered does to a flow.

    Attributes:
        factor: from the flow as metered to that at the reference climate; 1 for what nobody read.
        unread_share: expanded uncertainty of a flow, as its share, for what nobody read of it.
        unread: the key of the first reading that is missing.
        details: for the sentence.
    """

    factor: float = 1.0
    unread_share: float = 0.0
    unread: str | None = None
    details: tuple[Detail, ...] = ()


def made(work: Work, test: str) -> Iterator[Outcome]:
    """Whether a test was made: whether the record has its part under `tests`."""
    yield Reading((), work.look("tests", test) is not None, ("tests", test))


def _air(work: Work) -> Air:
    """Give the air of the leakage test; the first edition of the computations did not ask for it."""
    if work.method.computations == 1 or work.look(*LEAKAGE) is None:
        return Air()
    read = {"air_c": work.look(*LEAKAGE, "air_c"), "pressure_kpa": work.look(*LEAKAGE, "pressure_kpa")}
    shares = (work.method.flow_air_unread_pct, work.method.flow_pressure_unread_pct)
    unread = [key for key, value in read.items() if value is None]
    share = sum(pct for key, pct in zip(read, shares, strict=True) if key in unread) / 100
    factor = reference_flow_factor(**{key: value for key, value in read.items() if value is not None})
    details = [Detail("reference_factor", factor, "-")] if len(unread) < len(read) else []
    details += [Detail("air_unread_pct", 100 * share, "%")] if unread else []
    return Air(factor, share, unread[0] if unread else None, tuple(details))


def _points(work: Work) -> Iterator[tuple[Subject, Points] | Missing]:
    """The points under overpressure and those under suction, as magnitudes at the reference climate."""
    factor = _air(work).factor
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
        points = [
            (sign * one.pressure_pa, one.flow_m3_h * factor) for one in readings if sign * one.pressure_pa > 0
        ]
        if points:
            yield (name,), points
    if all(one.pressure_pa == 0 for one in readings):
        yield Missing((), "pressure_pa", (*LEAKAGE, "readings"))


def points_read(work: Work) -> Iterator[Outcome]:
    """At how many pressures air leakage was read in each direction."""
    for found in _points(work):
        if isinstance(found, Missing):
            yield found
        else:
            subject, points = found
            number = len({pressure for pressure, _ in points})
            yield Reading(subject, number, (*LEAKAGE, "readings"), None, _range(points)[1:])


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
        if len({pressure for pressure, _ in points}) < work.method.least_leakage_points:
            yield Missing(subject, "too_few_pressures", (*LEAKAGE, "readings"), _range(points))
        elif (law := _law(points)) is None:
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

    Its uncertainty is the wider half of the 95 % confidence interval, and what an unread temperature or
    pressure of the metered air may change. Readings that do not reach 100 Pa on either side of it show
    nothing: the law is not carried beyond them.
    """
    air = _air(work)
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
            *air.details,
        )
        reach = (estimate.interval.high - estimate.flow_m3_h + air.unread_share * estimate.flow_m3_h) / size
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
            if unread := _air_decides(_air(work), points, area):
                yield Missing(subject, unread, (*LEAKAGE, unread))
                continue
            shown = class_by("area", points, area) or 0
            details = (Detail("class_shown", shown, "number"), *_range(points)[2:])
            if _better_is_open(shown, points, area):
                yield Missing(subject, "class_open", (*LEAKAGE, "readings"), details)
            else:
                yield Reading(subject, shown, (*LEAKAGE, "readings"), None, details[1:])


def _air_decides(air: Air, points: Points, area_m2: float) -> str | None:
    """Give the key of the air's reading that is missing, if the class shown depends on it."""
    worst = [(pressure, flow * (1 + air.unread_share)) for pressure, flow in points]
    best = [(pressure, flow * (1 - air.unread_share)) for pressure, flow in points]
    same = class_by("area", worst, area_m2) == class_by("area", best, area_m2)
    return None if same else air.unread


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
