"""Where a value of a record belongs, in words: which piece, fixing or joint."""

from collections.abc import Iterator

from revealbook.measures.reading import Path
from revealbook.measures.work import look
from revealbook.present import labels
from revealbook.present.words import N_, Words
from revealbook.records.opening import Opening

_SAID = {
    "widths_mm": N_("clear width"),
    "heights_mm": N_("clear height"),
    "diagonals_mm": N_("diagonal"),
    "rising": N_("rising"),
    "falling": N_("falling"),
    "joint_widths_mm": N_("joint width"),
    "start": N_("near the left or lower end"),
    "end": N_("near the right or upper end"),
    "out_of_plumb_mm": N_("out of plumb"),
    "out_of_level_mm": N_("out of level"),
    "out_of_line_mm": N_("out of level or plumb"),
    "corners": N_("corner"),
    "ends": N_("end"),
    "bonded_width_mm": N_("width stuck to the frame"),
    "beads": N_("beads"),
    "number": N_("number"),
}
"""Keys that a place calls otherwise than a finding does."""
_COUNTED = {
    "lengthwise_joints": N_("lengthwise joint {number}"),
    "fixings": N_("fixings, set {number}"),
    "placed": N_("support {number}"),
    "brackets": N_("bracket {number}"),
    "hold_points": N_("hold point {number}"),
    "events": N_("sealing event {number}"),
}
_UNSAID = frozenset({"pieces", "events"})
_POSITION = N_("position")


def section(path: Path, words: Words) -> str:
    """Say which section of the record a value stands in."""
    return words.say(labels.STAGES.get(str(path[0]), str(path[0])))


def position(path: Path, opening: Opening, words: Words) -> str:
    """Say where in its section a value belongs, from the larger to the smaller part."""
    return ", ".join(_parts(path, opening, words))


def whole_position(path: Path, opening: Opening, words: Words) -> str:
    """Say where a value belongs with its section before it."""
    return ", ".join((section(path, words), *_parts(path, opening, words)))


def _parts(path: Path, opening: Opening, words: Words) -> Iterator[str]:
    for number, part in enumerate(path[1:], start=1):
        before = path[number - 1]
        if isinstance(part, int):
            yield _counted(path[: number + 1], opening, words)
        elif part in _COUNTED or part in _UNSAID:
            continue
        elif part == "at_mm" and "fixings" not in path:
            yield words.say(_POSITION)
        elif part == "holes_mm" or before == "at_mm":
            yield labels.key(str(part), words)
        else:
            yield words.say(_SAID[part]) if part in _SAID else labels.key(part, words)


def _counted(path: Path, opening: Opening, words: Words) -> str:
    """Say which one of a list: a sealing event by its step, the rest by their number."""
    of, number = str(path[-2]), int(path[-1])
    if of == "events":
        step = getattr(look(opening, path), "step", None)
        if step:
            return words.say(labels.PARTS[step])
    if of in _COUNTED:
        return words.say(_COUNTED[of], number=number + 1)
    return words.say(N_("number {number}"), number=number + 1)
