"""The step: judged records and photographs to the questions that they give rise to."""

from collections.abc import Callable, Iterator, Mapping
from types import MappingProxyType

from revealbook.inspection.capture import capture
from revealbook.inspection.entry_times import entry_times
from revealbook.inspection.on_limit import on_limit
from revealbook.inspection.pace import pace
from revealbook.inspection.photo_twice import photo_twice
from revealbook.inspection.question import Evidence, Kind, Question
from revealbook.inspection.repeated import repeated
from revealbook.inspection.two_places import two_places

ASKED: Mapping[Kind, Callable[[Evidence], Iterator[Question]]] = MappingProxyType(
    {
        "repeated": repeated,
        "photo twice": photo_twice,
        "two places": two_places,
        "pace": pace,
        "entry": entry_times,
        "capture": capture,
        "on limit": on_limit,
    }
)
"""Every kind of question, with what asks it."""


def questions(evidence: Evidence) -> tuple[Question, ...]:
    """Ask all kinds of questions; none of them changes an outcome."""
    return tuple(question for ask in ASKED.values() for question in ask(evidence))
