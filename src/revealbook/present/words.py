"""Words and numbers in the reader's language. All text that a reader sees goes through here.

English stands in the code and the rule sets; other languages are gettext catalogues keyed by it.
"""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, datetime
from functools import cache
from importlib.resources import files
from math import isfinite

from babel import Locale
from babel.dates import format_date, format_datetime
from babel.messages.pofile import read_po
from babel.numbers import format_decimal

LANGUAGES = ("en", "de")
_DECIMALS = {
    "mm": 1, "mm/m": 2, "m": 2, "ml": 0, "K": 1, "degC": 1, "%": 1, "h": 1, "min": 0, "kg": 1,
    "N": 0, "Nm": 1, "Pa": 0, "m3/h": 2, "-": 2, "number": 0,
}  # fmt: skip
_SYMBOLS = {"degC": "°C", "m3/h": "m³/h", "-": "", "number": ""}
_MOST_DECIMALS = 6


def N_(text: str) -> str:  # noqa: N802 - gettext's own name for it
    """Mark a text for translation where it is stated; it is translated where it is shown."""
    return text


@dataclass(frozen=True, slots=True)
class Words:
    """A language: its catalogue and how it writes numbers and dates.

    Attributes:
        language: its tag, as `en` or `de`.
        translate: from an English text to the same in that language.
    """

    language: str
    translate: Callable[[str], str]

    def say(self, text: str, /, **facts: object) -> str:
        """Give a text in the reader's language with the facts filled in."""
        said = self.translate(text)
        return said.format(**facts) if facts else said

    def number(self, value: float, unit: str = "mm", against: float | None = None) -> str:
        """Write a number with as many decimals as its unit deserves, trailing zeros dropped.

        Args:
            value: the number, unrounded.
            unit: its unit.
            against: a limit that it must not seem to equal if it does not.
        """
        if not isfinite(value):
            return self.say(N_("none"))
        decimals = _DECIMALS.get(unit, 2)
        while against is not None and decimals < _MOST_DECIMALS and _seems_equal(value, against, decimals):
            decimals += 1
        pattern = "#,##0" + ("." + "#" * decimals if decimals else "")
        return format_decimal(round(value, decimals) + 0.0, format=pattern, locale=self.language).replace(
            "-", "−"
        )

    def quantity(self, value: float, unit: str, against: float | None = None) -> str:
        """Write a number with its unit, held together."""
        if not isfinite(value):
            return self.say(N_("none"))
        symbol = _SYMBOLS.get(unit, unit)
        number = self.number(value, unit, against)
        return f"{number}\u00a0{symbol}" if symbol else number

    def moment(self, at: datetime) -> str:
        """Write a date and time as read on site, with its zone left to the record."""
        return format_datetime(
            at, "yyyy-MM-dd HH:mm" if self.language == "en" else "dd.MM.yyyy HH:mm", None, self.language
        )

    def day(self, at: date) -> str:
        """Write a date."""
        return format_date(at, "yyyy-MM-dd" if self.language == "en" else "dd.MM.yyyy", self.language)

    def yes_or_no(self, *, value: bool) -> str:
        """Write a truth value."""
        return self.say(N_("yes") if value else N_("no"))

    def listed(self, items: list[str]) -> str:
        """Join items as the language does: `a, b and c`."""
        if len(items) <= 1:
            return "".join(items)
        return self.say(N_("{most} and {last}"), most=", ".join(items[:-1]), last=items[-1])


def _seems_equal(value: float, limit: float, decimals: int) -> bool:
    return value != limit and round(value, decimals) == round(limit, decimals)


@cache
def words_in(language: str) -> Words:
    """Give the words of a language.

    Raises:
        ValueError: there is no catalogue for it.
    """
    if language == "en":
        return Words(language, str)
    if language not in LANGUAGES:
        raise ValueError(f"There is no catalogue for {language!r}, only for {', '.join(LANGUAGES)}.")
    source = files("revealbook.present") / "languages" / f"{language}.po"
    with source.open("rb") as catalogue_file:
        catalogue = read_po(catalogue_file, locale=Locale.parse(language))
    texts = {str(message.id): str(message.string) for message in catalogue if message.id and message.string}
    return Words(language, lambda text: texts.get(text, text))
