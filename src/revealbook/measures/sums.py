"""Sums that must close: the opening less the window is the two joints and whatever else stands between them.

A size typed wrongly, or read from the wrong drawing, breaks the sum although it looks right by itself.
"""

from collections.abc import Iterator
from math import sqrt

from revealbook.measures.arch import is_arched
from revealbook.measures.facade import BOX
from revealbook.measures.reading import Detail, Missing, Outcome, Path, Reading
from revealbook.measures.stated import is_stated
from revealbook.measures.work import Work, lacking

_ACROSS = (("bottom", "start"), ("middle", "middle"), ("top", "end"))
_UPWARDS = (("left", "start"), ("middle", "middle"), ("right", "end"))
"""Where the opening was measured, and the place of the joint that lies in the same line."""
PLINTH: Path = ("plinth", "used")


def width_sum_error(work: Work) -> Iterator[Outcome]:
    """By how much opening width - window width - left and right joint misses zero at three heights, mm."""
    for place, at in _ACROSS:
        joints: tuple[Path, Path] = (_joint("left", at), _joint("right", at))
        yield from _closing(work, place, ("survey", "widths_mm", place), ("window", "width_mm"), joints)


def height_sum_error(work: Work) -> Iterator[Outcome]:
    """By how much opening height - window height - bottom and top joint misses zero at three places, mm.

    With a plinth profile under the window, its height (the profile's width in elevation) and the packers
    below it count as well, and so does a shutter box above it. Under an arch only the middle is summed.
    """
    under = _under_the_window(work)
    if not isinstance(under, float):
        yield from under
        return
    for place, at in _UPWARDS[1:2] if is_arched(work) else _UPWARDS:
        joints: tuple[Path, Path] = (_joint("bottom", at), _joint("top", at))
        opening: Path = ("survey", "heights_mm", place)
        yield from _closing(work, place, opening, ("window", "height_mm"), joints, under)


def overlap_sum_error(work: Work) -> Iterator[Outcome]:
    """By how much bottom piece - opening width at the sill - both overlaps misses zero, mm."""
    length: Path = ("frame", "pieces", "bottom", "length_mm")
    opening: Path = ("survey", "widths_mm", "bottom")
    over: list[Path] = [("frame", "pieces", "bottom", f"overlap_{side}_mm") for side in ("left", "right")]
    if missing := lacking(work, ("bottom",), length, opening, *over):
        yield from missing
        return
    cut, clear, left, right = (work.look(*path) for path in (length, opening, *over))
    details = (
        Detail("length_mm", cut, "mm", length),
        Detail("clear_size_mm", clear, "mm", opening),
        Detail("overlap_left_mm", left, "mm", over[0]),
        Detail("overlap_right_mm", right, "mm", over[1]),
    )
    survey, frame = work.uncertainty("survey", "length"), work.uncertainty("frame", "length")
    spread = None if survey is None or frame is None else sqrt(survey**2 + 3 * frame**2)
    yield Reading(("bottom",), abs(cut - clear - left - right), length, spread, details)


def _joint(side: str, at: str) -> Path:
    return ("window", "joint_widths_mm", side, at)


def _closing(  # noqa: PLR0917 - the parts of one sum
    work: Work, place: str, opening: Path, window: Path, joints: tuple[Path, Path], under: float = 0.0
) -> Iterator[Outcome]:
    if missing := lacking(work, (place,), opening, window, *joints):
        yield from missing
        return
    clear, outer = work.look(*opening), work.look(*window)
    between = [work.look(*path) for path in joints]
    details = [
        Detail("measured_mm", clear, "mm", opening),
        Detail("window_mm", outer, "mm", window),
        Detail("joints_mm", sum(between), "mm", joints[0]),
    ]
    if under:
        details.append(Detail("under_window_mm", under, "mm", PLINTH))
    error = clear - outer - sum(between) - under
    yield Reading((place,), abs(error), opening, _spread(work), tuple(details))


def _spread(work: Work) -> float | None:
    """Uncertainty of one reading in the survey and three at the window; None unless both are stated."""
    survey, window = work.uncertainty("survey", "length"), work.uncertainty("window", "length")
    return None if survey is None or window is None else sqrt(survey**2 + 3 * window**2)


def _under_the_window(work: Work) -> float | tuple[Missing, ...]:
    """Height of plinth profile, packers and shutter box, mm; or all that is missing for it."""
    used, box = work.look(*PLINTH), work.look(*BOX, "height_mm")
    if used is None:
        return (Missing((), "used", PLINTH),)
    if box is None and is_stated(work, BOX):
        return (Missing((), "height_mm", (*BOX, "height_mm")),)
    if not used:
        return float(box or 0.0)
    profile = work.product("profiles", work.look("plinth", "product"))
    height, packers = getattr(profile, "width_mm", None), _packers(work)
    missing = packers if isinstance(packers, tuple) else ()
    if height is None:
        missing += (Missing((), "profile_width_mm", ("plinth", "product")),)
    return missing or float(height or 0.0) + float(packers) + float(box or 0.0)  # type: ignore[arg-type]  # a number: none is missing


def _packers(work: Work) -> float | tuple[Missing, ...]:
    path: Path = ("plinth", "packers", "height_mm")
    needed, packed = work.look("plinth", "packers", "height_needed_mm"), work.look(*path)
    if packed is not None or needed == 0:
        return float(packed or 0.0)
    return (Missing((), "height_mm", path),)
