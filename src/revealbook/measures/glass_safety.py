"""What keeps people from falling out. Indicative only: local codes and the designer's proof govern."""

from collections.abc import Iterator

from revealbook.measures.reading import Missing, Outcome, Path, Reading
from revealbook.measures.stated import is_stated
from revealbook.measures.work import Work, one

SAFETY: Path = ("window", "glass_safety")
_PANES = ("inner_pane", "outer_pane")
_GUARDS = ("sill_above_floor_mm", "guard_height_mm")


def fall_looked_at(work: Work) -> Iterator[Outcome]:
    """Whether the record says anything of glass and falling."""
    yield Reading((), is_stated(work, SAFETY), SAFETY)


def fall_protection(work: Work) -> Iterator[Outcome]:
    """Whether the glass itself is to keep people from falling."""
    path = (*SAFETY, "fall_protection")
    yield Reading((), work.look(*path) is True, path)


def guard_height(work: Work) -> Iterator[Outcome]:
    """Height of the sill or of a separate guard above the floor inside, mm, whichever is higher."""
    known = [(value, (*SAFETY, key)) for key in _GUARDS if (value := work.look(*SAFETY, key)) is not None]
    if not known:
        yield Missing((), _GUARDS[0], (*SAFETY, _GUARDS[0]))
        return
    height, path = max(known)
    yield Reading((), height, path, work.uncertainty("window", "length"))


def drop(work: Work) -> Iterator[Outcome]:
    """How far it is down outside from the floor inside, m."""
    yield one(work, (), (*SAFETY, "drop_m"))


def laminated_panes(work: Work) -> Iterator[Outcome]:
    """How many of the inner and the outer pane are laminated safety glass."""
    panes = {key: work.look(*SAFETY, key) for key in _PANES}
    number = sum(pane == "laminated safety" for pane in panes.values())
    unknown = next((key for key, pane in panes.items() if pane is None), None)
    if unknown is not None and not number:
        yield Missing((), unknown, (*SAFETY, unknown))
    else:
        yield Reading((), number, (*SAFETY, _PANES[0]))
