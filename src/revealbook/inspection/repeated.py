"""Readings that repeat to the digit: whole records alike, or one block of readings in many openings.

Only readings taken by hand at the opening are compared, between openings; the weather, which honest crews
copy from one scaffold board to the next, sizes cut or delivered alike and set-out positions are left out. How
likely an honest reading repeats depends on the grid that its taker reads on: a tape read to 5 mm repeats
often.
"""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import chain, combinations
from math import comb, prod
from typing import NamedTuple

from revealbook.inspection.chance import all_counted, at_least
from revealbook.inspection.practice import Agree, Block, fits, practice
from revealbook.inspection.question import Evidence, Question, Spot
from revealbook.inspection.values import is_number, work_values
from revealbook.measures.reading import Path
from revealbook.records.opening import Opening

_EXACT = 1e-6


class Taken(NamedTuple):
    """One opening's readings by block, who took them by section, and its nominal width and height, mm."""

    mark: str
    blocks: Mapping[str, Mapping[Path, float]]
    by: Mapping[str, str]
    width: float | None
    height: float | None


def repeated(evidence: Evidence) -> Iterator[Question]:
    """Ask about records that are alike, then about blocks that are alike in several openings."""
    taken = tuple(_taken(one.record.opening) for one in evidence.site.openings)
    chances = _Chances(taken)
    alike = tuple(_alike(taken, chances))
    yield from _families(alike, tuple(one.mark for one in taken))
    asked = {frozenset(one.openings) for one in alike}
    for block in practice().repeated.blocks:
        yield from _block_alike(block.name, taken, chances, asked)


def _families(alike: tuple[Question, ...], marks: tuple[str, ...]) -> Iterator[Question]:
    """Ask once about all records that are linked by being alike, with the weakest link's numbers."""
    families: list[list[Question]] = []
    for pair in alike:
        linked = [one for one in families if any(set(pair.openings) & set(other.openings) for other in one)]
        families = [one for one in families if one not in linked] + [[*chain.from_iterable(linked), pair]]
    for family in families:
        weakest = max(family, key=lambda pair: pair.chance or 0)
        members = {mark for pair in family for mark in pair.openings}
        first = {spot.mark: spot for pair in family for spot in pair.spots}
        named = tuple(mark for mark in marks if mark in members)
        yield replace(weakest, openings=named, spots=tuple(first[mark] for mark in named))


def _taken(opening: Opening) -> Taken:
    blocks: dict[str, dict[Path, float]] = {block.name: {} for block in practice().repeated.blocks}
    for path, value in work_values(opening).items():
        block = _block_of(path) if is_number(value) else None
        if block is not None:
            blocks[block.name][path] = float(value)
    sections = ("survey", "frame", "window", "seals")
    by = {name: getattr(getattr(opening, name), "by", None) or "" for name in sections}
    return Taken(opening.mark, blocks, by, opening.opening.width_mm, opening.opening.height_mm)


def _block_of(path: Path) -> Block | None:
    blocks = practice().repeated.blocks
    return next((block for block in blocks if any(fits(path, place) for place in block.at)), None)


class _Chances:
    """How likely a reading repeats, by block and taker: from the grid that the taker's readings lie on."""

    def __init__(self, taken: tuple[Taken, ...]) -> None:
        """Find every taker's grid; a block of readings that is there twice counts once."""
        readings: dict[tuple[str, str], set[tuple[float, ...]]] = defaultdict(set)
        for one in taken:
            for name, block in one.blocks.items():
                if block:
                    readings[name, _taker(one, name)].add(tuple(block.values()))
        agree: dict[str, Sequence[Agree]] = {block.name: block.agree for block in practice().repeated.blocks}
        self._chance = {
            (name, taker): _chance([value for block in blocks for value in block], agree[name])
            for (name, taker), blocks in readings.items()
        }

    def of(self, one: Taken, other: Taken, name: str, path: Path) -> float:
        """Give the chance that a reading is the same in two openings, by the coarser of their takers."""
        stated = practice().repeated.other_size
        if name == "survey" and _sized_otherwise(one, other, path, stated.apart_mm):
            return stated.chance
        return max(self._chance[name, _taker(each, name)] for each in (one, other))


def _taker(one: Taken, name: str) -> str:
    return one.by[str(next(iter(one.blocks[name]))[0])]


def _sized_otherwise(one: Taken, other: Taken, path: Path, apart: float) -> bool:
    """Whether the nominal size that a clear size or diagonal follows is another one."""
    sizes = {
        "widths_mm": ((one.width, other.width),),
        "heights_mm": ((one.height, other.height),),
    }.get(str(path[1]), ((one.width, other.width), (one.height, other.height)))
    return any(a is not None and b is not None and abs(a - b) > apart for a, b in sizes)


def _chance(values: list[float], agree: Sequence[Agree]) -> float:
    """Give the chance that goes with the coarsest grid on which most readings lie."""
    coarsest_first = sorted(agree, key=lambda one: -one.grid_mm)
    for one in coarsest_first:
        on = sum(abs(value / one.grid_mm - round(value / one.grid_mm)) < _EXACT for value in values)
        if on >= practice().repeated.on_grid * len(values):
            return one.chance
    return coarsest_first[-1].chance


def _alike(taken: tuple[Taken, ...], chances: _Chances) -> Iterator[Question]:
    """Ask about pairs of records of which more readings agree than chance allows."""
    pairs = len(taken) * (len(taken) - 1) // 2
    for one, other in combinations(taken, 2):
        trials: list[float] = []
        matches: list[Path] = []
        for name, block in one.blocks.items():
            shared = [path for path in block if path in other.blocks[name]]
            trials += [chances.of(one, other, name, path) for path in shared]
            matches += [path for path in shared if block[path] == other.blocks[name][path]]
        if len(matches) <= sum(trials) or len(trials) < practice().repeated.least_readings:
            continue
        chance = all_counted(at_least(len(matches), trials), pairs)
        if chance <= practice().false_alarm / 2:
            spots = tuple(Spot(each.mark, matches[0]) for each in (one, other))
            facts = {"same": len(matches), "compared": len(trials)}
            yield Question("repeated", "records_alike", (one.mark, other.mark), spots, facts, chance, pairs)


def _block_alike(
    name: str, taken: tuple[Taken, ...], chances: _Chances, asked: set[frozenset[str]]
) -> Iterator[Question]:
    """Ask about a block that is the same in more openings than chance allows."""
    stated = practice().repeated
    having = [one for one in taken if len(one.blocks[name]) >= stated.least_readings]
    groups: dict[tuple[tuple[Path, float], ...], list[Taken]] = defaultdict(list)
    for one in having:
        groups[tuple(one.blocks[name].items())].append(one)
    comparisons = len(stated.blocks) * len(having)  # every block, every size that a group may have
    for readings, same in groups.items():
        marks = tuple(one.mark for one in same)
        if len(same) == 1 or all(frozenset(pair) in asked for pair in combinations(marks, 2)):
            continue
        first, *others = same
        each = prod(chances.of(first, other, name, path) for other in others for path, _ in readings)
        chance = all_counted(each * comb(len(having), len(same)), comparisons)
        if chance <= practice().false_alarm / 2:
            spots = tuple(Spot(mark, readings[0][0]) for mark in marks)
            facts = {"same": len(readings), "block": name}
            yield Question("repeated", "block_alike", marks, spots, facts, chance, comparisons)
