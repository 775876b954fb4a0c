"""How far the forces on the frame's fixings use up their design resistance, and how many would be needed.

Indicative only: fixings defer to their approval, local codes, the supplier's written instructions and a
licensed engineer.
"""

from collections.abc import Iterator, Mapping
from types import MappingProxyType

from revealbook.measures.fixing_lines import Resistance, resistance
from revealbook.measures.loads import Forces, forces
from revealbook.measures.physics.fixing_resistance import Interaction, fixings_needed, utilisation
from revealbook.measures.reading import Detail, Missing, Outcome, Reading
from revealbook.measures.weight import Share
from revealbook.measures.work import Work

INTERACTIONS: Mapping[str, Interaction] = MappingProxyType(
    {
        "linear": Interaction.LINEAR,
        "linear to 1.2": Interaction.LINEAR_TO_1_2,
        "power 1.5": Interaction.POWER_1_5,
        "power 2": Interaction.POWER_2,
        "bolt": Interaction.BOLT,
    }
)
"""Interaction rules by the method's word for them."""


def _held(work: Work) -> Iterator[tuple[Forces, Resistance] | Missing]:
    for found in forces(work):
        if isinstance(found, Missing):
            yield found
            continue
        bears = resistance(work, found.line)
        if isinstance(bears, Resistance):
            yield found, bears
        else:
            yield from bears


def fixing_use(work: Work) -> Iterator[Outcome]:
    """Use of the worst fixing of each piece and support, tension and shear together; 1 is all it can bear."""
    rule = INTERACTIONS[work.method.interaction]
    for held in _held(work):
        if isinstance(held, Missing):
            yield held
            continue
        on, bears = held
        use = _use(Share(on.tension_n, on.shear_n), bears, rule)
        models = (Detail(name, _use(share, bears, rule), "-") for name, share in on.models)
        out = () if on.worst_out_mm is None else (Detail("worst_out_mm", on.worst_out_mm, "mm"),)
        details = (
            Detail("tension_n", on.tension_n, "N"),
            Detail("tension_design_n", bears.tension_n, "N"),
            Detail("shear_n", on.shear_n, "N"),
            Detail("shear_design_n", bears.shear_n, "N"),
            *models,
            *(() if work.method.computations == 1 else out),
            *((Detail("trials", bears.trials, "number"),) if bears.trials else ()),
        )
        yield Reading(on.line.subject, use, on.line.path, None, details)


def _use(share: Share, bears: Resistance, rule: Interaction) -> float:
    return utilisation(share.tension_n / bears.tension_n, share.shear_n / bears.shear_n, rule)


def fixing_surplus(work: Work) -> Iterator[Outcome]:
    """How many fixings each piece and support has beyond those that its forces need, shared alike."""
    rule = INTERACTIONS[work.method.interaction]
    for held in _held(work):
        if isinstance(held, Missing):
            yield held
            continue
        on, bears = held
        needed = fixings_needed(on.total_tension_n, on.total_shear_n, bears.tension_n, bears.shear_n, rule)
        details = (Detail("fixings", on.line.number, "number"), Detail("fixings_needed", needed, "number"))
        yield Reading(on.line.subject, on.line.number - needed, on.line.path, None, details)
