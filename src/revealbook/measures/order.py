"""The order of the work: what cannot be dated after what builds on it."""

from collections.abc import Iterator, Mapping
from datetime import datetime
from types import MappingProxyType

from revealbook.measures.acceptance import looks_at, released
from revealbook.measures.left_out import left_out
from revealbook.measures.reading import Detail, Missing, Outcome, Path, Reading
from revealbook.measures.seals import dated
from revealbook.measures.tapes import TAPES
from revealbook.measures.unread import hours
from revealbook.measures.waits import hours_between
from revealbook.measures.work import Work
from revealbook.records.applications import BONDING, applications

SET: Path = ("window", "set_at")
SECURED: Path = ("window", "secured_at")
RELEASES: Mapping[str, str] = MappingProxyType(
    {"substrate": "bonding", "frame": "window", "window": "foam", "foam": "second tape"}
)
"""Hold points with the work that goes on once they are passed; covering has a rule of its own."""

Moment = tuple[datetime, Path]


def survey_before_frame(work: Work) -> Iterator[Outcome]:
    """Hours from the survey to the first bead of the frame; negative if the frame came first."""
    surveyed: Path = ("survey", "at")
    at, laid = work.look(*surveyed), _first_bead(work)
    if at is None:
        yield Missing((), "at", surveyed)
        return
    if isinstance(laid, Missing):
        yield laid
        return
    details = (
        Detail("from", at.isoformat(), "-", surveyed),
        Detail("to", laid[0].isoformat(), "-", laid[1]),
    )
    yield Reading((), hours(at, laid[0]), laid[1], None, details)


def secured_after_set(work: Work) -> Iterator[Outcome]:
    """Hours from setting the window to securing it; negative if it is said to be secured first."""
    yield hours_between(work, SET, SECURED)


def work_after_hold_points(work: Work) -> Iterator[Outcome]:
    """Hours from passing each hold point to the work that it releases; negative if the work came first.

    What counts is the last look before the work; if that was not passed, the first one passed after it.
    Joint tape is on the window when that is set, so that nothing waits for its release.
    """
    gone = left_out(work)
    if work.look("seals", "filling") == "joint tape":
        gone |= {"foam", "second tape"}
    for name in work.method.hold_points:
        release = RELEASES.get(name)
        if release is None or release in gone:
            continue
        subject = (f"hold point {name}",)
        looks, begun = looks_at(work, name), _begun(work, release)
        if isinstance(looks, Missing) or isinstance(begun, Missing):
            yield looks if isinstance(looks, Missing) else begun._replace(subject=subject)  # type: ignore[union-attr]
            continue
        passed = released(looks, begun[0])
        if passed is None:
            yield Missing(subject, "passed", (*looks[-1].path, "passed"))
            continue
        details = (
            Detail("from", passed.at.isoformat(), "-", (*passed.path, "at")),
            Detail("to", begun[0].isoformat(), "-", begun[1]),
        )
        yield Reading(subject, hours(passed.at, begun[0]), (*passed.path, "at"), None, details)


def _begun(work: Work, what: str) -> Moment | Missing:
    """Give the moment at which some work began."""
    if what == "bonding":
        return _first_bead(work)
    if what == "window":
        at = work.look(*SET)
        return Missing((), str(SET[-1]), SET) if at is None else (at, SET)
    found = dated(work, *(("foam",) if what == "foam" else TAPES))
    if isinstance(found, Missing):
        return found
    first = found[0]
    if what == "foam":
        return first.at, first.path
    second = next((tape for tape in found if tape.step.step != first.step.step), None)
    other = next(side for side in TAPES if side != first.step.step)
    return Missing((other,), other, ("seals", "events")) if second is None else (second.at, second.path)


def _first_bead(work: Work) -> Moment | Missing:
    """Give when the first bead of the frame was laid; `Missing` if any application has no time."""
    found: list[Moment] = []
    for one in applications(work.opening):
        if one.nonconformity is not None:
            continue
        path: Path = (*one.path, "laid_at")
        if one.recorded.laid_at is None:
            return Missing((), "at", path)
        found.append((one.recorded.laid_at, path))
    return min(found, default=Missing((), "at", BONDING))


def signed_after_work(work: Work) -> Iterator[Outcome]:
    """Hours from the last step of setting and sealing to the last signature of each role that signs."""
    last = _last_step(work)
    for role in work.method.signing_roles:
        signs = [(sign, n) for n, sign in enumerate(work.opening.sign_offs or ()) if sign.role == role]
        undated = next((n for sign, n in signs if sign.at is None), None)
        if not signs or undated is not None:
            path: Path = ("sign_offs",) if undated is None else ("sign_offs", undated, "at")
            yield Missing((role,), str(path[-1]), path)
            continue
        if isinstance(last, Missing):
            yield last._replace(subject=(role,))
            continue
        at, number = max((sign.at, n) for sign, n in signs if sign.at is not None)
        details = (Detail("from", last[0].isoformat(), "-", last[1]), Detail("to", at.isoformat(), "-"))
        yield Reading((role,), hours(last[0], at), ("sign_offs", number, "at"), None, details)


def _last_step(work: Work) -> Moment | Missing:
    """Give the last dated step of setting and sealing; `Missing` if any step has no time or none was told."""
    events = tuple(work.look("seals", "events") or ())
    if not events:
        return Missing((), "events", ("seals", "events"))
    paths: list[Path] = [SET, SECURED, *(("seals", "events", number, "at") for number in range(len(events)))]
    found: list[Moment] = []
    for path in paths:
        if (at := work.look(*path)) is None:
            return Missing((), str(path[-1]), path)
        found.append((at, path))
    return max(found, key=lambda moment: moment[0])
