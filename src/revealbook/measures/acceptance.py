"""Readings of hold points, corrections, concessions, photographs, covering and sign-offs."""

from collections.abc import Iterator
from datetime import datetime
from typing import NamedTuple

from revealbook.measures.bonding import lasting
from revealbook.measures.left_out import left_out
from revealbook.measures.reading import Detail, Missing, Outcome, Path, Reading, Subject
from revealbook.measures.unread import hours
from revealbook.measures.waits import bond_wait, wait_margin
from revealbook.measures.weather import sealings
from revealbook.measures.work import Work
from revealbook.records.acceptance import Correction, HoldPoint, SignOff


def photographs(work: Work) -> Iterator[Outcome]:
    """How many photographs show each section of the work; of a frame that is left out there are none."""
    for section in work.method.photographed_sections:
        if section == "frame" and "mounting frame" in left_out(work):
            continue
        path: Path = (section, "photos")
        photos = work.look(*path)
        yield (
            Missing((section,), "photos", path) if photos is None else Reading((section,), len(photos), path)
        )


class Look(NamedTuple):
    """A hold point as looked at, with its moment and place."""

    at: datetime
    point: HoldPoint
    path: Path


def looks_at(work: Work, name: str) -> list[Look] | Missing:
    """Give every look at a hold point in order of time; `Missing` if there is none or one has no time.

    Of looks at one moment the worse stands last, so that it counts, whatever their order in the record.
    """
    subject, looks = (f"hold point {name}",), []
    for number, point in enumerate(work.opening.hold_points or ()):
        if point.name != name:
            continue
        path = ("hold_points", number)
        if point.at is None:
            return Missing(subject, "at", (*path, "at"))
        looks.append(Look(point.at, point, path))
    worse_last = work.method.computations > 1
    looks.sort(key=lambda look: (look.at, worse_last and _standing(look.point)))
    return looks or Missing(subject, "hold_points", ("hold_points",))


def _standing(point: HoldPoint) -> int:
    """Tell how bad a look is: passed and named, passed by nobody named, not said, not passed."""
    if point.passed:
        return 0 if point.by else 1
    return 2 if point.passed is None else 3


def hold_points_passed(work: Work) -> Iterator[Outcome]:
    """Whether each hold point was passed when it was last looked at, by somebody who is named."""
    for name in work.method.hold_points:
        if name == "foam" and work.look("seals", "filling") == "joint tape":
            continue
        looks, subject = looks_at(work, name), (f"hold point {name}",)
        if isinstance(looks, Missing):
            yield looks
            continue
        _, last, path = looks[-1]
        if last.passed is None or (last.passed and last.by is None):
            key = "passed" if last.passed is None else "by"
            yield Missing(subject, key, (*path, key))
        else:
            yield Reading(subject, last.passed, (*path, "passed"))


def corrections_checked(work: Work) -> Iterator[Outcome]:
    """Whether each nonconformity found on site was corrected, then checked by somebody else."""
    for number, found in enumerate(work.opening.nonconformities):
        path: Path = ("nonconformities", number, "correction")
        subject, correction = (found.id,), found.correction
        if correction is None:
            yield Reading(subject, value=False, path=("nonconformities", number))
            continue
        for key in ("what", "at", "by", "checked_at", "checked_by"):
            if getattr(correction, key) is None:
                yield Missing(subject, key, (*path, key))
                break
        else:
            details = (
                Detail("by", str(correction.by), "-", (*path, "by")),
                Detail("checked_by", str(correction.checked_by), "-", (*path, "checked_by")),
            )
            by_another = correction.by != correction.checked_by
            yield Reading(subject, by_another and _in_order(correction), path, None, details)


def _in_order(correction: Correction) -> bool:
    done, checked = correction.at, correction.checked_at
    return done is not None and checked is not None and done <= checked


def concessions_entitled(work: Work) -> Iterator[Outcome]:
    """Whether each concession is accepted by somebody entitled to, with a reason and a date."""
    for number, concession in enumerate(work.opening.concessions):
        subject, path = (f"concession {concession.rule}",), ("concessions", number)
        absent = next(
            (key for key in ("accepted_by", "reason", "at") if getattr(concession, key) is None), None
        )
        if absent is not None:
            yield Missing(subject, absent, (*path, absent))
            continue
        roles = _roles(work, concession.accepted_by)
        entitled = bool(roles & set(work.method.conceding_roles))
        yield Reading(subject, entitled, (*path, "accepted_by"))


def _roles(work: Work, name: str | None) -> set[str]:
    return {role for person in work.around.site.people if person.id == name for role in person.roles}


def signed(work: Work) -> Iterator[Outcome]:
    """Whether somebody who holds it signed in each role that signs.

    Of several signatures in a role the latest counts, and of those at one moment, or without one, the worst.
    """
    for role in work.method.signing_roles:
        found = [
            _signature(work, sign, number)
            for number, sign in enumerate(work.opening.sign_offs or ())
            if sign.role == role
        ]
        if not found:
            yield Missing((role,), "sign_offs", ("sign_offs",))
        elif work.method.computations == 1:
            yield found[-1].outcome
        else:
            undated = [one for one in found if one.at is None]
            latest = max((one.at for one in found if one.at is not None), default=None)
            counting = [one for one in found if one.at == latest]
            yield min((*undated, *counting), key=lambda one: one.standing).outcome


class Signature(NamedTuple):
    """A signature in a role: when; how it stands (0 not entitled, 1 not shown, 2 good); and as an outcome."""

    at: datetime | None
    standing: int
    outcome: Outcome


def _signature(work: Work, sign: SignOff, number: int) -> Signature:
    subject: Subject = (sign.role,)
    if sign.by is None or sign.at is None:
        return Signature(sign.at, 1, Missing(subject, "sign_offs", ("sign_offs",)))
    held = sign.role in _roles(work, sign.by)
    return Signature(sign.at, 2 if held else 0, Reading(subject, held, ("sign_offs", number, "by")))


def covered(work: Work) -> Iterator[Outcome]:
    """Whether the work has been covered."""
    at = work.look("covering", "at")
    path = ("covering", "at")
    yield Missing((), "at", path) if at is None else Reading((), value=True, path=path)


def released(looks: list[Look], at: datetime) -> Look | None:
    """Give the look that released some work: the last one before it, else the first one passed after it."""
    before, after = ([look for look in looks if (look.at <= at) is early] for early in (True, False))
    return next((look for look in (*before[-1:], *after) if look.point.passed), None)


def hold_point_before_covering(work: Work) -> Iterator[Outcome]:
    """Hours from passing the hold point before covering to the covering; negative if it was passed later.

    What counts is the last look before the covering; if that was not passed, the first one passed after it.
    """
    covered_at, path = work.look("covering", "at"), ("covering", "at")
    looks = looks_at(work, "before covering")
    if covered_at is None or isinstance(looks, Missing):
        yield looks if isinstance(looks, Missing) else Missing((), "at", path)
        return
    passed = released(looks, covered_at)
    if passed is None:
        yield Missing((), "passed", (*looks[-1].path, "passed"))
        return
    details = (Detail("from", passed.at.isoformat(), "-", (*passed.path, "at")),)
    yield Reading((), hours(passed.at, covered_at), path, None, details)


def covering_waits(work: Work) -> Iterator[Outcome]:
    """Hours by which adhesive, tapes and foam had longer than they needed before they were covered."""
    covered_at, path = work.look("covering", "at"), ("covering", "at")
    if covered_at is None:
        yield Missing((), "at", path)
        return
    for held in lasting(work):
        yield (
            held if isinstance(held, Missing) else bond_wait(work, held, (covered_at, path), "cover_after")
        )
    for use in sealings(work):
        if isinstance(use, Missing):
            yield use
            continue
        at, here = use.moment, (*use.path, "at")
        if at is None:
            yield Missing(use.subject, "at", here)
            continue
        yield wait_margin(
            work,
            use.subject,
            (at, here),
            (covered_at, path),
            getattr(use.product, "cover_after", None),
            key="cover_after",
            product_path=(*use.path, "product"),
        )
