"""Whether the tests notice: change one constant, comparison or limit at a time, and run them.

    python -m tests.mutants                     # 300 mutants, seed 1; about an hour on two cores
    python -m tests.mutants --number 40 --seed 7 --only measures/waits.py
    python -m tests.mutants --again survivors.json   # only those that survived a run before

Run by hand: it takes too long for every change. Every mutant is a copy of `src` with one place changed.
The tests that mirror the changed file run first, then those of its room, then those of all rooms that
judge. Survivors are printed with file and line: each is a test that is missing, or a change that means the
same.
"""

import ast
import json
import os
import random
import shutil
import subprocess
import sys
from argparse import ArgumentParser, RawDescriptionHelpFormatter
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import asdict, dataclass
from pathlib import Path
from queue import SimpleQueue
from tempfile import TemporaryDirectory
from time import monotonic

import yaml

from revealbook.rules.read import shipped_sets

ROOT = Path(__file__).parents[1]
PACKAGE = ROOT / "src" / "revealbook"
ROOMS = ("measures", "rules", "setting_out", "inspection")
JUDGING = ("rules", "measures", "setting_out", "inspection", "properties", "outside/test_calculations.py")
"""Tests that run where the mirroring ones notice nothing."""
LONGEST_S = 600
PASSED, FAILED = 0, 1
_COMPARED: dict[type[ast.cmpop], type[ast.cmpop]] = {
    ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt, ast.Eq: ast.NotEq, ast.NotEq: ast.Eq,
    ast.In: ast.NotIn, ast.NotIn: ast.In, ast.Is: ast.IsNot, ast.IsNot: ast.Is,
}  # fmt: skip
_RECKONED: dict[type[ast.operator], type[ast.operator]] = {
    ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult, ast.Pow: ast.Mult,
}  # fmt: skip
_CALLED = {"min": "max", "max": "min", "any": "all", "all": "any"}
_LIMITS = frozenset({"at_least", "at_most", "between", "equal_to", "steps", "method"})


@dataclass(frozen=True)
class Mutant:
    """One change of one place.

    Attributes:
        file: the file below the package.
        line: its line.
        change: what is changed, as a reader would write it.
        number: which of the file's places it is, in the order in which they are found.
    """

    file: str
    line: int
    change: str
    number: int


@dataclass(frozen=True)
class Place:
    """A place that can be changed, and how."""

    line: int
    change: str
    apply: Callable[[], None]


def places(tree: ast.Module) -> Iterator[Place]:
    """Give every place of a module that a mutant can change, in a fixed order."""
    ignored = {id(inner) for outer in ast.walk(tree) for inner in _without_meaning(outer)}
    for node in ast.walk(tree):
        if id(node) in ignored:
            continue
        if isinstance(node, ast.Constant):
            yield from _constant(node)
        elif isinstance(node, ast.Compare):
            yield from _compared(node)
        elif isinstance(node, ast.BinOp) and type(node.op) in _RECKONED and not _of_text(node):
            yield _operator(node, _RECKONED[type(node.op)]())
        elif isinstance(node, ast.BoolOp):
            yield _operator(node, ast.Or() if isinstance(node.op, ast.And) else ast.And())
        elif isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in _CALLED:
            yield _call(node, node.func)


def _without_meaning(node: ast.AST) -> Iterator[ast.AST]:
    """Give what stands below a node and computes nothing: annotations, and places in tuples of types."""
    noted = [getattr(node, name, None) for name in ("annotation", "returns")]
    for inner in filter(None, noted):
        yield from ast.walk(inner)


def _of_text(node: ast.BinOp) -> bool:
    parts = (node.left, node.right)
    return any(isinstance(part, ast.Constant) and isinstance(part.value, str) for part in parts)


def _constant(node: ast.Constant) -> Iterator[Place]:
    value = node.value
    if isinstance(value, bool):
        yield _set(node, "value", not value, f"{value} -> {not value}")
    elif isinstance(value, int | float):
        other = value + 1 if isinstance(value, int) else value * 1.1 + (0.1 if value == 0 else 0)
        yield _set(node, "value", other, f"{value} -> {other}")


def _compared(node: ast.Compare) -> Iterator[Place]:
    for number, operator in enumerate(node.ops):
        other = _COMPARED[type(operator)]()
        ops = [*node.ops[:number], other, *node.ops[number + 1 :]]
        yield _set(node, "ops", ops, f"{type(operator).__name__} -> {type(other).__name__}")


def _operator(node: ast.BinOp | ast.BoolOp, other: ast.operator | ast.boolop) -> Place:
    return _set(node, "op", other, f"{type(node.op).__name__} -> {type(other).__name__}")


def _call(node: ast.Call, name: ast.Name) -> Place:
    return _set(name, "id", _CALLED[name.id], f"{name.id} -> {_CALLED[name.id]}", node.lineno)


def _set(node: ast.expr, key: str, value: object, change: str, line: int | None = None) -> Place:
    return Place(line or node.lineno, change, lambda: setattr(node, key, value))


def limits(text: str) -> Iterator[tuple[int, str, str]]:
    """Give every limit and method parameter of a rule file: its line, the change, and the text so changed."""
    lines = text.splitlines(keepends=True)
    for node, key in _scalars(yaml.compose(text)):
        if key not in _LIMITS:
            continue
        old, start = node.value, node.start_mark
        if node.tag.endswith(":bool"):
            new = "false" if old == "true" else "true"
        elif node.tag.endswith((":int", ":float")):
            new = f"{float(old) * 1.1 + (0.1 if float(old) == 0 else 0):g}"
        else:
            continue
        line = lines[start.line]
        changed = line[: start.column] + new + line[start.column + len(old) :]
        yield (
            start.line + 1,
            f"{key} {old} -> {new}",
            "".join([*lines[: start.line], changed, *lines[start.line + 1 :]]),
        )


def _scalars(node: yaml.Node | None, key: str = "") -> Iterator[tuple[yaml.ScalarNode, str]]:
    """Give each scalar with the outermost key of a limit that it stands under."""
    if isinstance(node, yaml.ScalarNode):
        yield node, key
    elif isinstance(node, yaml.SequenceNode):
        for item in node.value:
            yield from _scalars(item, key)
    elif isinstance(node, yaml.MappingNode):
        for name, value in node.value:
            yield from _scalars(value, key if key in _LIMITS else name.value)


def all_mutants() -> Iterator[Mutant]:
    """Give every mutant of the rooms that judge, and of the newest editions of the rule sets."""
    for room in ROOMS:
        for path in sorted((PACKAGE / room).rglob("*.py")):
            file = path.relative_to(PACKAGE).as_posix()
            for number, place in enumerate(places(ast.parse(path.read_text(encoding="utf-8")))):
                yield Mutant(file, place.line, place.change, number)
    for editions in shipped_sets().values():
        for path in sorted(editions[max(editions)].glob("*.yaml")):
            file = path.resolve().relative_to(PACKAGE.resolve()).as_posix()
            for number, (line, change, _) in enumerate(limits(path.read_text(encoding="utf-8"))):
                yield Mutant(file, line, change, number)


def mutated(text: str, mutant: Mutant) -> str:
    """Give a file's text with a mutant's change."""
    if mutant.file.endswith(".yaml"):
        return list(limits(text))[mutant.number][2]
    tree = ast.parse(text)
    list(places(tree))[mutant.number].apply()
    return ast.unparse(ast.fix_missing_locations(tree))


def nearest_first(file: str) -> Iterator[list[Path]]:
    """Give the tests of a file: those that mirror it, then its room's, then all that judge."""
    path, tests = Path(file), ROOT / "tests"
    room = tests / path.parts[0]
    near = tests / path.parent / f"test_{path.stem}.py"
    if path.suffix == ".yaml":
        yield [room / "test_cases.py"]
    elif near.exists():
        yield [near]
    yield [room]
    yield [tests / one for one in JUDGING if tests / one != room]


def survives(mutant: Mutant, copy: Path, *, near: bool) -> bool:
    """Whether no test notices a mutant; the copy of `src` is whole again afterwards.

    Args:
        mutant: the change.
        copy: a folder that holds a copy of `src`.
        near: run only the tests of the file and of its room.
    """
    target = copy / "src" / "revealbook" / mutant.file
    kept = target.read_text(encoding="utf-8")
    target.write_text(mutated(kept, mutant), encoding="utf-8")
    asked = list(nearest_first(mutant.file))
    try:
        return all(_passes(tests, copy) for tests in (asked[:-1] if near else asked))
    finally:
        target.write_text(kept, encoding="utf-8")


def _passes(tests: list[Path], copy: Path) -> bool:
    command = [sys.executable, "-m", "pytest", "-q", "-x", "-p", "no:cacheprovider", "-p", "no:randomly"]
    environment = {**os.environ, "PYTHONPATH": str(copy / "src"), "PYTHONDONTWRITEBYTECODE": "1"}
    try:
        run = subprocess.run(
            [*command, *map(str, tests)],
            cwd=ROOT,
            env=environment,
            capture_output=True,
            timeout=LONGEST_S,
            check=False,
        )
    except subprocess.TimeoutExpired:
        return False
    return run.returncode == PASSED


def _chosen(given: list[Mutant], number: int, seed: int) -> list[Mutant]:
    return random.Random(seed).sample(given, min(number, len(given)))


def _tried(chosen: list[Mutant], workers: int, *, near: bool) -> Iterator[tuple[Mutant, bool]]:
    with TemporaryDirectory(prefix="mutants-") as folder, ThreadPoolExecutor(workers) as pool:
        copies: SimpleQueue[Path] = SimpleQueue()
        for number in range(workers):
            copy = Path(folder) / str(number)
            shutil.copytree(ROOT / "src", copy / "src", ignore=shutil.ignore_patterns("__pycache__"))
            shutil.copytree(ROOT / "report_templates", copy / "report_templates")
            copies.put(copy)

        def tried(mutant: Mutant) -> tuple[Mutant, bool]:
            copy = copies.get()
            try:
                return mutant, survives(mutant, copy, near=near)
            finally:
                copies.put(copy)

        yield from pool.map(tried, chosen)


def main() -> None:
    """Try mutants and say which survived."""
    parser = ArgumentParser(
        prog="python -m tests.mutants", description=__doc__, formatter_class=RawDescriptionHelpFormatter
    )
    parser.add_argument("--number", type=int, default=300, help="how many mutants")
    parser.add_argument("--seed", type=int, default=1, help="which ones; the same seed gives the same ones")
    parser.add_argument("--only", default="", help="only files whose path begins with this")
    parser.add_argument("--again", type=Path, help="only the survivors that a run before wrote")
    parser.add_argument("--to", type=Path, default=Path("survivors.json"), help="where survivors are written")
    parser.add_argument("--near", action="store_true", help="run only the tests of each file and of its room")
    parser.add_argument("--workers", type=int, default=2)
    asked = parser.parse_args()
    given = [one for one in all_mutants() if one.file.startswith(asked.only)]
    chosen = _chosen(given, asked.number, asked.seed)
    if asked.again:
        kept = {(one["file"], one["change"], one["number"]) for one in json.loads(asked.again.read_text())}
        chosen = [one for one in given if (one.file, one.change, one.number) in kept]
    begun, survivors = monotonic(), list[Mutant]()
    for done, (mutant, alive) in enumerate(_tried(chosen, asked.workers, near=asked.near), start=1):
        if alive:
            survivors.append(mutant)
            print(f"{mutant.file}:{mutant.line}  {mutant.change}  survives", flush=True)
        if done % 20 == 0:
            print(f"... {done} of {len(chosen)}, {monotonic() - begun:.0f} s", flush=True)
    asked.to.write_text(json.dumps([asdict(one) for one in survivors], indent=1) + "\n")
    killed = len(chosen) - len(survivors)
    share = 100 * killed / max(len(chosen), 1)
    print(f"{killed} of {len(chosen)} mutants killed ({share:.1f} %), of {len(given)} that there are.")


if __name__ == "__main__":
    main()
