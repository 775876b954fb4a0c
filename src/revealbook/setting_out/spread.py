"""Spreading things along a piece: the fewest, as even as can be, and inside every limit.

Holes in frame pieces, brackets on the plinth and the joints of a long piece are all spread here. The search
is exact over whole millimetres. In this order it seeks

1. the fewest positions,
2. the greatest margin to the limits that the judging will apply (a hole set out on a limit is drilled beyond
   it half the time),
3. the smallest greatest gap, then the greatest smallest gap,

and what is then still free is laid nearest to an even division.
"""

from bisect import bisect_left
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache, reduce
from itertools import pairwise
from operator import or_
from typing import NamedTuple, Self

from revealbook.setting_out.limits import require_whole_mm
from revealbook.setting_out.positions import furthest, moved, nearest, span
from revealbook.setting_out.refusal import NotPossible, Reason, not_possible


class Interval(NamedTuple):
    """A stretch of the piece in which no position may lie, both ends included, clearance included."""

    start_mm: int
    end_mm: int

    @classmethod
    def around(cls, centre_mm: int, clearance_mm: int) -> Self:
        """Give the stretch that keeps ``clearance_mm`` on both sides of ``centre_mm``."""
        return cls(centre_mm - clearance_mm, centre_mm + clearance_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class Spacing:
    """The distances to keep; the words are those of :class:`~revealbook.setting_out.limits.Limits`."""

    end_min_mm: int
    end_max_mm: int
    centres_min_mm: int
    centres_max_mm: int
    joint_min_mm: int
    joint_max_mm: int
    per_part_min: int

    def tightened(self, margin_mm: int) -> "Spacing":
        """Draw the judged limits in by ``margin_mm``; the least centres are nobody's rule and stay."""
        return replace(
            self,
            end_min_mm=self.end_min_mm + margin_mm,
            end_max_mm=self.end_max_mm - margin_mm,
            centres_max_mm=self.centres_max_mm - margin_mm,
            joint_min_mm=self.joint_min_mm + margin_mm,
            joint_max_mm=self.joint_max_mm - margin_mm,
        )


@dataclass(frozen=True, slots=True)
class Spread:
    """Positions from the left or lower end, ascending, and their least distance to a judged limit."""

    positions_mm: tuple[int, ...]
    margin_mm: int


@dataclass(frozen=True, slots=True)
class _Piece:
    length_mm: int
    joints_mm: tuple[int, ...]
    free: int

    def parts(self) -> list[int]:
        """Give the free positions of each part between ends and joints."""
        return [self.free & span(a, b - 1) for a, b in pairwise((0, *self.joints_mm, self.length_mm + 1))]

    def first(self, spacing: Spacing) -> int:
        return self.parts()[0] & span(spacing.end_min_mm, spacing.end_max_mm)

    def last(self, spacing: Spacing) -> int:
        end_mm = self.length_mm
        return self.parts()[-1] & span(end_mm - spacing.end_max_mm, end_mm - spacing.end_min_mm)

    def beside_joints(self, spacing: Spacing) -> list[tuple[int, int]]:
        """Give, for each joint, the free positions that hold it on its left and on its right."""
        near, far = spacing.joint_min_mm, spacing.joint_max_mm
        return [
            (left & span(joint - far, joint - near), right & span(joint + near, joint + far))
            for joint, (left, right) in zip(self.joints_mm, pairwise(self.parts()), strict=True)
        ]


class _Layer(NamedTuple):
    """Where the k-th position can lie: as the first one of its part, or as a further one."""

    opening: int
    further: int

    def ready(self, spacing: Spacing) -> int:
        """Give the positions after which the part has as many as it needs."""
        return self.further if spacing.per_part_min > 1 else self.opening | self.further


def _layers(piece: _Piece, spacing: Spacing) -> Iterator[_Layer]:
    parts, joints = piece.parts(), piece.beside_joints(spacing)
    step = spacing.centres_min_mm, spacing.centres_max_mm
    layer = _Layer(piece.first(spacing), 0)
    while layer.opening or layer.further:
        yield layer
        anywhere, ready = layer.opening | layer.further, layer.ready(spacing)
        layer = _Layer(
            reduce(or_, (moved(ready & left, *step) & right for left, right in joints), 0),
            reduce(or_, (moved(anywhere & part, *step) & part for part in parts), 0),
        )


def _fewest(piece: _Piece, spacing: Spacing) -> int | None:
    last = piece.last(spacing)
    counted = enumerate(_layers(piece, spacing), start=1)
    return next((count for count, layer in counted if layer.ready(spacing) & last), None)


def _reaches(piece: _Piece, spacing: Spacing, count: int) -> bool:
    layer = next((one for k, one in enumerate(_layers(piece, spacing), start=1) if k == count), None)
    return layer is not None and bool(layer.ready(spacing) & piece.last(spacing))


def _least(low: int, high: int, holds: Callable[[int], bool]) -> int:
    """Give the least of low..high for which ``holds``, which holds for ``high`` and never stops holding."""
    return low + bisect_left(range(low, high), True, key=holds)


def _greatest(low: int, high: int, holds: Callable[[int], bool]) -> int:
    return -_least(-high, -low, lambda negative: holds(-negative))


def _margin_cap(piece: _Piece, spacing: Spacing) -> int:
    end_window = spacing.end_max_mm - spacing.end_min_mm
    joint_window = spacing.joint_max_mm - spacing.joint_min_mm
    return (min(end_window, joint_window) if piece.joints_mm else end_window) // 2


def _evened(piece: _Piece, spacing: Spacing, count: int) -> Spacing:
    """Narrow the allowed gaps as far as ``count`` positions still fit."""
    least, most = spacing.centres_min_mm, spacing.centres_max_mm
    most = _least(least, most, lambda gap: _reaches(piece, replace(spacing, centres_max_mm=gap), count))
    spacing = replace(spacing, centres_max_mm=most)
    least = _greatest(least, most, lambda gap: _reaches(piece, replace(spacing, centres_min_mm=gap), count))
    return replace(spacing, centres_min_mm=least)


def _traced(piece: _Piece, spacing: Spacing, count: int) -> tuple[int, ...]:
    """Walk back from the last position, always to one that can itself be reached from the start."""
    layers = [layer for _, layer in zip(range(count), _layers(piece, spacing), strict=False)]
    joints = piece.beside_joints(spacing)
    middle_of_end = (spacing.end_min_mm + spacing.end_max_mm) // 2
    choice = layers[-1].ready(spacing) & piece.last(spacing)
    found = [nearest(choice, piece.length_mm - middle_of_end)]
    for k in range(count - 1, 0, -1):
        here, layer = found[-1], layers[k]
        reach = span(here - spacing.centres_max_mm, here - spacing.centres_min_mm)
        if not layer.further >> here & 1:
            left = next(left for left, right in joints if right >> here & 1)
            choice = layers[k - 1].ready(spacing) & left & reach
        else:
            part = next(part for part in piece.parts() if part >> here & 1)
            choice = (layers[k - 1].opening | layers[k - 1].further) & part & reach
        found.append(nearest(choice, here - round((here - middle_of_end) / k)))
    return tuple(reversed(found))


def _refusal(piece: _Piece, spacing: Spacing) -> NotPossible:
    length = piece.length_mm
    shortest = 2 * spacing.end_min_mm + (spacing.per_part_min - 1) * spacing.centres_min_mm
    if length < shortest:
        return not_possible(Reason.PIECE_TOO_SHORT, length_mm=length, shortest_mm=shortest)
    for joint, (left, right) in zip(piece.joints_mm, piece.beside_joints(spacing), strict=True):
        if not left or not right:
            return not_possible(Reason.JOINT_NOT_HELD, joint_mm=joint, distance_max_mm=spacing.joint_max_mm)
    for end_mm, window in ((0, piece.first(spacing)), (length, piece.last(spacing))):
        if not window:
            return not_possible(Reason.END_BLOCKED, end_mm=end_mm, distance_max_mm=spacing.end_max_mm)
    reached = max(furthest(layer.opening | layer.further) for layer in _layers(piece, spacing))
    return not_possible(Reason.NO_ARRANGEMENT, reached_mm=reached, centres_max_mm=spacing.centres_max_mm)


def _laid_out(length_mm: int, joints_mm: Sequence[int], blocked: Sequence[Interval]) -> _Piece:
    require_whole_mm("length_mm", length_mm, least=1)
    joints = tuple(sorted(set(joints_mm)))
    if joints and not 0 < joints[0] <= joints[-1] < length_mm:
        raise ValueError(f"A lengthwise joint lies between the piece's ends, 0 and {length_mm} mm.")
    free = span(0, length_mm)
    for start_mm, end_mm in blocked:
        if end_mm < start_mm:
            raise ValueError(f"A blocked stretch runs from {start_mm} to {end_mm}: the wrong way round.")
        free &= ~span(start_mm, end_mm)
    return _Piece(length_mm, joints, free)


def spread(
    length_mm: int,
    spacing: Spacing,
    joints_mm: Sequence[int] = (),
    blocked: Sequence[Interval] = (),
    *,
    margin_mm: int = 0,
) -> Spread | NotPossible:
    """Lay the fewest positions along a piece so that every distance of ``spacing`` is kept.

    Args:
        length_mm: the piece's length, at least 1.
        spacing: the distances to keep.
        joints_mm: lengthwise joints, from the same end as the positions; each is held on both sides by a
            position of the part that adjoins it.
        blocked: stretches in which no position may lie.
        margin_mm: least distance to keep to the limits themselves, such as the tape's uncertainty.

    Returns:
        The positions, or why there are none. No answer breaks a limit.

    Raises:
        ValueError: for a length, joint, stretch or margin that makes no sense.
    """
    return _spread(length_mm, spacing, tuple(joints_mm), tuple(blocked), margin_mm)


@lru_cache(maxsize=4096)  # a site has many pieces of few lengths
def _spread(
    length_mm: int,
    spacing: Spacing,
    joints_mm: tuple[int, ...],
    blocked: tuple[Interval, ...],
    margin_mm: int,
) -> Spread | NotPossible:
    require_whole_mm("margin_mm", margin_mm)
    piece = _laid_out(length_mm, joints_mm, blocked)
    cap = _margin_cap(piece, spacing)
    if margin_mm > cap:
        return not_possible(Reason.MARGIN_TOO_WIDE, margin_mm=margin_mm, widest_mm=cap)
    count = _fewest(piece, spacing.tightened(margin_mm))
    if count is None:
        return _refusal(piece, spacing.tightened(margin_mm))
    margin_mm = _greatest(margin_mm, cap, lambda margin: _reaches(piece, spacing.tightened(margin), count))
    evened = _evened(piece, spacing.tightened(margin_mm), count)
    return Spread(_traced(piece, evened, count), margin_mm)
