"""What a plain YAML word means: YAML 1.2 core schema, less what misleads on a building site.

A batch `0412`, a mark `12E5` or a lot `2.50` must keep the way it was written, so every number that Python
would print in another way carries its text along.
"""

import re
from typing import Self

_INTEGER = re.compile(r"[-+]?[0-9]+\Z")
_LONGEST_INTEGER = 18
"""Digits and sign of a whole number that fits 64 bits; a longer one is a serial number, kept as written."""
_DECIMAL = re.compile(r"[-+]?(?:\.[0-9]+|[0-9]+(?:\.[0-9]*)?)(?:[eE][-+]?[0-9]+)?\Z")
_WORDS: dict[str, bool | None] = {
    "": None, "~": None, "null": None, "Null": None, "NULL": None,
    "true": True, "True": True, "TRUE": True, "false": False, "False": False, "FALSE": False,
}  # fmt: skip


class WrittenNumber(float):
    """A number that remembers how it was written, for keys that turn out to want text."""

    __slots__ = ("text",)
    text: str

    def __new__(cls, text: str) -> Self:
        """Read the number in `text`."""
        number = super().__new__(cls, text)
        number.text = text
        return number


def meaning(text: str) -> str | float | bool | None:
    """Give the value of a plain (unquoted) YAML scalar.

    Dates, `no`, `on`, `.nan` and `08:10` are text; `true`, `false` and `null` are what they say.
    """
    if text in _WORDS:
        return _WORDS[text]
    if text[0] not in "0123456789.+-":
        return text
    if len(text) <= _LONGEST_INTEGER and _INTEGER.match(text):
        number = int(text)
        return number if str(number) == text else WrittenNumber(text)
    if _DECIMAL.match(text):
        return WrittenNumber(text)
    return text


def as_written(value: object) -> object:
    """Give back the text of a number where text is wanted; anything else is left alone."""
    if isinstance(value, WrittenNumber):
        return value.text
    if isinstance(value, int) and not isinstance(value, bool):
        return str(value)
    return value
