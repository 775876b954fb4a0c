"""The cutting list: which pieces to cut from which bar, so that the least new stock is bought."""

from collections import Counter, defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import gcd
from typing import NamedTuple

from revealbook.setting_out.first_fit import first_fit
from revealbook.setting_out.full_bars import full_bars
from revealbook.setting_out.limits import require_whole_mm
from revealbook.setting_out.refusal import NotPossible, Reason, not_possible
from revealbook.setting_out.stock import Demand, Plan, Size


class Cut(NamedTuple):
    """One piece to cut: its length and what is written on it."""

    length_mm: int
    label: str


@dataclass(frozen=True, slots=True)
class Bar:
    """One length of stock and what is cut from it.

    ``stock_mm`` is the sum of the cuts, the saw's kerfs and the offcut, to the millimetre.
    """

    stock_mm: int
    from_store: bool
    cuts: tuple[Cut, ...]
    kerf_mm: int
    offcut_mm: int


@dataclass(frozen=True, slots=True)
class CuttingList:
    """Bars to cut, and how good the list is proved to be.

    Attributes:
        bars: offcuts from the store first, shortest first, then new stock, longest first.
        bought_mm: total length of the new stock.
        bound_mm: proved: no list buys less new stock than this for these pieces.
        returned_mm: usable offcuts that go back to the store, longest first.
        waste_pct: share of the stock used, new and old, that becomes neither a piece nor a usable offcut;
            the kerfs count as waste.
        method: how the list was found, in words.
    """

    bars: tuple[Bar, ...]
    bought_mm: int
    bound_mm: int
    returned_mm: tuple[int, ...]
    waste_pct: float
    method: str

    @property
    def gap_pct(self) -> float:
        """By how much the stock bought exceeds the proved bound; 0 where the list is proved the best."""
        return 100 * (self.bought_mm - self.bound_mm) / self.bound_mm if self.bound_mm else 0.0


def cutting_list(
    cuts: Sequence[Cut],
    stock_mm: Sequence[int],
    *,
    kerf_mm: int,
    usable_offcut_mm: int,
    offcuts_mm: Sequence[int] = (),
    time_limit_s: float = 10.0,
) -> CuttingList | NotPossible:
    """Lay all pieces on bars so that the least new stock is bought.

    Offcuts in the store come first: one is used wherever that saves new stock, and of the lists found that
    buy the same the one that takes less from the store is given. ``method`` says how the list was found:
    by a quick rule (first fit decreasing, fullest bar first) where that meets the bound, where nothing better
    turned up or where scipy is missing, else by column generation. The same input gives the same
    list, unless the time runs out, which ``method`` then says. A list of more than 200 bars or so may buy one
    bar in 200 more than the bound: to seek further would take longer than the bar is worth.

    Args:
        cuts: the pieces, none longer than the longest stock.
        stock_mm: lengths that can be bought, as many of each as needed.
        kerf_mm: width of the saw's cut. A piece at the very end of a bar needs no further cut.
        usable_offcut_mm: least length of an offcut that goes back to the store.
        offcuts_mm: offcuts in the store, one entry each.
        time_limit_s: when to stop searching for a better list.

    Returns:
        The list, or a refusal that names the longest piece where no stock is long enough for it.

    Raises:
        ValueError: for a length that is no whole number above 0, a negative kerf, or no stock at all.
    """
    _require_sensible(cuts, stock_mm, kerf_mm, usable_offcut_mm, offcuts_mm)
    sizes = _sizes(stock_mm, offcuts_mm)
    longest = max((cut.length_mm for cut in cuts), default=0)
    if longest > max(stock_mm):
        return not_possible(Reason.PIECE_LONGER_THAN_STOCK, length_mm=longest, stock_mm=max(stock_mm))
    counted = sorted(Counter(cut.length_mm for cut in cuts).items(), reverse=True)
    demand = Demand(tuple(length for length, _ in counted), tuple(count for _, count in counted), kerf_mm)
    start = min(first_fit(demand, sizes), full_bars(demand, sizes), key=lambda plan: plan.cost_mm(sizes))
    bound_mm = _attainable(_material_bound(demand, sizes), stock_mm)
    plan = start
    if start.bought_mm(sizes) > bound_mm:
        plan = _improved(start, demand, sizes, time_limit_s, stock_mm)
        bound_mm = max(bound_mm, _attainable(plan.bound_mm, stock_mm))
    return _written_out(plan, bound_mm, _bars(plan, sizes, cuts, kerf_mm), usable_offcut_mm)


def _improved(
    start: Plan, demand: Demand, sizes: Sequence[Size], time_limit_s: float, stock_mm: Sequence[int]
) -> Plan:
    try:
        # Half a second to load, and only needed here.
        from revealbook.setting_out.patterns import best_plan  # noqa: PLC0415
    except ImportError:
        return start._replace(method=f"{start.method}, scipy is not installed")
    return best_plan(demand, sizes, start, time_limit_s, lambda mm: _attainable(mm, stock_mm))


def _require_sensible(
    cuts: Sequence[Cut],
    stock_mm: Sequence[int],
    kerf_mm: int,
    usable_offcut_mm: int,
    offcuts_mm: Sequence[int],
) -> None:
    if not stock_mm:
        raise ValueError("A cutting list needs at least one length of stock to buy.")
    require_whole_mm("kerf_mm", kerf_mm)
    require_whole_mm("usable_offcut_mm", usable_offcut_mm)
    for name, lengths in (
        ("A piece's length_mm", [cut.length_mm for cut in cuts]),
        ("stock_mm", stock_mm),
        ("offcuts_mm", offcuts_mm),
    ):
        for length in lengths:
            require_whole_mm(name, length, least=1)


def _sizes(stock_mm: Sequence[int], offcuts_mm: Sequence[int]) -> tuple[Size, ...]:
    old = [Size(length, count) for length, count in sorted(Counter(offcuts_mm).items())]
    return (*old, *(Size(length, None) for length in sorted(set(stock_mm), reverse=True)))


def _material_bound(demand: Demand, sizes: Sequence[Size]) -> float:
    """New stock that the pieces and their kerfs alone call for, all offcuts being used up without waste."""
    kerf = demand.kerf_mm
    needed = sum(
        (length + kerf) * count for length, count in zip(demand.lengths_mm, demand.counts, strict=True)
    )
    stored = sum((size.length_mm + kerf) * size.available for size in sizes if size.available is not None)
    shortest = min(size.length_mm for size in sizes if size.available is None)
    return float(max(Fraction(needed - stored, 1), Fraction(0)) * Fraction(shortest, shortest + kerf))


def _attainable(mm: float, stock_mm: Sequence[int]) -> int:
    """Round a bound up to the next total that whole bars can have."""
    step = gcd(*stock_mm)
    return max(0, -int(-(mm - 1e-4) // step)) * step


def _bars(plan: Plan, sizes: Sequence[Size], cuts: Sequence[Cut], kerf_mm: int) -> tuple[Bar, ...]:
    """Give the plan's lengths back their labels, in the labels' order."""
    waiting: defaultdict[int, list[Cut]] = defaultdict(list)
    for cut in sorted(cuts, reverse=True):
        waiting[cut.length_mm].append(cut)
    ordered = sorted((index, sorted(lengths_mm, reverse=True)) for index, lengths_mm in plan.bars)
    return tuple(
        _bar(sizes[index], tuple(waiting[length].pop() for length in lengths_mm), kerf_mm)
        for index, lengths_mm in ordered
    )


def _written_out(plan: Plan, bound_mm: int, bars: tuple[Bar, ...], usable_offcut_mm: int) -> CuttingList:
    least_mm = max(usable_offcut_mm, 1)
    returned = sorted((bar.offcut_mm for bar in bars if bar.offcut_mm >= least_mm), reverse=True)
    used = sum(bar.stock_mm for bar in bars)
    lost = used - sum(cut.length_mm for bar in bars for cut in bar.cuts) - sum(returned)
    return CuttingList(
        bars=bars,
        bought_mm=sum(bar.stock_mm for bar in bars if not bar.from_store),
        bound_mm=bound_mm,
        returned_mm=tuple(returned),
        waste_pct=100 * lost / used if used else 0.0,
        method=plan.method,
    )


def _bar(size: Size, cuts: tuple[Cut, ...], kerf_mm: int) -> Bar:
    rest_mm = size.length_mm - sum(cut.length_mm for cut in cuts)
    kerfs_mm = min(rest_mm, kerf_mm * len(cuts))
    return Bar(size.length_mm, size.available is not None, cuts, kerfs_mm, rest_mm - kerfs_mm)
