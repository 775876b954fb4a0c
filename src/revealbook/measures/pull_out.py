"""A fixing's design resistance to tension in the wall at hand: by its data sheet, and by trials on the site.

Indicative only: it defers to the fixing's approval, local codes, the supplier's written instructions and a
licensed engineer.
"""

from typing import NamedTuple

from revealbook.measures.method import Method
from revealbook.measures.physics.pull_out import characteristic_resistance_n
from revealbook.records.products import Fixing


class Tension(NamedTuple):
    """A design resistance to tension in N, and how many trials it rests on; 0 if on the data sheet."""

    design_n: float
    trials: int = 0


def tension_of(product: Fixing, method: Method) -> Tension | str:
    """Give the lesser of the data sheet's resistance and that of the trials; or the key or reason that lacks.

    A trial speaks for this wall and the data sheet for its own; neither may be passed over for the other.
    """
    stated, loads = product.tension_design_n, product.pull_out_trials_n
    if loads is None:
        return "tension_design_n" if stated is None else Tension(stated)
    if len(loads) < method.least_pull_out_trials:
        return "too_few_trials"
    tried = characteristic_resistance_n(loads) / method.gamma_pull_out
    if tried <= 0:
        return "trials_scatter"
    return Tension(tried, len(loads)) if stated is None or tried < stated else Tension(stated)
