"""Many filers at once, in one archive and partly of the same site: nothing is lost and nothing doubled."""

import multiprocessing
import os
import runpy
import time
from hashlib import sha512
from pathlib import Path

import pytest
from tests.archive.archives import WHEN, content_of, outside_says_valid
from tests.archive.plain_packs import variants, whole_pack
from tests.site_folders import change, small_site

from revealbook.archive.store import Archive

FULL = bool(os.environ.get("REVEALBOOK_FULL"))
PROCESSES, EACH, SITES = (8, 50, 5) if FULL else (4, 4, 2)
FILER = str(Path(__file__).parent / "crowd_filer.py")
_SERVER = multiprocessing.get_context("forkserver")


def packs_of_sites(folder: Path) -> list[Path]:
    """Make packs enough for every filer, those of one site never next to one another."""
    per_site = []
    for number in range(SITES):
        site = small_site(folder / f"site-{number}", {"A-1": ("A", "1")})
        change(site / "site.yaml", "id: alder-yard", f"id: site-{number}")
        per_site.append(variants(whole_pack(site), folder / f"packs-{number}", PROCESSES * EACH // SITES))
    return [pack for turn in zip(*per_site, strict=True) for pack in turn]


@pytest.mark.slow
def test_of_all_packs_filed_at_once_each_is_in_exactly_one_version(tmp_path: Path) -> None:
    packs = packs_of_sites(tmp_path)
    path, begun = tmp_path / "archive", time.perf_counter()
    filers = []
    for number in range(PROCESSES):
        mine = list(map(str, packs[number::PROCESSES]))
        job = {"archive": str(path), "packs": mine, "by": f"filer {number}", "when": WHEN}
        filers.append(_SERVER.Process(target=runpy.run_path, args=(FILER, {"job": job})))
        filers[-1].start()
    for filer in filers:
        filer.join()
        assert filer.exitcode == 0
        filer.close()
    archive = Archive.open(path)
    print(f"{len(packs)} packs by {PROCESSES} filers in {time.perf_counter() - begun:.0f} s")
    filed = [
        next(digest for name, digest in version.state.items() if name.startswith("packs/"))
        for site in archive.sites()
        for version in archive.versions(site)
    ]
    assert sorted(filed) == sorted(sha512(pack.read_bytes()).hexdigest() for pack in packs)
    assert [len(archive.versions(site)) for site in archive.sites()] == [len(packs) // SITES] * SITES
    assert all(b'"filed_by": "filer' in content_of(archive, "site-0", n)["filing.json"] for n in (1, 2))
    assert list((path / "work" / "staging").iterdir()) == []
    assert outside_says_valid(path)
