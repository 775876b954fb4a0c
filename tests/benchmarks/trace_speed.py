"""How long a trace takes over a large index: `python tests/benchmarks/trace_speed.py [OPENINGS] [ADDRESS]`.

The peer in the same run is the database's own count of a batch's openings: a trace cannot be quicker.
"""

import json
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from tempfile import TemporaryDirectory
from time import perf_counter

from revealbook.lookup.database import Database
from revealbook.lookup.index import open_database
from revealbook.lookup.trace import Traced, trace_batch, trace_opening

_BATCH, _DAY, _RULE = 5000, 12, 10
"""Openings of a batch and of a fitter's day; of so many one does not meet the rule."""
_SITE = 500
"""Openings of a site."""
_PORTION = 20_000


def fill(index: Database, openings: int) -> None:
    """Write an invented index: two batches and a fitter's day for each, and one common rule."""
    kinds = ("adhesive batch", "foam batch", "fitter and day")
    sizes = (_BATCH, _BATCH * 3, _DAY)
    numbers = [openings // size + 1 for size in sizes]
    firsts = [2, 2 + numbers[0], 2 + numbers[0] + numbers[1]]

    def terms(at: int) -> list[int]:
        # batches are spread over the openings as over sites, a day's openings lie together
        held = [firsts[0] + at % numbers[0], firsts[1] + at % numbers[1], firsts[2] + at // _DAY]
        return [1, *held] if at % _RULE == 0 else held

    def rows(begin: int) -> Iterator[tuple[object, ...]]:
        for at in range(begin, min(begin + _PORTION, openings)):
            yield (
                at + 1, f"site-{at // _SITE}", f"W-{at}", f"w_{at}", "", "", "B", "b", "2", "2", "bath",
                "south", "conforms", "2026-11-20", "2026-11-24", 1, 1, 1, "p.pdf", json.dumps(terms(at)), "",
            )  # fmt: skip

    with index.building():
        index.add("term", [(1, "nonconformity", "frame-overlap", "frame_overlap")])
        for kind, first, number in zip(kinds, firsts, numbers, strict=True):
            index.add(
                "term", [(first + one, kind, f"{kind} {one}", f"{kind} {one}") for one in range(number)]
            )
            index.add("term_key", [(f"{kind[0]}_{one}", kind, first + one) for one in range(number)])
        for begin in range(0, openings, _PORTION):
            index.add("opening", rows(begin))
            end = min(begin + _PORTION, openings)
            index.add("held", [(term, at + 1) for at in range(begin, end) for term in terms(at)])
        index.add("meta", [("format", "1"), ("archive", "invented")])


def timed(what: str, ask: Callable[[], Traced]) -> None:
    """Print how long the first and the quickest of five took."""
    took = []
    for _ in range(5):
        before = perf_counter()
        found = ask()
        took.append(perf_counter() - before)
    print(f"{what}: first {took[0]:.3f} s, quickest {min(took):.3f} s, {found.number} openings share")


def main() -> None:
    """Fill an index and time traces in it."""
    openings = int(sys.argv[1]) if len(sys.argv) > 1 else 1_000_000
    with TemporaryDirectory() as folder:
        where = sys.argv[2] if len(sys.argv) > 2 else str(Path(folder, "index.sqlite"))
        index = open_database(Path(folder), where)
        before = perf_counter()
        fill(index, openings)
        print(
            f"{openings} openings written in {perf_counter() - before:.0f} s, {index.size_bytes() >> 20} MiB"
        )
        before = perf_counter()
        [(number,)] = index.rows("SELECT count(*) FROM held WHERE term = 3")
        print(f"peer, counting the {number} openings of a batch: {perf_counter() - before:.4f} s")
        timed("a batch", lambda: trace_batch(index, "a_1", 20))
        timed("an opening with a common rule", lambda: trace_opening(index, "site-2", "W-1000", 20))
        timed("an opening without", lambda: trace_opening(index, "site-2", "W-1001", 20))
        index.close()


if __name__ == "__main__":
    main()
