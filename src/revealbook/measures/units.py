"""The closed list of units that a measure or a limit may have."""

from typing import Literal, get_args

Unit = Literal[
    "mm", "mm/m", "m", "ml", "K", "degC", "%", "d", "h", "min", "kg", "N", "Nm", "Pa", "m3/h",
    "m3/(h m2)", "m3/(h m)", "-", "number", "yes/no", "choice",
]  # fmt: skip
UNITS: tuple[str, ...] = get_args(Unit)
"""`-` is a ratio, `number` a count, `yes/no` a truth value, `choice` one of several words."""
