"""Class of a window's resistance to wind by EN 12210: which one a pressure asks for, and its test pressure.

Source: EN 12210 (1999; 2016), test pressures P1 published (secondary source); that a class beyond 2000 Pa is
written E with its pressure is from memory. The letter A, B or C before it is the class of deflection.

Indicative only: a wind load defers to the national annex, local codes and a licensed engineer.
"""

import math
from functools import cache

from revealbook.measures.physics import published_table
from revealbook.measures.physics.plausibility import require_not_negative


@cache
def _test_pressures_pa() -> dict[str, float]:
    return {row["class"]: float(row["p1_pa"]) for row in published_table.rows("wind_resistance_classes")}


def class_pressure_pa(declared: str) -> float:
    """Return P1 in Pa of a class as it is declared, with or without the letter of its deflection.

    Raises:
        ValueError: no class is written like that.
    """
    name = declared.lstrip("ABC")
    tested = float(name[1:]) if name.startswith("E") else _test_pressures_pa().get(name)
    if tested is None:
        raise ValueError(f"no class of wind resistance is written {declared!r}")
    return tested


def class_asked(pressure_pa: float) -> str:
    """Return the lowest class whose test pressure is at least that of the wind, without sign, not below zero.

    Beyond the last class it is E with the pressure in whole Pa.
    """
    require_not_negative(pressure_pa=pressure_pa)
    enough = (name for name, tested in _test_pressures_pa().items() if tested >= pressure_pa)
    return next(enough, f"E{math.ceil(pressure_pa)}")
