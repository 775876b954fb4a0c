"""Readings of hold points, corrections, concessions, photographs, covering and sign-offs."""

from collections.abc import Iterator
from typing import Any

from revealbook.measures.reading import Detail, Missing, Outcome, Path, Reading, Subject
from revealbook.measures.seals import EVENTS
from revealbook.measures.waits import hours, wait_margin
from revealbook.measures.work import Work, each


def photographs(work: Work) -> Iterator[Outcome]:
    """How many photographs show each section of the work."""
    for section in work.method.photographed_sections:
        path: Path = (section, "photos")
        photos = work.look(*path)
        yield (
            Missing((section,), "photos", path) if photos is None else Reading((section,), len(photos), path)
        )


def hold_points_passed(work: Work) -> Iterator[Outcome]:
    """Whether each hold point was passed when it was last looked at."""
    points = work.opening.hold_points
    for name in work.method.hold_points:
        found = [(point, index) for index, point in enumerate(points or ()) if point.name == name]
        if not found:
            yield Missing((f"hold point {name}",), "hold_points", ("hold_points",))
            continue
        last, index = max(
            found, key=lambda pair: (pair[0].at is not None and pair[0].at.timestamp(), pair[1])
        )
        path = ("hold_points", index, "passed")
        subject = (f"hold point {name}",)
        yield Missing(subject, "passed", path) if last.passed is None else Reading(subject, last.passed, path)


def corrections_checked(work: Work) -> Iterator[Outcome]:
    """Whether each nonconformity found on site was corrected and the correction checked by somebody else."""
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
            yield Reading(subject, correction.by != correction.checked_by, path, None, details)


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
    """Whether somebody who holds it signed in each role that signs."""
    for role in work.method.signing_roles:
        subject = (role,)
        found = [
            (sign, number) for number, sign in enumerate(work.opening.sign_offs or ()) if sign.role == role
        ]
        if not found or found[-1][0].by is None or found[-1][0].at is None:
            yield Missing(subject, "sign_offs", ("sign_offs",))
            continue
        sign, number = found[-1]
        yield Reading(subject, role in _roles(work, sign.by), ("sign_offs", number, "by"))


def covered(work: Work) -> Iterator[Outcome]:
    """Whether the work has been covered."""
    at = work.look("covering", "at")
    path = ("covering", "at")
    yield Missing((), "at", path) if at is None else Reading((), value=True, path=path)


def hold_point_before_covering(work: Work) -> Iterator[Outcome]:
    """Hours from the hold point before covering to the covering."""
    points = [
        (point.at, number)
        for number, point in enumerate(work.opening.hold_points or ())
        if point.name == "before covering" and point.at is not None
    ]
    covered_at, path = work.look("covering", "at"), ("covering", "at")
    if not points or covered_at is None:
        yield Missing((), "hold_points" if not points else "at", ("hold_points",) if not points else path)
        return
    looked, number = points[-1]
    details = (Detail("from", looked.isoformat(), "-", ("hold_points", number, "at")),)
    yield Reading((), hours(looked, covered_at), path, None, details)


def covering_waits(work: Work) -> Iterator[Outcome]:
    """Hours by which adhesive, tapes and foam had longer than they needed before they were covered."""
    covered_at, path = work.look("covering", "at"), ("covering", "at")
    if covered_at is None:
        yield Missing((), "at", path)
        return
    used: list[tuple[Subject, str, Path, Any]] = [
        (("bonding",), "adhesives", ("frame", "bonding"), work.look("frame", "bonding"))
    ]
    events = each(work, *EVENTS)
    if isinstance(events, Missing):
        yield events
        events = enumerate(())
    for number, event in events:
        if event.step != "trim":
            used.append(
                ((event.step,), "foams" if event.step == "foam" else "tapes", (*EVENTS, number), event)
            )
    for subject, kind, here, event in used:
        at = getattr(event, "at", None)
        if at is None:
            yield Missing(subject, "at", (*here, "at"))
            continue
        product = work.product(kind, event.product)
        yield wait_margin(
            work,
            subject,
            (at, (*here, "at")),
            (covered_at, path),
            getattr(product, "cover_after", None),
            key="cover_after",
            product_path=(*here, "product"),
        )
