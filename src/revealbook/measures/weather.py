"""Products in date, and the weather they were used in, at bonding and at every tape and foam."""

from collections.abc import Iterator
from datetime import date, datetime
from typing import NamedTuple

from revealbook.measures.bonding import adhesive_of
from revealbook.measures.left_out import left_out
from revealbook.measures.physics.dew_point import (
    Phase,
    dew_point_c,
    margin_over_dew_point_k,
    margin_uncertainty_k,
)
from revealbook.measures.reading import Detail, Missing, Outcome, Path, Reading, Subject
from revealbook.measures.work import Work
from revealbook.records.applications import BONDING, Applied, applications
from revealbook.records.bonding import Application, Batch
from revealbook.records.seals import SealEvent

K = 2
"""Coverage factor of the instruments' expanded uncertainty."""


class Use(NamedTuple):
    """A product used at a moment: what was recorded, and its data sheet.

    Attributes:
        subject: which use.
        path: its place in the record.
        recorded: what was recorded of it.
        product: the product, if it is known.
        section: the section of the record whose instruments read its weather.
        at: the key of its moment.
    """

    subject: Subject
    path: Path
    recorded: Application | SealEvent
    product: object | None
    section: str
    at: str = "at"

    @property
    def moment(self) -> datetime | None:
        """When the product was used."""
        found: datetime | None = getattr(self.recorded, self.at)
        return found


def uses(work: Work) -> Iterator[Use | Missing]:
    """Every use of adhesive, tape and foam; `Missing` for an event that does not say what was done."""
    yield from _adhesives(work)
    yield from sealings(work)


def _adhesives(work: Work) -> Iterator[Use | Missing]:
    applied = applications(work.opening)
    if "bonding" in left_out(work):
        return
    if not applied:
        yield Missing(("bonding",), "bonding", BONDING)
    for one in applied:
        product = work.product("adhesives", one.recorded.product)
        yield Use(one.subject, one.path, one.recorded, product, "frame", "laid_at")


def sealings(work: Work) -> Iterator[Use | Missing]:
    """Every use of tape and foam; `Missing` for an event that does not say what was done."""
    for number, event in enumerate(events := work.look("seals", "events") or ()):
        path: Path = ("seals", "events", number)
        if event.step is None:
            yield Missing((f"event {number + 1}",), "step", (*path, "step"))
        elif event.step != "trim":
            kind = "foams" if event.step == "foam" else "tapes"
            yield Use((event.step,), path, event, work.product(kind, event.product), "seals")
    if not events:
        yield Missing((), "events", ("seals", "events"))


def days_before_expiry(work: Work) -> Iterator[Outcome]:
    """Days from the use of each product to its use-by date; negative once it is past."""
    for use in uses(work):
        if isinstance(use, Missing):
            yield use
            continue
        used, moment = use.moment, (*use.path, use.at)
        for subject, expires, path in _use_by_dates(use):
            if used is None or expires is None:
                absent = moment if used is None else path
                yield Missing(subject, "at" if used is None else "expires", absent)
                continue
            details = (
                Detail("used", used.date().isoformat(), "-", moment),
                Detail("expires", expires.isoformat(), "-", path),
            )
            yield Reading(subject, float((expires - used.date()).days), path, None, details)


def _use_by_dates(use: Use) -> Iterator[tuple[Subject, date | None, Path]]:
    """Give the use-by date of every batch of a use, with its subject and place."""
    if isinstance(use.recorded, SealEvent):
        yield use.subject, use.recorded.expires, (*use.path, "expires")
        return
    batches = use.recorded.batches or ()
    if not batches:
        yield use.subject, None, (*use.path, "batches")
    for number, batch in enumerate(batches):
        named = () if len(batches) == 1 else (f"batch {batch.number or number + 1}",)
        yield (*use.subject, *named), batch.expires, (*use.path, "batches", number, "expires")


def days_before_stale(work: Work) -> Iterator[Outcome]:
    """Days from the use of each batch of adhesive to the last day on which it may be used once opened.

    Adhesives whose data sheet states no such days have no reading.
    """
    if not applications(work.opening):
        yield Missing(("bonding",), "bonding", BONDING)
    for one in applications(work.opening):
        adhesive = adhesive_of(work, one)
        if adhesive is None:
            yield Missing(one.subject, "product", (*one.path, "product"))
        elif adhesive.days_once_opened is not None:
            yield from _opened(one, adhesive.days_once_opened)


def _opened(applied: Applied, allowed: int) -> Iterator[Outcome]:
    laid, moment = applied.recorded.laid_at, (*applied.path, "laid_at")
    batches = applied.recorded.batches or (Batch(),)
    for number, batch in enumerate(batches):
        path = (*applied.path, "batches", number, "opened_at")
        named = () if len(batches) == 1 else (f"batch {batch.number or number + 1}",)
        subject = (*applied.subject, *named)
        if laid is None or batch.opened_at is None:
            absent = moment if laid is None else path
            yield Missing(subject, str(absent[-1]), absent)
        elif batch.opened_at > laid:
            yield Missing(subject, "opened_after_laid", path)
        else:
            days = (laid - batch.opened_at).total_seconds() / 86400
            details = (
                Detail("opened_at", batch.opened_at.isoformat(), "-", path),
                Detail("days_once_opened", allowed, "d"),
            )
            yield Reading(subject, allowed - days, path, None, details)


def window_margin(  # noqa: PLR0917 - called by three one-liners below only
    work: Work, key: str, low: str, high: str, unit: str, measures: str
) -> Iterator[Outcome]:
    """By how much a weather reading lies inside what the product's data sheet allows.

    Args:
        work: the opening.
        key: the reading's key: `air_c`, `surface_c` or `rh_pct`.
        low: the data sheet's key of the lowest value. Of a temperature it must be stated; of a humidity, one
            end is enough, because many data sheets state only one.
        high: that of the highest.
        unit: unit of the reading.
        measures: kind of instrument.
    """
    for use in uses(work):
        if isinstance(use, Missing):
            yield use
            continue
        value, path = getattr(use.recorded, key), (*use.path, key)
        lowest, highest = getattr(use.product, low, None), getattr(use.product, high, None)
        if value is None:
            yield Missing(use.subject, key, path)
        elif lowest is None and (highest is None or unit == "degC"):
            yield Missing(use.subject, low, (*use.path, "product"))
        else:
            ends = [(value - lowest, low, lowest)] if lowest is not None else []
            if highest is not None:
                ends.append((highest - value, high, highest))
            margin, name, limit = min(ends)
            details = (Detail(key, value, unit, path), Detail(name, limit, unit))
            yield Reading(use.subject, margin, path, work.uncertainty(use.section, measures), details)


def air_margin(work: Work) -> Iterator[Outcome]:
    """By how much the air temperature lies inside the product's range, K."""
    return window_margin(work, "air_c", "air_min_c", "air_max_c", "degC", "temperature")


def surface_margin(work: Work) -> Iterator[Outcome]:
    """By how much the surface temperature lies inside the product's range, K."""
    return window_margin(work, "surface_c", "surface_min_c", "surface_max_c", "degC", "temperature")


def humidity_margin(work: Work) -> Iterator[Outcome]:
    """By how much the humidity lies inside the product's range, percentage points."""
    return window_margin(work, "rh_pct", "rh_min_pct", "rh_max_pct", "%", "humidity")


def dew_point_margin(work: Work) -> Iterator[Outcome]:
    """By how many kelvin the surface is warmer than the dew point of the air at each use.

    A use of a product whose data sheet states a margin of its own is left to `products_dew_point_margin`.
    """
    for use in uses(work):
        if isinstance(use, Missing):
            yield use
        elif work.method.computations == 1 or _own_dew_margin(use) is None:
            yield _dew_point_margin(work, use)


def products_dew_point_margin(work: Work) -> Iterator[Outcome]:
    """By how many kelvin the margin over dew point exceeds what the data sheet of the product used asks for.

    Uses of products that ask for none have no reading.
    """
    for use in uses(work):
        if isinstance(use, Missing):
            yield use
            continue
        asked = _own_dew_margin(use)
        if asked is None:
            if use.product is None:
                yield Missing(use.subject, "product", (*use.path, "product"))
            continue
        found = _dew_point_margin(work, use)
        if isinstance(found, Reading):
            details = (*found.details, Detail("dew_margin_k", asked, "K"))
            found = found._replace(value=float(found.value) - asked, details=details)
        yield found


def _own_dew_margin(use: Use) -> float | None:
    asked: float | None = getattr(use.product, "dew_margin_k", None)
    return asked


def _dew_point_margin(work: Work, use: Use) -> Outcome:
    air, rh, surface = use.recorded.air_c, use.recorded.rh_pct, use.recorded.surface_c
    if air is None or rh is None or surface is None:
        key = "air_c" if air is None else "rh_pct" if rh is None else "surface_c"
        return Missing(use.subject, key, (*use.path, key))
    over = humidity_over(work, use.section)
    details = (
        Detail("surface_c", surface, "degC", (*use.path, "surface_c")),
        Detail("dew_point_c", dew_point_c(air, rh, over), "degC"),
        Detail("air_c", air, "degC", (*use.path, "air_c")),
        Detail("rh_pct", rh, "%", (*use.path, "rh_pct")),
    )
    margin = margin_over_dew_point_k(surface, air, rh, over)
    uncertainty = _dew_uncertainty(work, use, air, rh, over)
    return Reading(use.subject, margin, (*use.path, "surface_c"), uncertainty, details)


def humidity_over(work: Work, section: str) -> Phase:
    """Whether the humidity read in a section refers to water or ice below 0 degC.

    To water, as most meters do, unless every humidity meter named there is stated to refer to ice; rule sets
    of format 1 took every humidity to refer to ice.
    """
    if work.method.computations == 1:
        return "ice"
    named = set(work.look(section, "instruments") or ())
    meters = [
        tool for tool in work.around.site.instruments if tool.measures == "humidity" and tool.id in named
    ]
    return "ice" if meters and all(meter.rh_refers_to == "ice" for meter in meters) else "water"


def _dew_uncertainty(work: Work, use: Use, air_c: float, rh_pct: float, over: Phase) -> float | None:
    """Expanded uncertainty of the margin, if the instruments of both kinds are stated."""
    kelvin, points = work.uncertainty(use.section, "temperature"), work.uncertainty(use.section, "humidity")
    if kelvin is None or points is None:
        return None
    u_k = kelvin / K
    return K * margin_uncertainty_k(
        air_c, rh_pct, u_surface_k=u_k, u_air_k=u_k, u_rh_pct=points / K, over=over
    )


def open_time_left(work: Work) -> Iterator[Outcome]:
    """Minutes of the adhesive's open time left when the last piece of each application was pressed on."""
    applied = applications(work.opening)
    if not applied:
        yield Missing(("bonding",), "at", BONDING)
    yield from (_open_time_left(work, one) for one in applied)


def _open_time_left(work: Work, applied: Applied) -> Outcome:
    laid, pressed = applied.recorded.laid_at, applied.recorded.pressed_at
    subject, end = applied.subject, (*applied.path, "pressed_at")
    if laid is not None and pressed is not None and pressed < laid:
        return Missing(subject, "pressed_before_laid", end)
    allowed = getattr(work.product("adhesives", applied.recorded.product), "open_minutes", None)
    if laid is None:
        return Missing(subject, "at", (*applied.path, "laid_at"))
    if pressed is None:
        return Missing(subject, "pressed_at", end)
    if allowed is None:
        return Missing(subject, "open_minutes", (*applied.path, "product"))
    taken = (pressed - laid).total_seconds() / 60
    details = (Detail("taken_min", taken, "min", end), Detail("open_minutes", allowed, "min"))
    return Reading(subject, allowed - taken, end, None, details)
