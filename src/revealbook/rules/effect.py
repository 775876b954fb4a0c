"""What a site's change does to a rule or a method parameter: whether it asks for more or for less."""

from collections.abc import Iterator, Mapping
from math import inf
from types import MappingProxyType
from typing import Any, Literal

from revealbook.rules.limit import Limit

Effect = Literal["tightened", "relaxed", "retired", "added"]

_TIGHTER_IF: Mapping[str, Literal["greater", "less", "more", "fewer"]] = MappingProxyType(
    {
        "guard_band_factor": "greater",
        "gamma_dead": "greater",
        "gamma_wind": "greater",
        "slope_over_at_least_mm": "less",
        "movement_to_head": "greater",
        "movement_to_sill": "greater",
        "movement_to_side": "greater",
        "warmest_white_c": "greater",
        "warmest_light_c": "greater",
        "warmest_dark_c": "greater",
        "least_leakage_points": "greater",
        "flow_air_unread_pct": "greater",
        "flow_pressure_unread_pct": "greater",
        "hold_points": "more",
        "signing_roles": "more",
        "photographed_sections": "more",
        "conceding_roles": "fewer",
    }
)
"""Which way a method parameter asks for more: as a number, or by how many words it lists."""
_STRICTEST_FIRST: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "decision": ("guard band", "simple acceptance"),
        "interaction": ("linear", "linear to 1.2"),
        "weight_split": ("worse of both", "shared alike"),
    }
)
"""Words of a method parameter, from the one that asks for most."""


def effect_on_limit(before: Limit, after: Limit) -> Literal["tightened", "relaxed"]:
    """Say what a changed limit does; one that is wider anywhere, or cannot be compared, counts as relaxed."""
    if (after.by and before.by and after.by != before.by) or after.equals is not before.equals:
        return "relaxed"
    if after.choices is not None:
        return "tightened" if set(after.choices) <= set(before.choices or ()) else "relaxed"
    pairs = ((_at(before, size), _at(after, size)) for size in _sizes(before, after))
    return "relaxed" if any(_wider(old, new) for old, new in pairs) else "tightened"


def turned_round(before: Limit, after: Limit) -> bool:
    """Whether a limit asks for the opposite: a least value for a greatest one, a no for a yes."""
    if before.equals is not None:
        return after.equals is not before.equals
    old, new = set(_sides(before)), set(_sides(after))
    return bool(old and new) and not old & new


def effect_on_method(name: str, before: Any, after: Any) -> Literal["tightened", "relaxed"]:
    """Say what a changed method parameter does; where that is not known, it counts as relaxed."""
    words = _STRICTEST_FIRST.get(name, ())
    if before in words and after in words:
        return "tightened" if words.index(after) < words.index(before) else "relaxed"
    way = _TIGHTER_IF.get(name)
    if way is None or before is None or after is None:
        return "relaxed"
    more, less = (set(after), set(before)) if way in {"more", "fewer"} else (after, before)
    return "tightened" if (more > less if way in {"more", "greater"} else more < less) else "relaxed"


def _sides(limit: Limit) -> Iterator[str]:
    if limit.low is not None or (limit.by and limit.steps_bound_below):
        yield "low"
    if limit.high is not None or (limit.by and not limit.steps_bound_below):
        yield "high"


def _sizes(*limits: Limit) -> list[float]:
    """Give every size at which a limit may change, and one beyond them all."""
    return sorted({inf, *(step.up_to for limit in limits for step in limit.steps)})


def _at(limit: Limit, size: float) -> Limit | None:
    return limit if limit.by is None else limit.at_size(size)


def _wider(before: Limit | None, after: Limit | None) -> bool:
    """Whether a plain limit allows what the one before it did not; no limit at a size can never be met."""
    if before is None or after is None:
        return before is None and after is not None
    (old_low, old_high), (new_low, new_high) = _ends(before), _ends(after)
    return new_low < old_low or new_high > old_high


def _ends(limit: Limit) -> tuple[float, float]:
    return (-inf if limit.low is None else limit.low, inf if limit.high is None else limit.high)
