"""How a page shall look: paper, language, and the folders it may draw on."""

import re
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

Paper = Literal["A4", "Letter"]

_LANGUAGE = re.compile(r"[A-Za-z]{2,3}(-[A-Za-z0-9]{2,8})*")


@dataclass(frozen=True, slots=True)
class Look:
    """The looks of one run.

    Attributes:
        paper: "A4" (210 x 297 mm) or "Letter" (8.5 x 11 in).
        language: BCP 47 tag of the text, such as "en" or "de-AT"; screen readers and hyphenation go by it.
        override: the site's own folder of templates; a file in it stands in for the shipped one of that name.
        photo_roots: folders that pictures may be read from; nothing outside of them is.

    Raises:
        ValueError: the paper is unknown or the language is no BCP 47 tag.
    """

    paper: Paper = "A4"
    language: str = "en"
    override: Path | None = None
    photo_roots: tuple[Path, ...] = ()

    def __post_init__(self) -> None:
        if self.paper not in ("A4", "Letter"):
            raise ValueError(f"Paper is A4 or Letter, not {self.paper!r}.")
        if not _LANGUAGE.fullmatch(self.language):
            raise ValueError(f"{self.language!r} is no language tag such as 'en' or 'de-AT'.")
