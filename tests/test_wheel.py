"""The wheel holds everything: installed elsewhere and run from another folder, it checks and makes packs."""

import os
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
CONFORMING = ROOT / "tests" / "conforming"


@pytest.fixture(scope="module")
def installed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder that holds the unpacked wheel and nothing of the source tree."""
    folder = tmp_path_factory.mktemp("wheel")
    build = [sys.executable, "-m", "pip", "wheel", "-q", "--no-deps", "-w", str(folder), str(ROOT)]
    subprocess.run(build, check=True, capture_output=True, cwd=folder)
    (wheel,) = folder.glob("revealbook-*.whl")
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(folder / "site")
    return folder / "site"


def run(installed: Path, folder: Path, *arguments: str) -> subprocess.CompletedProcess[str]:
    code = "import sys; from revealbook.cli.app import main; sys.argv[0] = 'revealbook'; main()"
    surroundings = {**os.environ, "PYTHONPATH": str(installed), "XDG_CACHE_HOME": str(folder / "cache")}
    command = [sys.executable, "-c", code, *arguments]
    return subprocess.run(command, cwd=folder, env=surroundings, capture_output=True, text=True, check=False)


def test_the_wheel_brings_templates_rule_sets_tables_and_languages(installed: Path) -> None:
    home = installed / "revealbook"
    assert (home / "report_templates" / "pack.html").is_file()
    assert (home / "report_templates" / "marks" / "conforms.svg").is_file()
    assert (home / "rules" / "rule_sets" / "common-practice" / "2026-11" / "set.yaml").is_file()
    assert list((home / "measures" / "physics" / "tables").glob("*.csv"))
    assert list((home / "present" / "languages").glob("*.po"))
    assert (home / "py.typed").is_file()


def test_what_runs_is_the_wheel_and_not_the_source_tree(installed: Path, tmp_path: Path) -> None:
    code = (
        "import revealbook; from revealbook.render.templates import shipped_folder; "
        "print(revealbook.__file__); print(shipped_folder())"
    )
    surroundings = {**os.environ, "PYTHONPATH": str(installed)}
    said = subprocess.run(
        [sys.executable, "-c", code],
        cwd=tmp_path,
        env=surroundings,
        capture_output=True,
        text=True,
        check=True,
    )
    assert all(line.startswith(str(installed)) for line in said.stdout.splitlines())


def test_a_site_is_checked_and_packed_from_another_folder(installed: Path, tmp_path: Path) -> None:
    checked = run(installed, tmp_path, "check", str(CONFORMING))
    assert checked.returncode == 0, checked.stderr
    packed = run(installed, tmp_path, "pack", str(CONFORMING), "--to", "pack.pdf")
    assert packed.returncode == 0, packed.stderr
    assert (tmp_path / "pack.pdf").read_bytes().startswith(b"%PDF")
