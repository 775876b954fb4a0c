"""The window set at once on a screwed frame, where the adhesive's supplier allows it.

Indicative only: whether the screws alone carry the window is for the supplier's written instructions and the
structural design to say.
"""

from collections.abc import Iterator

from revealbook.measures.bonding import adhesives
from revealbook.measures.reading import Outcome, Reading
from revealbook.measures.waits import hours_between
from revealbook.measures.work import Work

CHOICE = ("window", "set_on_screws")


def load_on_screws(work: Work) -> Iterator[Outcome]:
    """Whether the window was set on the screws alone, and every adhesive used may be loaded so."""
    allowed = [bool(getattr(adhesive, "load_at_once_on_screws", None)) for adhesive, _ in adhesives(work)]
    yield Reading((), work.look(*CHOICE) is True and all(allowed), CHOICE)


def screwed_before_load(work: Work) -> Iterator[Outcome]:
    """Hours from the last fixing of the mounting frame to setting the window on it."""
    yield hours_between(work, ("frame", "screwed_at"), ("window", "set_at"))
