"""`revealbook page`: the archive's register as one file."""

import json
from pathlib import Path

from tests.archive import archives
from tests.cli.terminal import run
from tests.lookup.filings import file_site
from tests.made import Made, judged

from revealbook.archive.store import Archive
from revealbook.present.facts import facts_json


def archive_of(folder: Path, made: Made) -> Path:
    state = {"packs/p.pdf": made.pdf.read_bytes(), "facts.json": facts_json(judged(made.site))}
    archives.add(Archive.create(folder / "archive"), state, "alder-yard")
    return folder / "archive"


def test_the_page_is_written_and_leads_to_the_packs(tmp_path: Path, conforming_pack: Made) -> None:
    archive, to = archive_of(tmp_path, conforming_pack), tmp_path / "register.html"
    shown = run("page", "--archive", str(archive), "--to", str(to))
    assert shown.status == 0, shown.err
    assert "register.html: As of" in shown.out
    html = to.read_text(encoding="utf-8")
    assert '<h1 dir="auto">Archive archive</h1>' in html
    assert "archive/store/alder-yard/v1/content/packs/p.pdf" in html


def test_the_page_speaks_german_if_asked(tmp_path: Path, conforming_pack: Made) -> None:
    archive, to = archive_of(tmp_path, conforming_pack), tmp_path / "new" / "r.html"
    asked = ("--archive", str(archive), "--to", str(to), "--language", "de", "--site", "alder-yard")
    shown = run("page", *asked)
    assert shown.status == 0, shown.err
    assert '<html lang="de">' in to.read_text(encoding="utf-8")


def test_a_site_that_is_not_there_is_refused_and_nothing_is_written(tmp_path: Path) -> None:
    archive, to = Archive.create(tmp_path / "archive").path, tmp_path / "r.html"
    shown = run("page", "--archive", str(archive), "--to", str(to), "--site", "nowhere")
    assert shown.status == 2
    assert "holds no site 'nowhere'" in shown.err
    assert not to.exists()


def test_what_is_no_archive_is_refused(tmp_path: Path) -> None:
    shown = run("page", "--archive", str(tmp_path), "--to", str(tmp_path / "r.html"))
    assert shown.status == 2
    assert "is no archive" in shown.err


def test_a_damaged_site_is_named_and_the_others_are_listed(tmp_path: Path) -> None:
    archive, to = Archive.create(tmp_path / "archive"), tmp_path / "r.html"
    file_site(archive, "elm", {"W-1": {}})
    file_site(archive, "oak", {"W-9": {}})
    facts = archive.content("elm", 1, "facts.json")
    facts.chmod(0o644)
    facts.write_bytes(facts.read_bytes().replace(b"W-1", b"W-7"))
    shown = run("page", "--archive", str(archive.path), "--to", str(to))
    assert shown.status == 2
    assert "elm" in shown.err
    html = to.read_text(encoding="utf-8")
    assert "W-9" in html
    assert "W-7" not in html
    assert "Its openings are not listed" in html


def test_a_site_whose_list_of_files_is_damaged_is_named_on_the_page_too(tmp_path: Path) -> None:
    archive, to = Archive.create(tmp_path / "archive"), tmp_path / "r.html"
    file_site(archive, "elm", {"W-1": {}})
    (archive.folder("elm") / "inventory.json").write_bytes(b"{}")
    for named in ((), ("--site", "elm")):
        to.unlink(missing_ok=True)
        shown = run("page", "--archive", str(archive.path), "--to", str(to), *named)
        assert shown.status == 2
        assert "Its openings are not listed" in to.read_text(encoding="utf-8")


def test_what_was_found_is_a_page_that_says_what_was_asked(tmp_path: Path) -> None:
    archive, to = Archive.create(tmp_path / "archive"), tmp_path / "found.html"
    file_site(archive, "elm", {"W-1": {}, "W-2": {"frame.bonding[0].batches[0].number": "7714"}})
    file_site(archive, "oak", {"W-9": {}})
    asked = (
        "find",
        "--archive",
        str(archive.path),
        "--index",
        str(tmp_path / "i.sqlite"),
        "--format",
        "json",
    )
    shown = run(*asked, "--batch", "7714", "--page", str(to))
    assert shown.status == 0, shown.err
    assert json.loads(shown.out)["number"] == 1
    assert "found.html: As of" in shown.err
    html = to.read_text(encoding="utf-8")
    assert "Only the openings that were found for: batch 7714." in html
    assert '"W-2"' in html
    assert '"W-1"' not in html
    assert "oak" not in html


def test_a_page_holds_all_that_was_found_even_if_the_terminal_does_not(tmp_path: Path) -> None:
    archive, to = Archive.create(tmp_path / "archive"), tmp_path / "found.html"
    file_site(archive, "elm", {f"W-{number}": {} for number in range(1, 5)})
    asked = ("find", "--archive", str(archive.path), "--index", str(tmp_path / "i.sqlite"), "--most", "1")
    shown = run(*asked, "--site", "elm", "--page", str(to))
    assert "4 openings; the first 1 are shown" in shown.out
    assert all(f'"W-{number}"' in to.read_text(encoding="utf-8") for number in range(1, 5))
