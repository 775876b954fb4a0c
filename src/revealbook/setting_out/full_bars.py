"""Fullest bar first: a quick cutting plan that leaves little over, and the usual start of the search."""

from collections.abc import Iterator, Sequence

from revealbook.setting_out.first_fit import shortest_holding
from revealbook.setting_out.positions import furthest, span
from revealbook.setting_out.stock import Demand, Plan, Size


def full_bars(demand: Demand, sizes: Sequence[Size]) -> Plan:
    """Fill one bar after the other as full as it can be (the minimum-slack rule, textbook).

    The offcuts in the store are filled first, shortest first. A new bar takes the longest piece still waiting
    and is then filled as full as the others allow; of several stock lengths the one with the least left over
    per metre is taken. What is left for the last bars is what did not fit well before, so this is no proof.

    Args:
        demand: the pieces.
        sizes: offcuts and stock; the longest stock holds the longest piece.
    """
    left = dict(zip(demand.lengths_mm, demand.counts, strict=True))
    bars: list[tuple[int, tuple[int, ...]]] = []
    for index, size in enumerate(sizes):
        for _ in range(size.available or 0):
            _take(bars, left, index, _fullest(size.length_mm, left, demand.kerf_mm))
    new = [index for index, size in enumerate(sizes) if size.available is None]
    while left:
        index, lengths = min(
            ((index, _begun(sizes[index].length_mm, left, demand.kerf_mm)) for index in new),
            key=lambda bar: _left_over(sizes[bar[0]].length_mm, bar[1], demand.kerf_mm),
        )
        _take(bars, left, shortest_holding(index, lengths, demand, sizes), lengths)
    return Plan(tuple(bars), bound_mm=0.0, method="fullest bar first")


def _take(
    bars: list[tuple[int, tuple[int, ...]]], left: dict[int, int], index: int, lengths: tuple[int, ...]
) -> None:
    if lengths:
        bars.append((index, lengths))
    for length in lengths:
        left[length] -= 1
        if not left[length]:
            del left[length]


def _left_over(stock_mm: int, lengths: Sequence[int], kerf_mm: int) -> float:
    return 1 - (sum(lengths) + kerf_mm * len(lengths)) / (stock_mm + kerf_mm) if lengths else 1.0


def _begun(stock_mm: int, left: dict[int, int], kerf_mm: int) -> tuple[int, ...]:
    """Fill a bar that holds the longest piece waiting; nothing where that piece is too long for it."""
    longest = next(iter(left))
    if longest > stock_mm:
        return ()
    others = {length: count - (length == longest) for length, count in left.items()}
    return (longest, *_fullest(stock_mm - longest - kerf_mm, others, kerf_mm))


def _fullest(room_mm: int, left: dict[int, int], kerf_mm: int) -> tuple[int, ...]:
    """Give the pieces that fill the room best, the longer ones where several fill it alike."""
    bars_end = span(0, room_mm + kerf_mm)
    reached, steps = 1, []
    for length in _waiting_shortest_first(left, room_mm, kerf_mm):
        steps.append((length + kerf_mm, reached))
        reached |= (reached << (length + kerf_mm)) & bars_end
    filled, lengths = furthest(reached), []
    for need, before in reversed(steps):
        if filled >= need and before >> (filled - need) & 1:
            filled -= need
            lengths.append(need - kerf_mm)
    return tuple(lengths)


def _waiting_shortest_first(left: dict[int, int], room_mm: int, kerf_mm: int) -> Iterator[int]:
    for length, count in reversed(left.items()):
        if length <= room_mm:
            yield from [length] * min(count, (room_mm + kerf_mm) // (length + kerf_mm))
