"""The plan table and operating characteristics against a second transcription and published values.

The cells below were written down row by row from a public table of the US Army / NIBS (MIL-STD-105E tables I
and II-A; published, secondary source), not from the file that the program reads. Equality with ISO 2859-1 is
not claimed.
"""

from typing import NamedTuple

import pytest
from scipy.stats import binom, poisson

from revealbook.measures.physics.published_table import rows
from revealbook.measures.physics.sampling import (
    AQLS,
    acceptance_probability_of_lot,
    code_letter,
    share_accepted_with,
    single_plan,
)


class Line(NamedTuple):
    """A letter, the lots it stands for, its sample size and its five cells; None below is an arrow down."""

    letter: str
    lots: tuple[int, int]
    size: int
    cells: tuple[int | str, ...]


DOWN, UP = "down", "up"
TABLE = (
    Line("A", (2, 8), 2, (DOWN, DOWN, DOWN, DOWN, 0)),
    Line("B", (9, 15), 3, (DOWN, DOWN, DOWN, 0, UP)),
    Line("C", (16, 25), 5, (DOWN, DOWN, 0, UP, DOWN)),
    Line("D", (26, 50), 8, (DOWN, 0, UP, DOWN, 1)),
    Line("E", (51, 90), 13, (0, UP, DOWN, 1, 2)),
    Line("F", (91, 150), 20, (UP, DOWN, 1, 2, 3)),
    Line("G", (151, 280), 32, (DOWN, 1, 2, 3, 5)),
    Line("H", (281, 500), 50, (1, 2, 3, 5, 7)),
    Line("J", (501, 1200), 80, (2, 3, 5, 7, 10)),
    Line("K", (1201, 3200), 125, (3, 5, 7, 10, 14)),
    Line("L", (3201, 10_000), 200, (5, 7, 10, 14, 21)),
    Line("M", (10_001, 35_000), 315, (7, 10, 14, 21, UP)),
    Line("N", (35_001, 150_000), 500, (10, 14, 21, UP, UP)),
    Line("P", (150_001, 500_000), 800, (14, 21, UP, UP, UP)),
    Line("Q", (500_001, 10**9), 1250, (21, UP, UP, UP, UP)),
)
SIGN = {DOWN: "v", UP: "^"}


def test_every_cell_of_the_plan_table() -> None:
    read = rows("sampling_plans")
    assert [(line["letter"], int(line["sample_size"])) for line in read] == [
        (line.letter, line.size) for line in TABLE
    ]
    ours = [[line[aql] for aql in AQLS] for line in read]
    theirs = [[SIGN.get(str(cell), str(cell)) for cell in line.cells] for line in TABLE]
    assert ours == theirs
    assert sum(map(len, ours)) == 75


def test_every_lot_size_at_the_ends_of_its_line() -> None:
    for line in TABLE:
        assert [code_letter(lot) for lot in line.lots] == [line.letter, line.letter]


RESOLVED = {  # sample size and acceptance number, resolved by hand from the table
    "A": ((13, 0), (8, 0), (5, 0), (3, 0), (2, 0)),
    "B": ((13, 0), (8, 0), (5, 0), (3, 0), (2, 0)),
    "C": ((13, 0), (8, 0), (5, 0), (3, 0), (8, 1)),
    "D": ((13, 0), (8, 0), (5, 0), (13, 1), (8, 1)),
    "E": ((13, 0), (8, 0), (20, 1), (13, 1), (13, 2)),
    "F": ((13, 0), (32, 1), (20, 1), (20, 2), (20, 3)),
    "G": ((50, 1), (32, 1), (32, 2), (32, 3), (32, 5)),
    "H": ((50, 1), (50, 2), (50, 3), (50, 5), (50, 7)),
    "M": ((315, 7), (315, 10), (315, 14), (315, 21), (200, 21)),
    "N": ((500, 10), (500, 14), (500, 21), (315, 21), (200, 21)),
    "P": ((800, 14), (800, 21), (500, 21), (315, 21), (200, 21)),
    "Q": ((1250, 21), (800, 21), (500, 21), (315, 21), (200, 21)),
}


def test_every_arrow_takes_the_sample_size_of_the_plan_it_leads_to() -> None:
    largest = {line.letter: line.lots[1] for line in TABLE}
    for letter, plans in RESOLVED.items():
        lot = largest[letter]
        for aql, (size, accept) in zip(AQLS, plans, strict=True):
            plan = single_plan(lot, aql)
            assert (plan.lot_letter, plan.sample_size, plan.accept) == (letter, min(size, lot), accept)


@pytest.mark.parametrize(
    ("lot", "aql", "letter", "size", "accept"),
    [  # worked cases: published (secondary source), resolved by hand
        (8, "4.0", "B", 3, 0), (20, "2.5", "C", 5, 0), (40, "2.5", "C", 5, 0), (60, "2.5", "F", 20, 1),
        (120, "2.5", "F", 20, 1), (200, "2.5", "G", 32, 2), (300, "2.5", "H", 50, 3),
        (1000, "2.5", "J", 80, 5), (90, "4.0", "E", 13, 1), (91, "4.0", "F", 20, 2),
        (10, "6.5", "A", 2, 0), (500, "1.5", "H", 50, 2),
    ],
)  # fmt: skip
def test_worked_cases(lot: int, aql: str, letter: str, size: int, accept: int) -> None:
    plan = single_plan(lot, aql)
    assert (plan.letter, plan.sample_size, plan.accept, plan.reject) == (letter, size, accept, accept + 1)
    assert not plan.whole_lot


def test_five_openings_at_one_percent_are_all_inspected() -> None:
    plan = single_plan(5, "1.0")
    assert (plan.sample_size, plan.whole_lot, plan.accept, plan.reject) == (5, True, 0, 1)


def test_the_trap_of_keeping_the_sample_size_of_an_arrow() -> None:
    """Programs that answer an arrow with Ac 0 and the unchanged n are wrong in 30 of the 75 cells."""
    wrong = 0
    for line in TABLE:
        for aql, cell in zip(AQLS, line.cells, strict=True):
            plan = single_plan(line.lots[1], aql)
            naive = (line.size, cell if isinstance(cell, int) else 0)
            table_size = next(other.size for other in TABLE if other.letter == plan.letter)
            wrong += (table_size, plan.accept) != naive
    assert wrong == 30
    assert single_plan(90, "2.5")[4:6] == (20, 1)  # not 13, 0
    assert single_plan(280, "1.0")[4:6] == (50, 1)  # not 32, 0


def test_work_at_the_quality_limit_is_accepted_in_87_to_99_5_percent() -> None:
    """Computed with scipy's binomial over all 75 resolved cells: 0.8742 to 0.9943."""
    found = []
    for line in TABLE:
        for aql in AQLS:
            plan = single_plan(line.lots[1], aql)
            size = next(other.size for other in TABLE if other.letter == plan.letter)
            found.append(float(binom.cdf(plan.accept, size, plan.aql_pct / 100)))
    print(f"acceptance at the quality limit: {min(found):.4f} to {max(found):.4f} over {len(found)} cells")
    assert len(found) == 75
    assert min(found) >= 0.87
    assert max(found) <= 0.995
    assert (round(min(found), 4), round(max(found), 4)) == (0.8742, 0.9943)


@pytest.mark.parametrize(
    ("size", "accept", "share", "probability"),
    [
        (5, 0, 0.025, 0.8811), (13, 0, 0.01, 0.8775), (20, 1, 0.025, 0.9118), (32, 2, 0.025, 0.9548),
        (50, 3, 0.025, 0.9638), (80, 5, 0.025, 0.9848), (125, 7, 0.025, 0.9864), (2, 0, 0.065, 0.8742),
        (50, 7, 0.065, 0.9853),
    ],
)  # fmt: skip
def test_operating_characteristic_at_the_quality_limit(
    size: int, accept: int, share: float, probability: float
) -> None:
    """Computed once with scipy 1.17 by another script than ours."""
    assert share_accepted_with(size, accept, probability) == pytest.approx(share, rel=2e-3)


@pytest.mark.parametrize(
    ("size", "accept", "at_95", "at_50", "at_10"),
    [
        (5, 0, 1.021, 12.945, 36.904), (13, 0, 0.394, 5.192, 16.232), (20, 1, 1.807, 8.251, 18.096),
        (32, 2, 2.604, 8.269, 15.787), (80, 5, 3.317, 7.058, 11.285), (125, 7, 3.224, 6.119, 9.237),
    ],
)  # fmt: skip
def test_shares_at_three_points_of_the_curve(
    size: int, accept: int, at_95: float, at_50: float, at_10: float
) -> None:
    """Percent nonconforming; n 80, c 5 agrees with MIL-STD-105E table X-J (3.32, 7.06, 11.3; from memory)."""
    found = [100 * share_accepted_with(size, accept, p) for p in (0.95, 0.50, 0.10)]
    assert found == pytest.approx([at_95, at_50, at_10], abs=5e-4)


def test_published_operating_characteristics() -> None:
    """Vignettes of a public R package on acceptance sampling (published), reproduced to all digits."""
    assert share_accepted_with(132, 3, 1 - 0.04425251) == pytest.approx(0.01, rel=1e-6)
    assert share_accepted_with(132, 3, 0.0992283) == pytest.approx(0.05, rel=1e-6)
    assert share_accepted_with(132, 3, 0.4384354) == pytest.approx(0.03, rel=1e-6)
    assert share_accepted_with(144, 4, 1 - 0.01534843) == pytest.approx(0.01, rel=1e-6)
    assert share_accepted_with(144, 4, 0.1487162) == pytest.approx(0.05, rel=1e-6)
    assert share_accepted_with(144, 4, 0.5656415) == pytest.approx(0.03, rel=1e-6)


def test_a_public_regulation_reckons_with_poisson_and_comes_out_close() -> None:
    """7 CFR 42.140 (published): n 500, c 3 accepts 26 % at 1.0 per 100 and about 99 % at 0.10."""
    for share, said in ((0.01, 0.2650), (0.001, 0.9982)):
        assert float(poisson.cdf(3, 500 * share)) == pytest.approx(said, abs=5e-5)
        assert share_accepted_with(500, 3, said) == pytest.approx(share, rel=2e-2)


def test_an_isolated_lot_is_hypergeometric() -> None:
    """Computed once with scipy by another script; the first is 35/40 by hand."""
    assert acceptance_probability_of_lot(40, 1, 5, 0) == pytest.approx(35 / 40)
    assert share_accepted_with(5, 0, 0.881096) == pytest.approx(1 / 40, rel=1e-5)
    assert acceptance_probability_of_lot(60, 2, 20, 1) == pytest.approx(0.892655, abs=5e-7)
    assert acceptance_probability_of_lot(60, 6, 20, 1) == pytest.approx(0.339537, abs=5e-7)
    assert share_accepted_with(20, 1, 0.391747) == pytest.approx(0.1, rel=1e-5)
