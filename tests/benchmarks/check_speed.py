"""CPU of a whole check of 300 records, beside that of loading the same files with ruamel.yaml's C parser.

Run: python tests/benchmarks/check_speed.py [records]. Prints ratios; never fails a build.
"""

import os
import re
import resource
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

CONFORMING = Path(__file__).parents[1] / "conforming"
_LOAD = """
import sys, time
from pathlib import Path
from ruamel.yaml import YAML
assert YAML(typ="safe").Parser.__module__.endswith("_ruamel_yaml"), "the C parser is not in use"
start = time.process_time()
for file in sorted(Path(sys.argv[1], "openings").glob("*.yaml")):
    YAML(typ="safe").load(file)
print(time.process_time() - start)
"""
_HELP = "import sys; sys.argv = ['revealbook', '--help']; from revealbook.cli.app import main; main()"
_CHECK = """
import sys, time
from pathlib import Path
from revealbook.api import check
start = time.process_time()
checked = check(Path(sys.argv[1]))
used = time.process_time() - start
assert len(checked.judged.openings) == int(sys.argv[2]) and not checked.problems, checked.problems[:3]
print(used)
"""


def many(records: int, folder: Path) -> None:
    """Copy the conforming site with many openings."""
    shutil.copytree(CONFORMING, folder, dirs_exist_ok=True)
    (template,) = (folder / "openings").glob("*.yaml")
    # ruamel's C parser does not take an unquoted time inside braces, which YAML 1.2 allows
    text = re.sub(r"(\d{4}-\d\d-\d\dT[0-9:+]+)", r'"\1"', template.read_text(encoding="utf-8"))
    template.unlink()
    for number in range(1, records + 1):
        mark = f"W-{number:04}"
        (folder / "openings" / f"{mark}.yaml").write_text(
            text.replace(f"mark: {template.stem}", f"mark: {mark}"), encoding="utf-8"
        )


def cpu(code: str, *arguments: str) -> tuple[float, float]:
    """Run code in a process of its own: CPU seconds it prints, and peak memory (MB) of children so far."""
    done = subprocess.run(
        [sys.executable, "-c", code, *arguments], capture_output=True, text=True, check=True
    )
    return float(done.stdout), resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024


def startup(statement: str) -> float:
    """CPU seconds of a fresh process that runs one statement, the least of five."""
    return min(_one_startup(statement) for _ in range(5))


def _one_startup(statement: str) -> float:
    before = os.times()
    subprocess.run([sys.executable, "-c", statement], capture_output=True, check=False)
    after = os.times()
    return after.children_user + after.children_system - before.children_user - before.children_system


def main() -> None:
    """Print the figures."""
    records = int(sys.argv[1]) if len(sys.argv) > 1 else 300
    with tempfile.TemporaryDirectory() as name:
        many(records, Path(name))
        lines = len(next(Path(name, "openings").glob("*.yaml")).read_text(encoding="utf-8").splitlines())
        load = min(cpu(_LOAD, name)[0] for _ in range(3))
        runs = [cpu(_CHECK, name, str(records)) for _ in range(3)]
    check, memory = min(run[0] for run in runs), runs[-1][1]
    print(f"{records} records of {lines} lines")
    print(f"loading alone (ruamel.yaml safe, C parser): {1000 * load / records:.2f} ms CPU a record")
    print(f"whole check:                                {1000 * check / records:.2f} ms CPU a record")
    print(f"ratio {check / load:.2f} (aim: at most 2.0); peak memory {memory:.0f} MB (aim: under 300)")
    bare = startup("import typer, pydantic, ruamel.yaml")
    helped = startup(_HELP)
    print(f"--help: {1000 * helped:.0f} ms CPU; importing typer, pydantic, ruamel.yaml: {1000 * bare:.0f} ms")
    print(f"ratio {helped / bare:.2f} (aim: at most 1.3)")


if __name__ == "__main__":
    main()
