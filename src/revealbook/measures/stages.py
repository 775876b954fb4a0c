"""Which stages of the work are closed: past the event from which on what was not recorded is missed."""

from collections.abc import Iterator
from typing import get_args

from revealbook.measures.method import Closing
from revealbook.measures.reading import Outcome, Reading
from revealbook.measures.work import Work

IN_ORDER: tuple[str, ...] = get_args(Closing)
"""The events that close stages, in the order of the work: each closes what those before it close as well."""


def closed(work: Work) -> Iterator[Outcome]:
    """Whether each stage is closed: by its own event or by any later one that is recorded.

    A hold point that was looked at and not passed closes nothing: the work goes on. Once all who sign have
    signed, all stages are closed. A stage for which the method names no event has no reading.
    """
    happened = set(_happened(work))
    latest = max((number for number, event in enumerate(IN_ORDER) if event in happened), default=-1)
    for stage, event in work.method.stage_closed_by:
        if event is not None:
            yield Reading((stage,), IN_ORDER.index(event) <= latest, ("hold_points",))


def _happened(work: Work) -> Iterator[str]:
    for point in work.opening.hold_points or ():
        if point.passed is not False and (point.passed or point.at):
            yield point.name
    signed = {sign.role for sign in work.opening.sign_offs or () if sign.by or sign.at}
    roles = set(work.method.signing_roles)
    if work.look("covering", "at") is not None or (roles and roles <= signed):
        yield "covering"
