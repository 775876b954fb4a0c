"""The page of an archive leads to the packs that lie below it, and to the page of each opening in them."""

from pathlib import Path

import pypdfium2
import pytest
from tests.archive import archives
from tests.lookup.filings import SHORT, facts_file, file_site, join_claim, new_archive
from tests.made import Made, judged

from revealbook.archive.refusal import Refused
from revealbook.archive.store import Archive
from revealbook.making.filed_sites import damaged_site, list_site, opening_pages
from revealbook.present.words import words_in

ENGLISH = words_in("en")


def archive_of(folder: Path, *states: dict[str, bytes]) -> Archive:
    """File states of a site, each with the facts of one opening unless it brings its own."""
    archive = Archive.create(folder / "archive")
    for state in states:
        archives.add(archive, {"facts.json": facts_file("s", {"W-1": {}}), **state})
    return archive


def test_every_version_says_when_by_whom_and_its_head(tmp_path: Path) -> None:
    archive = archive_of(tmp_path, archives.FIRST, archives.SECOND)
    shown, _ = list_site(archive, "s", ENGLISH, beside=tmp_path)
    assert [version.said for version in shown.versions] == [
        "Version 1, filed 2026-12-01 09:00 by ada: filed",
        "Version 2, filed 2026-12-01 09:00 by ada: filed",
    ]
    assert [version.head for version in shown.versions] == [one.head for one in archive.versions("s")]
    assert (shown.id, shown.later) == ("s", ())


def test_a_pack_below_the_page_is_linked_to_its_content_in_that_version(tmp_path: Path) -> None:
    state = {**archives.FIRST, "packs/south side.pdf": b"%PDF south"}
    changed = {**state, "packs/s.pdf": b"%PDF two"}
    archive = archive_of(tmp_path / "ü", state, changed)
    shown, _ = list_site(archive, "s", ENGLISH, beside=tmp_path)
    hrefs = [[pack.href for pack in version.packs] for version in shown.versions]
    base = "%C3%BC/archive/store/s"
    south = f"{base}/v1/content/packs/south%20side.pdf"
    assert hrefs[0] == [f"{base}/v1/content/packs/s.pdf", south]
    assert hrefs[1] == [f"{base}/v2/content/packs/s.pdf", south]


def test_a_page_elsewhere_names_the_packs_without_links(tmp_path: Path) -> None:
    archive = archive_of(tmp_path, archives.FIRST)
    elsewhere = tmp_path / "desk"
    elsewhere.mkdir()
    [version] = list_site(archive, "s", ENGLISH, beside=elsewhere)[0].versions
    assert [(pack.name, pack.href) for pack in version.packs] == [("s.pdf", "")]


def test_an_opening_is_found_on_the_page_where_its_sheet_begins(
    tmp_path: Path, conforming_pack: Made
) -> None:
    marks = [opening.mark for opening in judged(conforming_pack.site).openings]
    archive = archive_of(tmp_path, {"packs/p.pdf": conforming_pack.pdf.read_bytes()})
    found = opening_pages(archive, "s", [*marks, "not there"])
    assert set(found) == set(marks)
    with pypdfium2.PdfDocument(conforming_pack.pdf) as pdf:
        for mark, by_version in found.items():
            name, page = by_version[1]
            assert name == "p.pdf"
            before, begins = (pdf[at].get_textpage().get_text_bounded() for at in (page - 2, page - 1))
            assert f"Opening {mark}" in begins
            assert f"Opening {mark}" not in before


def test_a_pack_that_cannot_be_read_has_no_pages(tmp_path: Path) -> None:
    assert opening_pages(archive_of(tmp_path, archives.FIRST), "s", ["W 1"]) == {}


def test_a_site_that_is_not_filed_is_refused(tmp_path: Path) -> None:
    with pytest.raises(Refused, match="no site 'nowhere'"):
        list_site(archive_of(tmp_path), "nowhere", ENGLISH, beside=tmp_path)


def test_a_site_is_listed_as_it_was_filed_last(tmp_path: Path) -> None:
    archive = new_archive(tmp_path)
    file_site(archive, "s", {"W-1": SHORT, "W-2": {}})
    file_site(archive, "s", {"W-1": {}, "W-3": {}}, b"%PDF two")
    _, openings = list_site(archive, "s", ENGLISH, beside=tmp_path)
    assert [(one.mark, str(one.outcome)) for one in openings] == [
        ("W-1", "conforms"), ("W-2", "conforms"), ("W-3", "conforms"),
    ]  # fmt: skip


def test_only_what_is_wanted_is_listed_and_of_older_versions_too(tmp_path: Path) -> None:
    archive = new_archive(tmp_path)
    file_site(archive, "s", {"W-1": SHORT, "W-2": {}})
    file_site(archive, "s", {"W-1": {}, "W-2": {}}, b"%PDF two")
    _, openings = list_site(
        archive, "s", ENGLISH, beside=tmp_path, kept=lambda one: (one.facts.mark, one.since) == ("W-1", 1)
    )
    assert [(one.mark, str(one.outcome)) for one in openings] == [("W-1", "does not conform")]


def test_a_claim_is_told_at_its_opening_and_at_its_site(tmp_path: Path) -> None:
    archive = new_archive(tmp_path)
    file_site(archive, "s", {"W-1": {}, "W-2": {}})
    join_claim(archive, "s", "W-1")
    site, openings = list_site(archive, "s", ENGLISH, beside=tmp_path)
    assert site.later == ("2036-02-11, claim claim-1 on W-1: water on the sill board; Edda Blendrahmen",)
    assert [one.later for one in openings] == ["1 claim", ""]


def test_a_version_filed_without_facts_is_judged_from_its_packs(
    tmp_path: Path, conforming_pack: Made
) -> None:
    stated = judged(conforming_pack.site)
    archive = Archive.create(tmp_path / "archive")
    archives.add(archive, {"packs/p.pdf": conforming_pack.pdf.read_bytes()})
    site, openings = list_site(archive, "s", ENGLISH, beside=tmp_path)
    assert site.name == stated.site.site.name
    assert [one.mark for one in openings] == [opening.mark for opening in stated.openings]
    assert all(one.pages[1][0] == "p.pdf" for one in openings)


def test_a_site_that_cannot_be_read_says_why_in_place_of_its_versions() -> None:
    site = damaged_site("s", "facts.json is not what was written.", ENGLISH)
    assert (site.id, site.versions) == ("s", ())
    assert site.later == ("Its openings are not listed: facts.json is not what was written.",)
