"""The order in which the frame's pieces went on, as told and as the times of their bonding tell it."""

from collections.abc import Iterator, Sequence
from datetime import datetime

from revealbook.measures.left_out import standing
from revealbook.measures.reading import Missing, Outcome, Path, Reading
from revealbook.measures.work import Work
from revealbook.records.applications import BONDING, Applied, applications

ORDER: Path = ("frame", "order")
_STANDS_ON = {"left": ("bottom",), "right": ("bottom",), "top": ("left", "right")}
"""Pieces with those that go on before them."""


def pieces_in_order(work: Work) -> Iterator[Outcome]:
    """Whether each side piece went on after the bottom piece, and the top piece after both.

    The order told counts, unless the first bonding was dated piece by piece and shows another: the worse
    counts. Pieces that are left out have no place in it.
    """
    first = [one for one in applications(work.opening) if one.nonconformity is None]
    for piece in standing(work, tuple(_STANDS_ON)):
        yield _in_order(work, first, piece, standing(work, _STANDS_ON[piece]))


def _in_order(work: Work, first: Sequence[Applied], piece: str, below: tuple[str, ...]) -> Outcome:
    about = [one for one in first if not one.recorded.of or {piece, *below} & set(one.recorded.of)]
    if len(about) > 1:
        for one in about:
            for key in ("of", "pressed_at"):
                if not getattr(one.recorded, key):
                    return Missing((piece,), key, (*one.path, key))
        pressed = _pressed(about, piece)
        if pressed and any(pressed < later for one in below if (later := _pressed(about, one))):
            return Reading((piece,), value=False, path=BONDING)
    order = work.look(*ORDER)
    if order is None or any(order.count(one) != 1 for one in (piece, *below)):
        return Missing((piece,), "order", ORDER)
    return Reading((piece,), all(order.index(one) < order.index(piece) for one in below), ORDER)


def _pressed(about: Sequence[Applied], piece: str) -> datetime | None:
    """Give when a piece was first pressed on, if an application is about it."""
    times = (one.recorded.pressed_at for one in about if piece in (one.recorded.of or ()))
    return min((at for at in times if at is not None), default=None)
