"""The section through the joint at a side: which layers close it, from inside to outside, as recorded.

It is schematic and not to scale; only the order of the layers and what was recorded of them is told.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import NamedTuple

from revealbook.present import labels
from revealbook.present.drawing_input import Found
from revealbook.present.drawing_labels import MARK_MM, mark_width
from revealbook.present.drawing_shapes import (
    Box,
    Mark,
    Point,
    Role,
    Stroke,
    Text,
    rectangle,
    text_width,
)
from revealbook.present.drawing_sheet import Drawing, Sheet, finished
from revealbook.present.words import N_, Words
from revealbook.records.opening import Opening
from revealbook.records.seals import SealEvent

_WALL = Box(2, 4, 19, 15)
_FRAME = Box(11, 15, 19, 37)
_INSULATION = Box(2, 15, 11, 42)
_COVER = Box(11, 37, 19, 42)
_WINDOW = Box(21.6, 19, 29, 33)
_GLASS = Box(29, 23.5, 33, 28.5)
_FOAM = Box(19, 20.6, 21.6, 31.4)
_LABELS_AT = 39.0
_FIRST_LABEL_MM, _LINE_MM = 8.0, 4.5
_LAYERS = ("inner tape", "foam", "trim", "outer tape")


class _Layer(NamedTuple):
    """A part of the section: its name, whether it was recorded, where its leader ends, its findings."""

    name: str
    shown: bool
    end: Point
    found: tuple[Found, ...] = ()


@dataclass(frozen=True, slots=True)
class SectionInput:
    """What the section shows.

    Attributes:
        substrate: what the wall is of, if recorded.
        frame: whether a side piece is recorded.
        window: whether the window is recorded.
        steps: recorded steps in the order of their dates; undated ones last.
        found: findings to be marked, by step.
    """

    substrate: str | None
    frame: bool
    window: bool
    steps: tuple[str, ...]
    found: tuple[tuple[str, Found], ...] = ()


def section_input(opening: Opening, found: tuple[Found, ...] = ()) -> SectionInput:
    """Take from a record what its section shows."""
    pieces = opening.frame.pieces if opening.frame else None
    events = (opening.seals.events if opening.seals else None) or ()
    dated = sorted(events, key=lambda event: (event.at is None, event.at.timestamp() if event.at else 0.0))
    return SectionInput(
        substrate=opening.survey.substrate if opening.survey else None,
        frame=bool(pieces and (pieces.left or pieces.right)),
        window=opening.window is not None,
        steps=tuple(dict.fromkeys(event.step for event in dated if event.step)),
        found=tuple(_by_step(found, events)),
    )


def _by_step(found: tuple[Found, ...], events: tuple[SealEvent, ...]) -> Iterator[tuple[str, Found]]:
    for one in found:
        match one.path:
            case ("seals", "events", int(number), *_) if one.number and number < len(events):
                yield events[number].step or "", one


def section(given: SectionInput, words: Words) -> Drawing:
    """Draw the section through the joint."""
    sheet = Sheet()
    _draw_context(given, sheet)
    _draw_joint(given, sheet)
    layers = list(_layers(given, words))
    _name(layers, sheet, words)
    sheet.write(Text(22, 5.6, words.say(N_("inside")), "start"))
    sheet.write(Text(22, 44.5, words.say(N_("outside")), "start"))
    caption = words.say(N_("Through the joint at the side, not to scale; steps numbered by date."))
    if not all(layer.shown for layer in layers):
        caption += " " + words.say(N_("Dashed: not shown by the record."))
    return finished(sheet, None, _title(given, words), caption)


def _role(shown: bool, role: Role) -> Role:
    return role if shown else Role.LAYER_NOT_SHOWN


def _draw_context(given: SectionInput, sheet: Sheet) -> None:
    sheet.strokes.append(rectangle(_role(given.substrate is not None, Role.MASONRY), _WALL))
    sheet.strokes += [rectangle(Role.INSULATION, box) for box in (_INSULATION, _COVER)]
    sheet.strokes.append(rectangle(_role(given.frame, Role.FRAME_CUT), _FRAME))
    sheet.strokes += [
        rectangle(_role(given.window, Role.FRAME_CUT), _WINDOW),
        rectangle(_role(given.window, Role.GLASS), _GLASS),
    ]
    if given.substrate is not None:
        sheet.strokes += _hatched(_WALL)
    sheet.strokes += [*_waves(_INSULATION), *_waves(_COVER, 2)]
    if given.frame:
        sheet.strokes += _beads()


def _hatched(box: Box, step: float = 2.2) -> Iterator[Stroke]:
    """Hatch a box with lines at 45 degrees."""
    wide, high = box.right - box.left, box.bottom - box.top
    for index in range(1, int((wide + high) / step) + 1):
        far = index * step
        start = Point(box.left + min(far, wide), box.top + max(0.0, far - wide))
        end = Point(box.left + max(0.0, far - high), box.top + min(far, high))
        yield Stroke(Role.HATCH, (start, end))


def _waves(box: Box, rungs: int = 10) -> Iterator[Stroke]:
    """Draw the zigzag of soft insulation."""
    inset = 0.5
    step = (box.bottom - box.top) / rungs
    points = [
        Point(box.left + inset if rung % 2 else box.right - inset, box.top + rung * step)
        for rung in range(rungs + 1)
    ]
    yield Stroke(Role.HATCH, tuple(points))


def _beads() -> Iterator[Stroke]:
    """Draw the two beads between frame piece and wall."""
    for x in (13.0, 17.0):
        yield rectangle(Role.TAPE, Box(x - 0.7, 14.6, x + 0.7, 15.4))


def _draw_joint(given: SectionInput, sheet: Sheet) -> None:
    """Draw the foam, and each tape from the frame piece across the joint onto the window's frame."""
    sheet.strokes.append(rectangle(_role("foam" in given.steps, Role.FOAM), _FOAM))
    for step, y, edge in (
        ("inner tape", _FOAM.top - 0.35, _WINDOW.top - 0.35),
        ("outer tape", _FOAM.bottom + 0.35, _WINDOW.bottom + 0.35),
    ):
        corner = _WINDOW.left - 0.35
        points = (Point(_FRAME.right, y), Point(corner, y), Point(corner, edge), Point(corner + 3.4, edge))
        sheet.strokes.append(Stroke(_role(step in given.steps, Role.TAPE), points))


def _layers(given: SectionInput, words: Words) -> Iterator[_Layer]:
    """Give the parts to be named, from inside to outside."""
    wall = words.say(N_("wall: {substrate}"), substrate=words.say(given.substrate)) if given.substrate else ""
    yield _Layer(wall or words.say(N_("wall")), given.substrate is not None, Point(17.5, 8))
    yield _Layer(words.say(N_("adhesive and frame piece")), given.frame, Point(17.5, 17))
    ends = {
        "inner tape": Point(24.2, _WINDOW.top - 0.35),
        "foam": Point(20.3, 24.5),
        "trim": Point(20.3, _FOAM.bottom - 0.6),
        "outer tape": Point(24.2, _WINDOW.bottom + 0.35),
    }
    middle = [
        _Layer(_numbered(step, given, words), step in given.steps, ends[step], _found(step, given))
        for step in _LAYERS
        if step != "trim" or "trim" in given.steps
    ]
    yield middle[0]
    yield _Layer(words.say(N_("window frame")), given.window, Point(27.2, 21.2))
    yield from middle[1:]
    yield _Layer(words.say(N_("insulation")), shown=True, end=Point(16, 40))


def _numbered(step: str, given: SectionInput, words: Words) -> str:
    name = words.say(N_("foam trimmed")) if step == "trim" else words.say(labels.PARTS[step])
    return f"{given.steps.index(step) + 1}  {name}" if step in given.steps else name


def _found(step: str, given: SectionInput) -> tuple[Found, ...]:
    return tuple(dict.fromkeys(one._replace(path=()) for of, one in given.found if of == step))


def _name(layers: list[_Layer], sheet: Sheet, words: Words) -> None:
    """Write the names in a column and lead each to its part."""
    for index, layer in enumerate(layers):
        y = _FIRST_LABEL_MM + index * _LINE_MM
        text = layer.name if layer.shown else f"{layer.name}: {words.say(N_('not shown'))}"
        sheet.write(Text(_LABELS_AT, y + 0.8, text, "start"))
        sheet.strokes.append(
            Stroke(Role.LEADER, (layer.end, Point(_LABELS_AT - 2.2, y), Point(_LABELS_AT - 0.6, y)))
        )
        x = _LABELS_AT + text_width(text) + 0.6
        for one in layer.found:
            wide = mark_width(one.number)
            sheet.marks.append(
                Mark(one.outcome, one.number, Box(x, y - MARK_MM / 2, x + wide, y + MARK_MM / 2))
            )
            x += wide + 0.3


def _title(given: SectionInput, words: Words) -> str:
    recorded = words.listed([words.say(labels.PARTS[step]) for step in given.steps])
    if not recorded:
        return words.say(N_("Section through the joint, not to scale: no seal is shown by the record."))
    return words.say(
        N_("Section through the joint, not to scale; recorded in this order: {steps}."), steps=recorded
    )
