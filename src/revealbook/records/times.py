"""Times that cannot be meant: a year mistyped, so that work is dated long before what it stands on.

Hours and days in the wrong order are judged by rules; months in the wrong order are a slip of the pen, and
judging them would only give absurd waits.
"""

import re
from collections.abc import Iterator, Mapping
from datetime import datetime, timedelta
from statistics import median_low
from typing import NamedTuple

from revealbook.records.opening import Opening
from revealbook.records.part import Loc, parts
from revealbook.records.record import Record
from revealbook.source.problem import Problem

OUT_OF_ORDER = timedelta(days=90)
"""Longer than a frame stands before it is bonded anew, shorter than a year that is mistyped."""
ALONE = timedelta(days=200)
"""Weather and looks so far from all work belong to none of it."""
APART = timedelta(days=2 * 365)
YEARS_FROM_EDITION = 10
"""A site keeps the edition that it began with; none takes longer than this."""

_STAGES: tuple[tuple[Loc, ...], ...] = (
    (("survey", "at"),),
    (("frame", "bonding"),),
    (("plinth", "fitted_at"), ("window", "set_at"), ("window", "secured_at")),
    (("seals", "events"),),
    (("covering", "at"),),
)
"""Where the times of each stage stand, in the order of the work; readings may be taken long after it."""
_YEAR = re.compile(r"\d{4}(?!\d)")
_BESIDE = frozenset({"climate", "hold_points", "sign_offs"})
_MAY_COME_LATER = frozenset({"sign_offs", "hold_points"})
_OF_A_CORRECTION = {"found_at": 0, "laid_at": 1, "pressed_at": 1, "at": 1, "checked_at": 2}
"""Times of a nonconformity by what follows what; a cartridge may have been opened long before."""


class _Timed(NamedTuple):
    at: datetime
    path: Loc
    stage: int | None


def impossible_times(record: Record, edition: str) -> Iterator[Problem]:
    """Give a problem for every time of a record that cannot be meant, with the year that probably is.

    Args:
        record: the record.
        edition: edition of the rules that its site asks for, as 2026-12.
    """
    known = list(_times(record.opening))
    work = [one for one in known if one.stage is not None]
    wrong = {one.path: problem for one, problem in _faults(known, work, record, edition)}
    yield from (wrong[path] for path in sorted(wrong, key=record.sheet.place))


def _times(opening: Opening) -> Iterator[_Timed]:
    for path, part in parts(opening):
        for key, value in part.__dict__.items():
            if isinstance(value, datetime) and key != "until":
                here = (*path, key)
                yield _Timed(value, here, _stage(here))


def _stage(path: Loc) -> int | None:
    if path[-1] == "opened_at":
        return None
    return next(
        (n for n, places in enumerate(_STAGES) if any(path[: len(place)] == place for place in places)), None
    )


def _faults(
    known: list[_Timed], work: list[_Timed], record: Record, edition: str
) -> Iterator[tuple[_Timed, Problem]]:
    dated = _YEAR.match(edition)
    begun = int(dated[0]) if dated else None
    for one in known:
        if begun is not None and abs(one.at.year - begun) > YEARS_FROM_EDITION:
            yield one, _problem(record, one, "time_far_from_edition", {"edition": edition}, _middle(work))
    for one, other in (*_reversed(work), *_corrections(known)):
        facts = {"other": other.path[-1], "other_at": _day(other.at), "days": abs(one.at - other.at).days}
        code = "time_before" if one.at < other.at else "time_after"
        yield one, _problem(record, one, code, facts, _middle(work))
    for one in known:
        if (days := _alone(one, work)) is not None:
            yield one, _problem(record, one, "time_alone", {"days": days}, _middle(work))


def _reversed(work: list[_Timed]) -> Iterator[tuple[_Timed, _Timed]]:
    """Give pairs of times months out of order, first the one farther from the middle of the work."""
    middle = _middle(work)
    for first in work:
        for later in work:
            stages = (first.stage, later.stage)
            if None in stages or stages[0] >= stages[1] or first.at - later.at <= OUT_OF_ORDER:  # type: ignore[operator]
                continue
            apart = [abs(one.at - middle) if middle else timedelta() for one in (first, later)]
            yield (first, later) if apart[0] > apart[1] else (later, first)


def _corrections(known: list[_Timed]) -> Iterator[tuple[_Timed, _Timed]]:
    """Give times of a nonconformity's correction that lie months before what they follow."""
    found = [one for one in known if one.path[0] == "nonconformities" and one.path[-1] in _OF_A_CORRECTION]
    for first in found:
        for later in found:
            same, keys = (
                first.path[1] == later.path[1],
                [_OF_A_CORRECTION[str(one.path[-1])] for one in (first, later)],
            )
            if same and keys[0] < keys[1] and first.at - later.at > OUT_OF_ORDER:
                yield later, first


def _alone(one: _Timed, work: list[_Timed]) -> int | None:
    """Give the days between a time and all work, if they are so many that it cannot belong to it."""
    others = [other for other in work if other.path != one.path]
    if not others:
        return None
    nearest = min(others, key=lambda other: abs(one.at - other.at)).at
    apart, kind = abs(one.at - nearest), one.path[0]
    late = one.at > nearest and kind in _MAY_COME_LATER
    bound = ALONE if kind in _BESIDE and not late else APART
    counts = one.stage is not None or kind in _BESIDE or one.at < nearest
    return apart.days if counts and apart > bound else None


def _middle(work: list[_Timed]) -> datetime | None:
    return median_low(one.at for one in work) if work else None


def _problem(
    record: Record, one: _Timed, code: str, facts: Mapping[str, object], middle: datetime | None
) -> Problem:
    known = {"key": one.path[-1], "value": _day(one.at), "year": _year_meant(one.at, middle)}
    return Problem(record.sheet.place(one.path), code, {**known, **facts})


def _year_meant(at: datetime, middle: datetime | None) -> int | None:
    """Give the year with which a time would lie near the middle of the work; None if none does."""
    if middle is None or (at.month, at.day) == (2, 29):
        return None
    years = [year for year in range(middle.year - 1, middle.year + 2) if year != at.year]
    best = min(years, key=lambda year: abs(at.replace(year=year) - middle))
    return best if abs(at.replace(year=best) - middle) <= ALONE else None


def _day(at: datetime) -> str:
    return at.isoformat(timespec="minutes")
