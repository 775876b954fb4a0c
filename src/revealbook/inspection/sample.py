"""A drawn sample: the lot, the plan, the seed and what was drawn; written, read back and drawn again."""

from dataclasses import dataclass
from math import ceil
from typing import Any, Literal

from pydantic import BaseModel, ConfigDict, Field, ValidationError

from revealbook.inspection.draw import Candidate, Chosen, Key, Stratum, allocate, draw, lot, strata
from revealbook.measures.physics.sampling import (
    Aql,
    Plan,
    acceptance_probability_of_lot,
    share_accepted_with,
    single_plan,
)
from revealbook.records.quantities import Many
from revealbook.rules.finding import Outcome
from revealbook.rules.judged import JudgedSite

FORMAT = "revealbook-sample-1"
SHARES = (0.01, 0.025, 0.05, 0.1, 0.2, 0.3)
"""Shares of nonconforming openings at which the risk of an isolated lot is told."""
TAKEN_IN_SERIES = 0.1
"""Probability of acceptance at which a plan's consumer's risk is quoted (MIL-STD-105E, from memory)."""


@dataclass(frozen=True, slots=True)
class Sample:
    """A sample as drawn.

    Attributes:
        site: the site's id.
        aql: acceptance quality limit in percent, as the table names it.
        seed: the seed it was drawn with.
        by: what the lot was divided by.
        chosen: which openings make the lot.
        members: the lot.
        plan: the plan.
        drawn: the marks drawn, in drawing order.
    """

    site: str
    aql: Aql
    seed: int
    by: tuple[Key, ...]
    chosen: Chosen
    members: tuple[Candidate, ...]
    plan: Plan
    drawn: tuple[str, ...]

    @property
    def divided(self) -> tuple[tuple[Stratum, int, int], ...]:
        """The strata, each with its openings in the lot and in the sample."""
        sizes = {stratum: len(marks) for stratum, marks in strata(self.members, self.by).items()}
        places = allocate(sizes, self.plan.sample_size)
        return tuple((stratum, size, places[stratum]) for stratum, size in sizes.items())


@dataclass(frozen=True, slots=True)
class Risk:
    """What a plan makes of a lot with so many nonconforming openings.

    Attributes:
        nonconforming: how many openings of the lot do not conform.
        share: their share of the lot.
        accepted: probability that the lot is accepted all the same (hypergeometric).
    """

    nonconforming: int
    share: float
    accepted: float


def take_sample(
    members: tuple[Candidate, ...],
    site: str,
    aql: Aql,
    seed: int,
    *,
    by: tuple[Key, ...] = (),
    chosen: Chosen | None = None,
) -> Sample:
    """Draw a sample from a lot.

    Raises:
        ValueError: the lot is empty, or the table has no such quality limit.
    """
    plan = single_plan(len(members), aql)
    return Sample(site, aql, seed, by, chosen or Chosen(), members, plan, draw(members, plan, seed, by))


def sample_site(site: JudgedSite, aql: Aql, seed: int, by: tuple[Key, ...], chosen: Chosen) -> Sample:
    """Draw a sample from the openings of a site; arguments and errors as `take_sample`."""
    return take_sample(lot(site, chosen), site.site.site.id, aql, seed, by=by, chosen=chosen)


def risks(plan: Plan) -> tuple[Risk, ...]:
    """Give the probability that the lot is accepted, by how many of its openings do not conform."""
    numbers = dict.fromkeys(ceil(share * plan.lot_size) for share in SHARES)
    return tuple(
        Risk(
            number,
            number / plan.lot_size,
            acceptance_probability_of_lot(plan.lot_size, number, plan.sample_size, plan.accept),
        )
        for number in numbers
    )


def share_in_series(plan: Plan) -> float:
    """Give the share nonconforming that the plan still accepts once in ten lots of a series (binomial)."""
    return share_accepted_with(plan.sample_size, plan.accept, TAKEN_IN_SERIES)


def always_inspected(site: JudgedSite, members: tuple[Candidate, ...]) -> tuple[tuple[str, int], ...]:
    """Give the rules of grade critical, each with how many openings of the lot it applies to."""
    marks = {one.mark for one in members}
    applies: dict[str, int] = {}
    for one in site.openings:
        for judgement in one.judgements if one.mark in marks else ():
            if judgement.held.rule.grade == "critical" and judgement.outcome is not Outcome.DOES_NOT_APPLY:
                applies[judgement.rule_id] = applies.get(judgement.rule_id, 0) + 1
    return tuple((held.id, applies[held.id]) for held in site.rule_set.rules if held.id in applies)


class _Stated(BaseModel):
    model_config = ConfigDict(frozen=True, strict=True, extra="ignore")

    format: Literal["revealbook-sample-1"]
    site: str
    aql_pct: Aql
    seed: int = Field(ge=0)
    by: Many[Key]
    chosen: dict[str, str | None]
    lot: list[dict[str, str]]
    drawn: Many[str]


def data(sample: Sample) -> dict[str, Any]:
    """Give a sample as plain data: enough to draw it again without the site."""
    return {
        "format": FORMAT,
        "site": sample.site,
        "aql_pct": sample.aql,
        "seed": sample.seed,
        "by": list(sample.by),
        "chosen": {key: getattr(sample.chosen, key) for key in ("building", "floor", "fitter")},
        "plan": sample.plan._asdict(),
        "lot": [
            {key: getattr(one, key) for key in ("mark", "building", "floor", "elevation", "fitter")}
            for one in sample.members
        ],
        "drawn": list(sample.drawn),
    }


def read_sample(stated: Any) -> Sample:
    """Read a sample from plain data and draw it again.

    Raises:
        ValueError: it is no sample, or its seed does not give the openings that it names.
    """
    try:
        read = _Stated.model_validate(stated)
        members = tuple(Candidate(**one) for one in read.lot)
        chosen = Chosen(**read.chosen)
    except (ValidationError, TypeError) as error:
        raise ValueError("this is no sample written by `revealbook sample`") from error
    if len({one.mark for one in members}) != len(members):
        raise ValueError("the sample names an opening of its lot twice")
    again = take_sample(members, read.site, read.aql_pct, read.seed, by=read.by, chosen=chosen)
    if again.drawn != read.drawn:
        raise ValueError("its seed does not draw the openings that it names; it was changed after the draw")
    return again
