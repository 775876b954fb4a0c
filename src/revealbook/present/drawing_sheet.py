"""A sheet that a drawing is made on, and the finished drawing."""

from collections.abc import Iterator
from dataclasses import dataclass, field

from revealbook.present.drawing_shapes import Box, Disc, Mark, Point, Role, Stroke, Text, around
from revealbook.rules.finding import Outcome


@dataclass(slots=True)
class Sheet:
    """A drawing in the making: shapes are added, nothing is taken away."""

    strokes: list[Stroke] = field(default_factory=list)
    discs: list[Disc] = field(default_factory=list)
    texts: list[Text] = field(default_factory=list)
    marks: list[Mark] = field(default_factory=list)
    written: list[Box] = field(default_factory=list)
    left_out: int = 0

    def write(self, text: Text) -> bool:
        """Write a text if nothing is written there; count it as left out if something is."""
        room = text.box
        free = not any(room.meets(other, 0.1) for other in self.written)
        if free:
            self.texts.append(text)
            self.written.append(room)
        else:
            self.left_out += 1
        return free

    def boxes(self) -> Iterator[Box]:
        """Give the box around everything on it, one by one."""
        yield from self.written
        for group in (self.strokes, self.discs, self.marks):
            yield from (shape.box for shape in group)


@dataclass(frozen=True, slots=True)
class Drawing:
    """A finished drawing, in millimetres of paper from its upper left corner.

    Attributes:
        width_mm: its width on paper.
        height_mm: its height on paper.
        scale: n of 1:n; None for a drawing that is not to scale.
        title: what a reader who cannot see it is told.
        caption: the line below it.
        strokes: lines and surfaces, in the order of roles.
        discs: circles, in the order of roles.
        texts: texts.
        marks: shapes of outcomes.
        left_out: how many figures had no room.
    """

    width_mm: float
    height_mm: float
    scale: int | None
    title: str
    caption: str
    strokes: tuple[Stroke, ...]
    discs: tuple[Disc, ...]
    texts: tuple[Text, ...]
    marks: tuple[Mark, ...]
    left_out: int = 0

    @property
    def marks_by_outcome(self) -> dict[str, list[Mark]]:
        """Marks of each outcome that has a shape."""
        shapes: dict[str, list[Mark]] = {str(outcome): [] for outcome in Outcome}
        for mark in self.marks:
            shapes[str(mark.outcome)].append(mark)
        return shapes

    @property
    def by_role(self) -> tuple[tuple[Role, tuple[Stroke, ...], tuple[Disc, ...]], ...]:
        """Strokes and discs of each role that is there, in the order of drawing."""
        strokes: dict[Role, list[Stroke]] = {}
        discs: dict[Role, list[Disc]] = {}
        for stroke in self.strokes:
            strokes.setdefault(stroke.role, []).append(stroke)
        for disc in self.discs:
            discs.setdefault(disc.role, []).append(disc)
        return tuple(
            (role, tuple(strokes.get(role, ())), tuple(discs.get(role, ())))
            for role in Role
            if role in strokes or role in discs
        )


def finished(sheet: Sheet, scale: int | None, title: str, caption: str, margin_mm: float = 0.5) -> Drawing:
    """Cut a sheet to what stands on it."""
    whole = around(sheet.boxes()).grown(margin_mm)
    by = Point(-whole.left, -whole.top)
    return Drawing(
        width_mm=whole.right - whole.left,
        height_mm=whole.bottom - whole.top,
        scale=scale,
        title=title,
        caption=caption,
        strokes=tuple(one.moved(by) for one in sheet.strokes),
        discs=tuple(one.moved(by) for one in sheet.discs),
        texts=tuple(one.moved(by) for one in sheet.texts),
        marks=tuple(one.moved(by) for one in sheet.marks),
        left_out=sheet.left_out,
    )
