"""How names and texts are compared: without regard to case, accents, and how their parts are set apart.

`W-2.07`, `w 2.07` and `W2/07` are one mark; `0412` and `412` are two batches, because a nought is printed.
"""

import re
from collections.abc import Iterator
from functools import lru_cache

from revealbook.present.place_words import BUILDING, plain_text

_PIECE = re.compile(r"[^\W\d_]+|\d+")
_WORD = re.compile(r"[^\s,;:()\"“”„'?!]+")
_BETWEEN = "_"
_LONGEST = 100
"""Of a longer word only the beginning counts; PostgreSQL takes no word of more than 2046 bytes."""
_KEPT = 1 << 16
"""So many names and texts are kept with their keys: those of products and people come again and again."""


@lru_cache(_KEPT)
def key(name: str) -> str:
    """Give what a mark, serial, batch, product, rule or person is compared by; empty if it says nothing."""
    return _BETWEEN.join(_PIECE.findall(_plain(name)))


def building_key(name: str | None) -> str:
    """Give what a building is compared by: `B`, `Haus B` and `block b` are one."""
    own = _PIECE.findall(_plain(name or ""))
    return _BETWEEN.join([piece for piece in own if piece not in BUILDING] or own)


def words(text: str) -> list[str]:
    """Give the words of a text as keys: `Reveal W-2.07 (south-west)` has `reveal`, `w_2_07`, `south_west`."""
    found = (_BETWEEN.join(_PIECE.findall(word)) for word in _words(text))
    return [word for word in found if word]


def pieces(word: str) -> list[str]:
    """Give the pieces of a key: letters and digits apart."""
    return word.split(_BETWEEN)


@lru_cache(_KEPT)
def tokens(text: str) -> frozenset[str]:
    """Give everything by which a text is found: its words, and the pieces of each."""
    found = set[str]()
    for word in _words(text):
        if word.isalpha():
            found.add(word)
        elif own := _PIECE.findall(word):
            found.update(own)
            found.add(_BETWEEN.join(own))
    return frozenset(found)


def _words(text: str) -> Iterator[str]:
    return (word[:_LONGEST] for word in _WORD.findall(_plain(text)))


def _plain(text: str) -> str:
    return text.lower() if text.isascii() else plain_text(text)
