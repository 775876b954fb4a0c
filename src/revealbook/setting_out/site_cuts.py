"""The cutting list of a whole site: every piece of every opening, profile by profile."""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import floor

from revealbook.measures.work import Surroundings
from revealbook.setting_out.cutting import Cut, CuttingList, cutting_list
from revealbook.setting_out.plan import OpeningPlan
from revealbook.setting_out.plinth import Plinth
from revealbook.setting_out.refusal import NotPossible, Reason

Marked = tuple[str, OpeningPlan]
"""An opening's mark and its plan."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Saw:
    """How the site cuts.

    Attributes:
        kerf_mm: width of the saw's cut.
        usable_offcut_mm: least length of an offcut that is kept.
        offcuts_mm: offcuts in the store, by profile.
        time_limit_s: when to stop seeking a better list, per profile.
    """

    kerf_mm: int = 4
    usable_offcut_mm: int = 500
    offcuts_mm: Mapping[str, Sequence[int]]
    time_limit_s: float = 8.0


@dataclass(frozen=True, slots=True)
class ProfileCuts:
    """The cutting list of one profile, or why there is none."""

    profile: str
    stock_mm: int
    pieces: int
    cuts: CuttingList | NotPossible


def site_cuts(plans: Iterable[Marked], around: Surroundings, saw: Saw) -> tuple[ProfileCuts, ...]:
    """Give the cutting list of each profile, in order of the profiles' ids.

    Supports are taken to be cut from the bottom piece's profile (own assumption).

    Args:
        plans: the openings set out.
        around: the site, for the profiles' stock.
        saw: kerf, usable offcut and store.
    """
    by_profile: defaultdict[str, list[Cut]] = defaultdict(list)
    for mark, plan in plans:
        for profile, cut in _cuts(mark, plan):
            by_profile[profile].append(cut)
    return tuple(_list(profile, cuts, around, saw) for profile, cuts in sorted(by_profile.items()))


def _list(profile: str, cuts: list[Cut], around: Surroundings, saw: Saw) -> ProfileCuts:
    stock = getattr(around.products.get(("profiles", profile)), "stock_mm", None)
    if stock is None:
        refused = NotPossible(Reason.PRODUCT_FIGURE_MISSING, (), (profile, "stock_mm"))
        return ProfileCuts(profile, 0, len(cuts), refused)
    found = cutting_list(
        cuts,
        [floor(stock)],
        kerf_mm=saw.kerf_mm,
        usable_offcut_mm=saw.usable_offcut_mm,
        offcuts_mm=saw.offcuts_mm.get(profile, ()),
        time_limit_s=saw.time_limit_s,
    )
    return ProfileCuts(profile, floor(stock), len(cuts), found)


def _cuts(mark: str, plan: OpeningPlan) -> Iterator[tuple[str, Cut]]:
    for piece in plan.pieces:
        yield from ((piece.profile, cut) for cut in _parts(mark, piece.name, piece.parts_mm))
    for number, support in enumerate(plan.supports, start=1):
        label = f"{mark} support {number}"
        yield plan.piece("bottom").profile, Cut(support.end_mm - support.start_mm, label)
    if isinstance(plan.plinth, Plinth):
        yield from ((plan.plinth.profile, cut) for cut in _parts(mark, "plinth", plan.plinth.parts_mm))


def _parts(mark: str, name: str, parts_mm: Sequence[int]) -> Iterator[Cut]:
    for number, length_mm in enumerate(parts_mm, start=1):
        part = f" {number}/{len(parts_mm)}" if len(parts_mm) > 1 else ""
        yield Cut(length_mm, f"{mark} {name}{part}")
