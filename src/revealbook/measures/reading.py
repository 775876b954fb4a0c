"""What a measure gives: a reading, or what is missing for one."""

from typing import NamedTuple

Path = tuple[str | int, ...]
Subject = tuple[str, ...]
"""What a reading is of, from the larger to the smaller part: ("left", "hole 1-2"), ("foam",)."""
Value = float | bool | str


class Detail(NamedTuple):
    """A value that a reading was computed from, so that a sentence can name it.

    Attributes:
        name: its key in the record or product, e.g. `air_c`, `air_min_c`.
        value: the value itself.
        unit: its unit.
        path: where it stands, or None if it does not stand in the opening's record.
    """

    name: str
    value: Value
    unit: str
    path: Path | None = None


class Reading(NamedTuple):
    """One value of a measure.

    Attributes:
        subject: which part of the opening it is of; () for the opening as a whole.
        value: the value, in the measure's unit, unrounded.
        path: the place in the record that it came from.
        uncertainty: expanded uncertainty (k = 2) in the same unit, or None if none is stated.
        details: what it was computed from, if it is not simply what stands at `path`.
    """

    subject: Subject
    value: Value
    path: Path
    uncertainty: float | None = None
    details: tuple[Detail, ...] = ()


class Missing(NamedTuple):
    """A reading that cannot be given.

    Attributes:
        subject: which part of the opening it would be of.
        what: the key that is missing, or the reason's code.
        path: where it should stand.
        details: what is known all the same.
    """

    subject: Subject
    what: str
    path: Path
    details: tuple[Detail, ...] = ()


Outcome = Reading | Missing
