"""What the cutting works on: the pieces wanted, the sizes of stock, and a plan that brings them together."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple


class Size(NamedTuple):
    """A length of stock: ``available`` counts offcuts in the store and is ``None`` for new stock."""

    length_mm: int
    available: int | None


class Demand(NamedTuple):
    """Distinct piece lengths, longest first, how many of each, and the saw's kerf."""

    lengths_mm: tuple[int, ...]
    counts: tuple[int, ...]
    kerf_mm: int

    def pieces(self) -> Iterator[int]:
        """Give every piece's length, longest first."""
        for length, count in zip(self.lengths_mm, self.counts, strict=True):
            yield from [length] * count


class Plan(NamedTuple):
    """Bars as (index of the size, lengths cut from it), a proved bound on new stock, the method's name."""

    bars: tuple[tuple[int, tuple[int, ...]], ...]
    bound_mm: float
    method: str

    def cost_mm(self, sizes: Sequence[Size]) -> tuple[int, int]:
        """Give the new stock that the plan takes, then all its stock: what to compare plans by."""
        return self.bought_mm(sizes), sum(sizes[index].length_mm for index, _ in self.bars)

    def bought_mm(self, sizes: Sequence[Size]) -> int:
        """Give the total length of the new stock that the plan takes."""
        return sum(sizes[index].length_mm for index, _ in self.bars if sizes[index].available is None)
