"""Single sampling by attributes: how many of a lot to inspect, and what the answer is worth.

The plan table is that of MIL-STD-105E (a work of the US government), tables I and II-A, single sampling,
normal inspection, level II. It is not claimed to be equal to the tables of ISO 2859-1, which are copyright.
"""

from typing import Literal, NamedTuple, get_args

from scipy.stats import beta, hypergeom

from revealbook.measures.physics.plausibility import require_between
from revealbook.measures.physics.published_table import rows

Aql = Literal["1.0", "1.5", "2.5", "4.0", "6.5"]
AQLS: tuple[str, ...] = get_args(Aql)
"""Acceptance quality limits of the table, in percent nonconforming."""
SMALLEST_LOT = 2
"""The smallest lot that the table knows; a lot of one is inspected."""
_STEPS = {"v": 1, "^": -1}


class Plan(NamedTuple):
    """A single sampling plan for one lot.

    Attributes:
        lot_size: openings in the lot.
        aql_pct: acceptance quality limit, percent nonconforming.
        lot_letter: code letter that the lot's size gives; empty for a lot below the table.
        letter: code letter of the plan that the arrows lead to; its sample size goes with it.
        sample_size: openings to inspect; the whole lot where the plan asks for as many or more.
        accept: the lot is accepted up to this number of nonconforming openings in the sample.
        reject: it is rejected from this number on.
    """

    lot_size: int
    aql_pct: float
    lot_letter: str
    letter: str
    sample_size: int
    accept: int
    reject: int

    @property
    def whole_lot(self) -> bool:
        """Whether every opening is inspected (100 %)."""
        return self.sample_size == self.lot_size


def code_letter(lot_size: int) -> str:
    """Give the code letter of a lot at general inspection level II (MIL-STD-105E, table I).

    Args:
        lot_size: at least 2.

    Raises:
        ValueError: the table knows no such lot.
    """
    for line in rows("sampling_code_letters"):
        if int(line["from"]) <= lot_size and (not line["to"] or lot_size <= int(line["to"])):
            return line["letter"]
    raise ValueError(f"the sampling table begins with a lot of {SMALLEST_LOT}, not {lot_size}")


def single_plan(lot_size: int, aql: str = "2.5") -> Plan:
    """Give the plan for a lot (MIL-STD-105E, table II-A).

    An arrow leads to the first plan below or above it, and that plan's sample size is used with its numbers:
    the acceptance number of one line never goes with the sample size of another.

    Args:
        lot_size: openings in the lot, at least 1.
        aql: acceptance quality limit in percent, one of `AQLS`.

    Raises:
        ValueError: no lot, or a limit that the table does not have.
    """
    if aql not in AQLS:
        raise ValueError(f"aql must be one of {', '.join(AQLS)}, not {aql}")
    if lot_size < 1:
        raise ValueError(f"lot_size must be at least 1, not {lot_size}")
    if lot_size < SMALLEST_LOT:
        return Plan(lot_size, float(aql), "", "", lot_size, 0, 1)
    letter = code_letter(lot_size)
    plans = rows("sampling_plans")
    at = next(number for number, line in enumerate(plans) if line["letter"] == letter)
    while (cell := plans[at][aql]) in _STEPS:
        at += _STEPS[cell]
    wanted, accept = int(plans[at]["sample_size"]), int(cell)
    return Plan(lot_size, float(aql), letter, plans[at]["letter"], min(wanted, lot_size), accept, accept + 1)


def acceptance_probability_of_lot(lot_size: int, nonconforming: int, sample_size: int, accept: int) -> float:
    """Give the probability that one isolated lot is accepted (hypergeometric; textbook).

    Args:
        lot_size: openings in the lot.
        nonconforming: how many of them do not conform, 0 to `lot_size`.
        sample_size: openings inspected, 1 to `lot_size`.
        accept: acceptance number, 0 to `sample_size`.

    Raises:
        ValueError: an argument lies outside its range.
    """
    _require_plan(sample_size, accept)
    require_between(1, lot_size, sample_size=sample_size)
    require_between(0, lot_size, nonconforming=nonconforming)
    return float(hypergeom.cdf(accept, lot_size, nonconforming, sample_size))


def share_accepted_with(sample_size: int, accept: int, probability: float) -> float:
    """Give the share of nonconforming openings at which a plan accepts with a probability (binomial).

    The binomial sum up to c equals one minus the beta distribution with c + 1 and n - c (textbook).

    Args:
        sample_size: openings inspected, at least 1.
        accept: acceptance number, below `sample_size`.
        probability: probability of acceptance, above 0 and below 1.

    Raises:
        ValueError: an argument lies outside its range.
    """
    _require_plan(sample_size, accept)
    require_between(1, sample_size, not_accepted=sample_size - accept)
    if not 0 < probability < 1:
        raise ValueError(f"probability must lie above 0 and below 1, not {probability}")
    return float(beta.ppf(1 - probability, accept + 1, sample_size - accept))


def _require_plan(sample_size: int, accept: int) -> None:
    require_between(1, float("1e9"), sample_size=sample_size)
    require_between(0, sample_size, accept=accept)
