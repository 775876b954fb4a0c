"""A record that notes which of its keys are looked at, so that it can be told what no rule reads."""

from typing import Any

from pydantic import BaseModel


class Traced:
    """Stands for a part of a record in front of a measure, and notes every key that the measure takes.

    It passes for the part itself; a list gives its items traced, under one path for all of them.
    """

    __slots__ = ("_part", "_path", "_seen")

    def __init__(self, part: BaseModel, seen: set[str], path: str = "") -> None:
        """Stand for `part` at `path` and note into `seen`."""
        self._part, self._seen, self._path = part, seen, path

    def __getattr__(self, name: str) -> Any:
        """Give what the part gives, noted if it is one of its keys."""
        value = getattr(self._part, name)
        if name not in type(self._part).model_fields:
            return value
        path = f"{self._path}.{name}" if self._path else name
        self._seen.add(path)
        return traced(value, self._seen, path)

    @property  # type: ignore[misc]
    def __class__(self) -> Any:
        """Pass for the part where somebody asks what it is."""
        return type(self._part)

    def __eq__(self, other: object) -> bool:
        """Compare the parts themselves."""
        return self._part == (other._part if isinstance(other, Traced) else other)

    def __hash__(self) -> int:
        """Hash the part itself."""
        return hash(self._part)


def traced(value: Any, seen: set[str], path: str) -> Any:
    """Give a value that notes what is taken from it, if it holds keys."""
    if isinstance(value, BaseModel):
        return Traced(value, seen, path)
    if isinstance(value, tuple):
        return tuple(traced(item, seen, path) for item in value)
    return value
