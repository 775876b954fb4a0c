"""Whether the tests notice: change one constant, comparison or limit at a time, and run them.

    python -m tests.mutants                     # 300 mutants, seed 1; under half an hour on two free cores
    python -m tests.mutants --number 40 --seed 7 --only measures/waits.py
    python -m tests.mutants --again survivors.json   # only those that survived a run before

Run by hand: it takes too long for every change. Every mutant is a copy of `src` with one place changed, and
is tried in a process of its own that has the libraries, but nothing of this package, loaded already.
The tests that mirror the changed file run first, then those of its room, then those of all rooms that
judge. Survivors are printed with file and line: each is a test that is missing, or a change that means the
same; one that means the same counts as a survivor too.

Left out are, by rule, only places of which no outcome can depend: the size of a cache, descriptions and
examples of a field, and `strict` of `zip`, which only says that two lists are known to be equally long.
Tests that compare digests of shipped editions do not run: they would notice any change of a rule, whether
or not anything depends on it.
"""

import ast
import compileall
import json
import os
import py_compile
import random
import re
import resource
import shutil
import sys
from argparse import ArgumentParser, RawDescriptionHelpFormatter
from collections.abc import Callable, Iterator
from contextlib import redirect_stdout
from dataclasses import asdict, dataclass
from io import StringIO
from pathlib import Path
from tempfile import TemporaryDirectory
from time import monotonic, process_time

import pytest
import yaml

from revealbook.rules.read import shipped_sets

ROOT = Path(__file__).parents[1]
PACKAGE = ROOT / "src" / "revealbook"
ROOMS = ("measures", "rules", "setting_out", "inspection")
JUDGING = ("rules", "measures", "setting_out", "inspection", "properties", "outside/test_calculations.py")
"""Tests that run where the mirroring ones notice nothing."""
DIGESTS = "rules/test_editions.py"
DATA = ("inspection/practice.yaml",)
"""Data of the rooms beside the rule sets: every number in it is a place."""
SHAPE = frozenset({"frozen", "slots", "strict"})
"""Keywords that tests/test_house.py holds for all models and values at once."""
UNUSED = {"lru_cache": {"maxsize"}, "Field": {"description", "examples"}, "zip": {"strict"}}
"""Keywords, by what is called, of which no outcome can depend."""
UNCHANGED = -1
"""Number of what is no mutant: tests that do not pass without any change would kill all."""
LONGEST_S, ALL_LONGEST_S = 90, 600
"""A mutant hangs, and is noticed, if tests compute longer: of its file or room, and of all rooms."""
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
    """Give what stands below a node and computes nothing: annotations, and the keywords of UNUSED."""
    noted = [getattr(node, name, None) for name in ("annotation", "returns")]
    if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
        unused = UNUSED.get(node.func.id, set())
        noted += [keyword.value for keyword in node.keywords if keyword.arg in unused]
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


def limits(text: str, *, data: bool = False) -> Iterator[tuple[int, str, str]]:
    """Give every limit and method parameter of a rule file: its line, the change, and the text so changed.

    Args:
        text: the file's text.
        data: every number and truth value of the file is one.
    """
    lines = text.splitlines(keepends=True)
    for node, key in _scalars(yaml.compose(text)):
        if not data and key not in _LIMITS:
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
    newest = [editions[max(editions)] for editions in shipped_sets().values()]
    stated = [path.resolve() for folder in newest for path in sorted(folder.glob("*.yaml"))]
    for path in [PACKAGE / file for file in DATA] + stated:
        file, text = path.relative_to(PACKAGE.resolve()).as_posix(), path.read_text(encoding="utf-8")
        for number, (line, change, _) in enumerate(limits(text, data=file in DATA)):
            yield Mutant(file, line, change, number)


def mutated(text: str, mutant: Mutant) -> str:
    """Give a file's text with a mutant's change."""
    if mutant.number == UNCHANGED:
        return text
    if mutant.file.endswith(".yaml"):
        return list(limits(text, data=mutant.file in DATA))[mutant.number][2]
    tree = ast.parse(text)
    list(places(tree))[mutant.number].apply()
    return ast.unparse(ast.fix_missing_locations(tree))


def nearest_first(mutant: Mutant, text: str) -> Iterator[list[str]]:
    """Give what to ask pytest for: the tests that mirror a file, its room's, then all that judge.

    Args:
        mutant: the change.
        text: the text of its file.
    """
    path, tests = Path(mutant.file), ROOT / "tests"
    room = tests / path.parts[0]
    folders = (tests / path.parent, tests / "outside", tests / "properties")
    near = [str(test) for folder in folders if (test := folder / f"test_{path.stem}.py").exists()]
    near += [str(law) for law in sorted((tests / "properties").glob(f"test_{path.parts[0]}*.py"))]
    if near:
        yield near
    elif path.parts[0] == "rules":
        above = text.splitlines()[: mutant.line]
        rule = next((found[1] for line in reversed(above) if (found := re.match(r"- id: (\S+)", line))), "")
        yield [str(room / "test_cases.py"), *(["-k", rule] if rule else [])]
    if mutant.change == "True -> False" and SHAPE & set(
        re.findall(r"\w+", text.splitlines()[mutant.line - 1])
    ):
        yield [str(tests / "test_house.py"), "-k", "frozen"]
    yield [str(room)]
    yield [str(tests / one) for one in JUDGING if tests / one != room]


def _survives(mutant: Mutant, text: str, copy: Path, *, near: bool) -> bool:
    """Whether no test notices; in a process of its own, as it loads the package from the copy for good."""
    sys.dont_write_bytecode = True
    sys.path.insert(0, str(copy / "src"))
    os.environ |= {"PYTHONPATH": str(copy / "src"), "PYTHONDONTWRITEBYTECODE": "1"}
    for name in [name for name in sys.modules if name.partition(".")[0] in {"revealbook", "tests"}]:
        del sys.modules[name]
    silent = os.open(os.devnull, os.O_RDWR)
    for stream in range(3):
        os.dup2(silent, stream)
    *nearer, all_rooms = nearest_first(mutant, text)
    return all(_passes(tests, LONGEST_S) for tests in nearer) and (near or _passes(all_rooms, ALL_LONGEST_S))


def _passes(asked: list[str], longest_s: int) -> bool:
    hard = resource.getrlimit(resource.RLIMIT_CPU)[1]
    resource.setrlimit(resource.RLIMIT_CPU, (int(process_time()) + longest_s, hard))
    plain = ["-q", "-x", "-p", "no:cacheprovider", "--randomly-dont-reorganize"]
    plain += ["--ignore", str(ROOT / "tests" / DIGESTS)]
    none_here = pytest.ExitCode.NO_TESTS_COLLECTED
    return pytest.main([*plain, *asked]) in {pytest.ExitCode.OK, none_here}


def _chosen(given: list[Mutant], number: int, seed: int) -> list[Mutant]:
    return random.Random(seed).sample(given, min(number, len(given)))


def _copied(folder: Path, number: int) -> list[Path]:
    """Copy the sources so often; what is compiled of a file counts only as long as the file is the same."""
    first, *others = copies = [folder / str(copy) for copy in range(number)]
    shutil.copytree(ROOT / "src", first / "src", ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copytree(ROOT / "report_templates", first / "report_templates")
    by_content = py_compile.PycInvalidationMode.CHECKED_HASH
    compileall.compile_dir(first / "src", quiet=1, invalidation_mode=by_content)
    for other in others:
        shutil.copytree(first, other)
    return copies


def _load_libraries() -> None:
    """Load whatever tests need, once for all mutants."""
    asked = [str(ROOT / "tests" / room) for room in ROOMS]
    with redirect_stdout(StringIO()):
        pytest.main(["-qq", "--collect-only", "-p", "no:cacheprovider", *asked])


def _tried(chosen: list[Mutant], workers: int, *, near: bool) -> Iterator[tuple[Mutant, bool]]:
    """Give each mutant with whether it survives, as they are done."""
    running: dict[int, tuple[Mutant, Path, str]] = {}

    def ended() -> tuple[Mutant, Path, bool]:
        process, status = os.wait()
        mutant, copy, text = running.pop(process)
        (copy / "src" / "revealbook" / mutant.file).write_text(text, encoding="utf-8")
        return mutant, copy, os.waitstatus_to_exitcode(status) == 0

    _load_libraries()
    with TemporaryDirectory(prefix="mutants-") as folder:
        free = _copied(Path(folder), workers)
        for mutant in chosen:
            if not free:
                done, copy, alive = ended()
                free.append(copy)
                yield done, alive
            copy = free.pop()
            target = copy / "src" / "revealbook" / mutant.file
            text = target.read_text(encoding="utf-8")
            target.write_text(mutated(text, mutant), encoding="utf-8")
            process = os.fork()
            if not process:
                noticed = 1
                try:
                    noticed = int(not _survives(mutant, text, copy, near=near))
                finally:
                    os._exit(noticed)
            running[process] = mutant, copy, text
        while running:
            done, _, alive = ended()
            yield done, alive


def _require_passing(chosen: list[Mutant], workers: int, *, near: bool) -> None:
    """Stop if tests do not pass without any change: they would kill every mutant of their room."""
    files = {one.file.split("/")[0]: one.file for one in chosen}.values()
    whole = [Mutant(file, 1, "nothing", UNCHANGED) for file in files]
    if failing := [one.file for one, passes in _tried(whole, workers, near=near) if not passes]:
        sys.exit(f"Tests of these do not pass without any change: {', '.join(failing)}")


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
    parser.add_argument("--trust", action="store_true", help="do not see first that all tests pass unchanged")
    parser.add_argument("--workers", type=int, default=2)
    asked = parser.parse_args()
    given = [one for one in all_mutants() if one.file.startswith(asked.only)]
    chosen = _chosen(given, asked.number, asked.seed)
    if asked.again:
        kept = {(one["file"], one["change"], one["number"]) for one in json.loads(asked.again.read_text())}
        chosen = [one for one in given if (one.file, one.change, one.number) in kept]
    begun, survivors = monotonic(), list[Mutant]()
    if not asked.trust:
        _require_passing(chosen, asked.workers, near=asked.near)
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
