"""The openings of an archive as compact JSON, for the script of its page.

Every text stands once, in `words`; an opening is a row of numbers of texts. Five thousand openings that share
products, people and rooms take a sixth of what they would take spelt out.
"""

import json
from collections.abc import Sequence
from typing import Any

from revealbook.present import labels
from revealbook.present.listed import FiledSite, ListedOpening
from revealbook.present.place_words import ALONE, BELOW, BUILDING, FLOOR, RANKS, TOGETHER, floor_key
from revealbook.present.words import N_, Words
from revealbook.rules.finding import WORST_FIRST, Outcome

Row = list[Any]


class _Texts:
    """Texts, each kept once; the empty one is the first."""

    def __init__(self) -> None:
        self.numbers: dict[str, int] = {"": 0}

    def number(self, text: str) -> int:
        """Give the number of a text, a new one if it is new."""
        return self.numbers.setdefault(text, len(self.numbers))


def slug(outcome: Outcome) -> str:
    """Give an outcome as names of files and styles write it."""
    return outcome.value.replace(" ", "-")


def page_data(sites: Sequence[FiledSite], openings: Sequence[ListedOpening], words: Words) -> str:
    """Give the data of the page: JSON that may stand inside a script element.

    Args:
        sites: the sites of the archive.
        openings: the openings to list, each of one of these sites.
        words: the reader's language.

    Raises:
        ValueError: an opening is of a site that is not among these.
    """
    texts, at = _Texts(), {site.id: number for number, site in enumerate(sites)}
    if strange := {one.site for one in openings} - set(at):
        raise ValueError(f"There are openings of sites that are not listed: {', '.join(sorted(strange))}.")
    days = {words.day(one.finished): one.finished.isoformat() for one in openings if one.finished}
    data = {
        "language": words.language,
        "say": _said(words),
        "outcomes": {slug(one): _outcome(one, texts, words) for one in Outcome},
        "vocabulary": {
            "building": BUILDING,
            "floor": FLOOR,
            "below": BELOW,
            "floors": RANKS,
            "alone": ALONE | TOGETHER,
        },
        "sites": [_site(site, texts) for site in sites],
        "openings": [_row(one, at[one.site], texts, words) for one in openings],
        "days": {texts.number(day): stated for day, stated in days.items()},
        "words": list(texts.numbers),
    }
    written = json.dumps(data, ensure_ascii=False, separators=(",", ":"))
    return written.replace("<", "\\u003c")  # neither an end tag nor a comment can begin inside


def _said(words: Words) -> dict[str, str]:
    """Texts that the script fills in itself."""
    return {
        "one": words.say(N_("1 opening found")),
        "found": words.say(N_("{found} of {all} openings found")),
        "none": words.say(N_("No opening found. Leave out a word or a filter.")),
        "more": words.say(N_("Show {more} more; {rest} are left")),
        "opening": words.say(N_("Opening {mark}")),
        "page": words.say(N_("page {page}")),
        "versions": words.say(N_("Filed versions of the site")),
    }


def _outcome(outcome: Outcome, texts: _Texts, words: Words) -> dict[str, Any]:
    said = words.say(labels.OUTCOMES[outcome])
    return {"said": said, "word": texts.number(said), "rank": WORST_FIRST.index(outcome)}


def _site(site: FiledSite, texts: _Texts) -> dict[str, Any]:
    return {
        "id": site.id,
        "name": site.name,
        "id_word": texts.number(site.id),
        "name_word": texts.number(site.name),
        "versions": [
            {
                "number": version.number,
                "said": version.said,
                "head": version.head,
                "packs": [[pack.name, pack.href] for pack in version.packs],
            }
            for version in site.versions
        ],
    }


def _row(one: ListedOpening, site: int, texts: _Texts, words: Words) -> Row:
    number = texts.number
    return [
        site,
        number(one.mark),
        number(one.place),
        number(one.building),
        number(floor_key(one.floor)),
        slug(one.outcome),
        number(words.day(one.finished) if one.finished else ""),
        number(one.later),
        str(one.finished.year) if one.finished else "",
        [number(name) for name in one.fitters],
        [[number(product), number(batch)] for product, batch in one.batches],
        {str(version): list(page) for version, page in one.pages.items()},
        [
            [number(part.heading), [[number(cell) for cell in line] for line in part.lines]]
            for part in one.parts
        ],
    ]
