"""What setting out starts from: the opening's sizes, the window's, and the profiles."""

from math import isclose
from typing import NamedTuple

from revealbook.measures.left_out import standing
from revealbook.measures.work import Work
from revealbook.records.products import Profile
from revealbook.setting_out.refusal import NotPossible, Reason


class Size(NamedTuple):
    """One size of the opening.

    Attributes:
        mm: the size.
        surveyed: whether it was measured on site; else it is the nominal one.
    """

    mm: float
    surveyed: bool


class Sizes(NamedTuple):
    """The opening as the frame has to follow it: what the judging holds the pieces against."""

    bottom: Size
    top: Size
    left: Size
    right: Size

    @property
    def surveyed(self) -> bool:
        """Whether every size was measured on site."""
        return all(size.surveyed for size in self)


class WindowSize(NamedTuple):
    """Outer size of the window's frame, as recorded."""

    width_mm: float
    height_mm: float

    def along(self, side: str) -> float:
        """Give the window's length along one side."""
        return self.height_mm if side in {"left", "right"} else self.width_mm


def sizes_of(work: Work) -> Sizes | NotPossible:
    """Give the opening's sizes: at the sill, at the head and on both sides; nominal where not surveyed."""
    asked = {
        "bottom": ("widths_mm", "bottom", "width_mm"),
        "top": ("widths_mm", "top", "width_mm"),
        "left": ("heights_mm", "left", "height_mm"),
        "right": ("heights_mm", "right", "height_mm"),
    }
    found: dict[str, Size] = {}
    for name, (direction, place, nominal) in asked.items():
        read, drawn = work.look("survey", direction, place), work.look("opening", nominal)
        if read is None and drawn is None:
            return NotPossible(Reason.SIZE_NOT_RECORDED, (), (nominal,))
        found[name] = Size(drawn if read is None else read, read is not None)
    return Sizes(**found)


def window_of(work: Work) -> WindowSize | None:
    """Give the window's outer size; None as long as it is not recorded."""
    width, height = work.look("window", "width_mm"), work.look("window", "height_mm")
    return None if width is None or height is None else WindowSize(width, height)


def frame_profiles(work: Work) -> dict[str, Profile] | NotPossible:
    """Give the profile of each frame piece.

    It is the one that the record names for the piece, else the only one that it names at all, else the site's
    only profile for frames.
    """
    named = {piece: work.look("frame", "pieces", piece, "profile") for piece in standing(work)}
    others = {name for name in named.values() if name}
    if not others:
        others = {profile.id for profile in work.around.site.products.profiles if profile.kind == "frame"}
    only = others.pop() if len(others) == 1 else None
    found: dict[str, Profile] = {}
    for piece, name in named.items():
        profile = work.product("profiles", name or only)
        if profile is None:
            return NotPossible(Reason.PROFILE_NOT_NAMED, (), ("frame",))
        found[piece] = profile
    return next(filter(None, map(_lacking, found.values())), None) or found


def plinth_profile(work: Work) -> Profile | NotPossible:
    """Give the plinth's profile: the one that the record names, else the site's only one for plinths."""
    kinds = [profile.id for profile in work.around.site.products.profiles if profile.kind == "plinth"]
    name = work.look("plinth", "product") or (kinds[0] if len(kinds) == 1 else None)
    profile: Profile | None = work.product("profiles", name)
    if profile is None:
        return NotPossible(Reason.PROFILE_NOT_NAMED, (), ("plinth",))
    return _lacking(profile, "stock_mm") or profile


def _lacking(profile: Profile, *keys: str) -> NotPossible | None:
    for key in keys or ("width_mm", "stock_mm"):
        if getattr(profile, key) is None:
            return NotPossible(Reason.PRODUCT_FIGURE_MISSING, (), (profile.id, key))
    return None


def is_whole(value: float) -> bool:
    """Whether a size is a whole number of millimetres."""
    return isclose(value, round(value), abs_tol=1e-9)
