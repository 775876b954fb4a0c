"""How long the cutting list of 200 openings takes, and how near it comes to the proved bound.

Run by hand: ``python tests/benchmarks/cutting_speed.py``. It prints and never fails; the aim is under 10 s on
two cores with no more than 1 % above the bound. The sizes are made up from a fixed seed.
"""

import random
import sys
import time

from revealbook.setting_out.cutting import Cut, CuttingList, cutting_list

WIDTHS_MM = (510, 635, 885, 1010, 1135, 1260, 1510, 1760, 2010, 2260, 2510)
HEIGHTS_MM = (510, 635, 1010, 1260, 1385, 1510, 2135, 2260, 2385)


def openings(count: int, spread_mm: int, seed: int = 7) -> list[Cut]:
    """Give the four pieces of each opening: common sizes, off by up to ``spread_mm`` as built."""
    rng = random.Random(seed)
    cuts = []
    for number in range(1, count + 1):
        width = rng.choice(WIDTHS_MM) + rng.randint(-spread_mm, spread_mm)
        height = rng.choice(HEIGHTS_MM) + rng.randint(-spread_mm, spread_mm)
        for piece, length in (
            ("bottom", width + 160),
            ("top", width + 160),
            ("left", height),
            ("right", height),
        ):
            cuts.append(Cut(length, f"W-{number:03} {piece}"))
    return cuts


def main() -> None:
    """Print one line per case."""
    stores = {"none": (), "30 offcuts": tuple(random.Random(3).randint(500, 3500) for _ in range(30))}
    for spread_mm in (0, 5, 20):
        for stock_mm in ((6000,), (3000,), (4000, 6000), (2500, 4000, 6000)):
            for store, offcuts_mm in stores.items():
                began = time.perf_counter()
                made = cutting_list(
                    openings(200, spread_mm), stock_mm, kerf_mm=4, usable_offcut_mm=500, offcuts_mm=offcuts_mm
                )
                seconds = time.perf_counter() - began
                assert isinstance(made, CuttingList)
                sys.stdout.write(
                    f"+-{spread_mm:2} mm, stock {stock_mm!s:18} store {store:10} {seconds:6.2f} s "
                    f"{len(made.bars):4} bars, bought {made.bought_mm / 1000:7.1f} m, "
                    f"bound {made.bound_mm / 1000:7.1f} m "
                    f"({made.gap_pct:.2f} %), waste {made.waste_pct:.2f} %: {made.method}\n"
                )
                sys.stdout.flush()


if __name__ == "__main__":
    main()
