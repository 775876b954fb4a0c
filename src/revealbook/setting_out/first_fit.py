"""First fit decreasing: a quick cutting plan, the start of the search and its fallback."""

from collections.abc import Sequence

from revealbook.setting_out.stock import Demand, Plan, Size


def first_fit(demand: Demand, sizes: Sequence[Size]) -> Plan:
    """Lay each piece, longest first, on the first bar that has room for it (textbook).

    A new bar is opened where none has: the shortest offcut in the store that is long enough, else the
    longest stock. At the end each new bar is changed for the shortest stock that holds its pieces.

    Args:
        demand: the pieces.
        sizes: offcuts and stock; the longest stock holds the longest piece.
    """
    capacities = [size.length_mm + demand.kerf_mm for size in sizes]
    left = [size.available for size in sizes]
    opened: list[int] = []
    room: list[int] = []
    held: list[list[int]] = []
    for length in demand.pieces():
        need = length + demand.kerf_mm
        bar = next((bar for bar, free in enumerate(room) if free >= need), None)
        if bar is None:
            index = _to_open(need, capacities, left)
            opened.append(index)
            room.append(capacities[index])
            held.append([])
            bar = len(room) - 1
        room[bar] -= need
        held[bar].append(length)
    bars = (
        (shortest_holding(index, lengths, demand, sizes), tuple(lengths))
        for index, lengths in zip(opened, held, strict=True)
    )
    return Plan(tuple(bars), bound_mm=0.0, method="first fit decreasing")


def _to_open(need: int, capacities: Sequence[int], left: list[int | None]) -> int:
    for index, available in enumerate(left):
        if available and capacities[index] >= need:
            left[index] = available - 1
            return index
    new = (index for index, available in enumerate(left) if available is None)
    return max(new, key=capacities.__getitem__)


def shortest_holding(index: int, lengths: Sequence[int], demand: Demand, sizes: Sequence[Size]) -> int:
    """Give the shortest new stock that holds the pieces; an offcut stays the offcut that it is."""
    if sizes[index].available is not None:
        return index
    need = sum(lengths) + demand.kerf_mm * (len(lengths) - 1)
    fitting = [k for k, size in enumerate(sizes) if size.available is None and size.length_mm >= need]
    return min(fitting, key=lambda k: sizes[k].length_mm)
