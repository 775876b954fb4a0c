"""Words and numbers in the reader's language. All text that a reader sees goes through here.

English stands in the code and the rule sets; other languages are gettext catalogues keyed by it.
"""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, datetime
from functools import cache, lru_cache
from importlib.resources import files
from math import isfinite
from pathlib import Path

from babel import Locale
from babel.dates import format_date, format_datetime
from babel.messages.pofile import read_po
from babel.numbers import format_decimal

SAME = 1e-9
"""Numbers closer than this differ by binary arithmetic only; judging takes them for equal as well."""
_DECIMALS = {
    "mm": 1, "mm/m": 2, "m": 2, "ml": 0, "K": 1, "degC": 1, "%": 1, "d": 0, "h": 1, "min": 0, "kg": 1,
    "N": 0, "Nm": 1, "Pa": 0, "m3/h": 2, "-": 2, "number": 0,
}  # fmt: skip
_SYMBOLS = {
    "degC": "°C", "m3/h": "m³/h", "m3/(h m2)": "m³/(h·m²)", "m3/(h m)": "m³/(h·m)", "-": "", "number": "",
}  # fmt: skip
_MOST_DECIMALS = 9


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

    def count(self, number: int, one: str, many: str, /, **facts: object) -> str:
        """Say one of two texts, by whether it tells of one thing or of another number of them.

        Args:
            number: how many; both texts may name it as `{number}`.
            one: the text for one.
            many: the text for none or several.
            facts: what else the texts name.
        """
        return self.say(one if number == 1 else many, number=number, **facts)

    def number(self, value: float, unit: str = "mm", against: float | None = None) -> str:
        """Write a number with as many decimals as its unit deserves, trailing zeros dropped.

        Thousands are not set apart: 1,475 and 1.475 mean different lengths to different readers.

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
        return _written(round(value, decimals) + 0.0, decimals, self.language)

    def degrees(self, value: float) -> str:
        """Write a latitude or longitude to about a metre."""
        return f"{format_decimal(value, format='0.00000', locale=self.language)}°"

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


@lru_cache(maxsize=1 << 16)
def _written(value: float, decimals: int, language: str) -> str:
    """Write a rounded number; a pack writes the same ones over and over, and each takes long."""
    pattern = "0" + ("." + "#" * decimals if decimals else "")
    return format_decimal(value, format=pattern, locale=language).replace("-", "−")


def _seems_equal(value: float, limit: float, decimals: int) -> bool:
    return abs(value - limit) > SAME and round(value, decimals) == round(limit, decimals)


def languages() -> dict[str, Path | None]:
    """Give the languages there are, each with its catalogue; English needs none."""
    folder = Path(str(files("revealbook.present") / "languages"))
    return {"en": None} | {file.stem: file for file in sorted(folder.glob("*.po"))}


@cache
def words_in(language: str) -> Words:
    """Give the words of a language.

    Raises:
        ValueError: there is no catalogue for it.
    """
    if language == "en":
        return Words(language, str)
    known = languages()
    file = known.get(language)
    if file is None:
        raise ValueError(f"There is no catalogue for {language!r}, only for {', '.join(known)}.")
    return catalogue(language, file)


def catalogue(language: str, file: Path) -> Words:
    """Read the words of a language from a gettext catalogue; what it leaves out is said in English."""
    with file.open("rb") as opened:
        read = read_po(opened, locale=Locale.parse(language))
    texts = {str(message.id): str(message.string) for message in read if message.id and message.string}
    return Words(language, lambda text: texts.get(text, text))
