"""`revealbook page`: the archive's register as one file."""

from pathlib import Path

from tests.archive import archives
from tests.cli.terminal import run
from tests.made import Made

from revealbook.archive.store import Archive


def archive_of(folder: Path, made: Made) -> Path:
    archives.add(Archive.create(folder / "archive"), {"packs/p.pdf": made.pdf.read_bytes()}, "alder-yard")
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
