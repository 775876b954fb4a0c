"""How people name a floor or a building when they ask, in English and in German.

Records write floors as the site does ("2", "02", "ground", "2. OG"); who asks ten years later writes "second
floor". Both are brought to one key, so that they meet. All of it is from memory of everyday usage.
"""

import re
import unicodedata
from string import digits

_ENGLISH = (
    "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth", "eleventh",
    "twelfth",
)  # fmt: skip
_GERMAN = (
    "erst", "zweit", "dritt", "viert", "funft", "sechst", "siebt", "acht", "neunt", "zehnt", "elft", "zwolft",
)  # fmt: skip
_HIGHEST = 40
_WORD = re.compile(r"[0-9]{1,3}(?:st|nd|rd|th)\b|-?[0-9]{1,3}|[^\W\d_]+")
BUILDING = ("building", "block", "house", "tower", "bauteil", "gebaude", "haus", "turm")
"""Words that a building's name follows."""
FLOOR = ("floor", "storey", "story", "level", "etage", "geschoss", "obergeschoss", "og", "stock", "stockwerk")
"""Words before or after which a floor's number or name stands."""
ALONE = {
    "ground": "0", "eg": "0", "erdgeschoss": "0", "parterre": "0",
    "basement": "-1", "ug": "-1", "untergeschoss": "-1", "keller": "-1", "kellergeschoss": "-1",
    "attic": "attic", "dg": "attic", "dachgeschoss": "attic",
}  # fmt: skip
"""Words that name a floor by themselves, with its key."""
BELOW = ("basement", "ug", "untergeschoss", "kellergeschoss")
"""Words beside which a number counts downwards."""


def _ranks() -> dict[str, str]:
    english = {word: str(rank) for rank, word in enumerate(_ENGLISH, 1)}
    german = {
        stem + ending: str(rank) for rank, stem in enumerate(_GERMAN, 1) for ending in ("e", "er", "es", "en")
    }
    endings = ("st", "nd", "rd", "th")
    short = {f"{rank}{ending}": str(rank) for rank in range(_HIGHEST) for ending in endings}
    return english | german | short


RANKS = _ranks() | {word: key for word, key in ALONE.items() if word in ("ground", "basement", "attic")}
"""Words that name a floor beside a word of `FLOOR`, with its key: `second` is `2`."""
TOGETHER = {f"{rank}og": str(rank) for rank in range(1, _HIGHEST)}
"""Short German names written as one word, as `2og`."""


def plain_text(text: str) -> str:
    """Give a text as it is compared: small letters, without accents."""
    decomposed = unicodedata.normalize("NFD", text.lower().replace("ß", "ss"))
    return "".join(letter for letter in decomposed if not unicodedata.category(letter).startswith("M"))


def floor_key(floor: str | None) -> str:
    """Give the key of a floor as a record writes it: `02`, `second` and `2. OG` are `2`, `EG` is `0`.

    A name that says nothing of height stays itself, in small letters; no floor is the empty text.
    """
    plain = plain_text(floor or "").strip()
    words = _WORD.findall(plain)
    numbers = [int(word) for word in words if word[-1] in digits] or [
        int(RANKS[word]) for word in words if word in RANKS and word not in ALONE
    ]
    if numbers:
        return str(-abs(numbers[0]) if any(word in BELOW for word in words) else numbers[0])
    return next((ALONE[word] for word in words if word in ALONE), plain)
