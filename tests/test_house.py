"""The house keeps its shape: small rooms, short functions, tests that mirror src, a bare root."""

import ast
import dataclasses
import importlib
import inspect
import re
import statistics
import subprocess
from pathlib import Path

from pydantic import BaseModel

from revealbook.inspection import sample

ROOT = Path(__file__).parents[1]
SRC = ROOT / "src" / "revealbook"
MODULES = sorted(file for file in SRC.rglob("*.py") if file.name != "__init__.py")
ROOT_HOLDS = {
    "README.md", "DEVELOPERS.md", "LICENSE", "pyproject.toml",
    "src", "report_templates", "tests", "examples", "docs",
}  # fmt: skip
NO_TEST_OF_ITS_OWN = {"cli"}
"""Rooms whose modules are tested together, by the commands they serve."""


def _lines(file: Path) -> int:
    return len(file.read_text(encoding="utf-8").splitlines())


def _functions(file: Path) -> list[int]:
    tree = ast.parse(file.read_text(encoding="utf-8"))
    kinds = (ast.FunctionDef, ast.AsyncFunctionDef)
    return [
        (node.end_lineno or node.lineno) - node.lineno + 1
        for node in ast.walk(tree)
        if isinstance(node, kinds)
    ]


def test_modules_are_small() -> None:
    sizes = {file.relative_to(SRC).as_posix(): _lines(file) for file in MODULES}
    print(f"modules: {len(sizes)}, median {statistics.median(sizes.values())}, largest {max(sizes.values())}")
    assert {name: size for name, size in sizes.items() if size > 300} == {}
    assert statistics.median(sizes.values()) <= 110  # the aim is 90


def test_functions_are_short() -> None:
    sizes = sorted(size for file in MODULES for size in _functions(file))
    p90 = sizes[int(len(sizes) * 0.9)]
    print(f"functions: {len(sizes)}, median {statistics.median(sizes)}, p90 {p90}")
    assert statistics.median(sizes) <= 11
    assert p90 <= 30


def test_every_module_has_its_test() -> None:
    def tested(file: Path) -> bool:
        inside = file.relative_to(SRC)
        return (
            inside.parts[0] in NO_TEST_OF_ITS_OWN
            or (ROOT / "tests" / inside.parent / f"test_{inside.name}").is_file()
        )

    assert [file.relative_to(SRC).as_posix() for file in MODULES if not tested(file)] == []


NOT_CALLED = {"physics/cure_depth.py", "physics/surface_temperature.py", "physics/uncertainty.py"}
"""Modules with formulas that nothing calls yet; the set may only shrink."""


def test_every_formula_is_called() -> None:
    """A formula that no measure uses is a promise that nobody keeps."""
    texts = {file: file.read_text(encoding="utf-8") for file in MODULES}
    idle = set()
    for file in MODULES:
        if file.parent.name != "physics":
            continue
        for node in ast.parse(texts[file]).body:
            name = getattr(node, "name", "_")
            uses = sum(len(re.findall(rf"\b{name}\b", text)) for text in texts.values())
            if not name.startswith("_") and uses == 1:
                idle.add(f"{file.relative_to(SRC / 'measures').as_posix()}: {name}")
    print(f"formulas that nothing calls: {sorted(idle)}")
    assert {name for name in idle if name.split(":")[0] not in NOT_CALLED} == set()


def test_the_root_holds_nothing_else() -> None:
    listed = subprocess.run(
        ["git", "ls-files", "--cached", "--others", "--exclude-standard"],
        cwd=ROOT, capture_output=True, text=True, check=True,
    )  # fmt: skip
    top = {line.split("/", 1)[0] for line in listed.stdout.splitlines()}
    assert {name for name in top if not name.startswith(".")} <= ROOT_HOLDS


def test_every_module_and_public_function_says_what_it_is() -> None:
    missing = []
    for file in MODULES:
        tree = ast.parse(file.read_text(encoding="utf-8"))
        if not ast.get_docstring(tree):
            missing.append(file.name)
        missing += [
            f"{file.name}: {node.name}"
            for node in tree.body
            if isinstance(node, ast.FunctionDef | ast.ClassDef)
            if not node.name.startswith("_") and not ast.get_docstring(node)
        ]
    assert missing == []


JUDGING = {"source", "records", "measures", "rules", "setting_out", "inspection"}
"""Rooms in which every value that is passed on is frozen."""

TOLERANT = {sample._Stated}
"""Models of files that this program writes: a later version may have written more into them."""


def _classes() -> list[type]:
    found = []
    for file in (file for file in MODULES if file.relative_to(SRC).parts[0] in JUDGING):
        name = ".".join(file.relative_to(SRC.parent).with_suffix("").parts)
        module = importlib.import_module(name)
        found += [one for _, one in inspect.getmembers(module, inspect.isclass) if one.__module__ == name]
    return found


def test_every_model_of_what_is_judged_is_frozen_strict_and_refuses_unknown_keys() -> None:
    asked = {"frozen": True, "strict": True, "extra": "forbid"}
    models = [one for one in _classes() if issubclass(one, BaseModel)]
    told = {
        one.__qualname__: {**one.model_config, "extra": "forbid"} if one in TOLERANT else one.model_config
        for one in models
    }
    loose = [name for name, config in told.items() if not asked.items() <= config.items()]
    assert models
    assert loose == []


def test_every_dataclass_of_what_is_judged_is_frozen_and_slotted() -> None:
    classes = [one for one in _classes() if dataclasses.is_dataclass(one)]
    loose = [
        one.__qualname__
        for one in classes
        if not (one.__dataclass_params__.frozen and "__slots__" in vars(one))  # type: ignore[attr-defined]
    ]
    assert classes
    assert loose == []
