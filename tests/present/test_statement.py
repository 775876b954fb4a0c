"""What a statement of heads says, and what it leaves open."""

from dataclasses import replace
from datetime import datetime, timedelta

import pytest

from revealbook.present.faults import Held
from revealbook.present.statement import (
    ProvedArchive,
    ProvedFault,
    ProvedSite,
    Statement,
    grouped,
    statement,
)
from revealbook.present.words import words_in

HEAD = "0123456789abcdef" * 4
FILED = datetime.fromisoformat("2026-11-24T10:00:00+01:00")
AT = datetime.fromisoformat("2026-11-29T05:10:00+01:00")
SITE = ProvedSite("s", "Alder Yard", 3, HEAD, FILED, "Ada", 12, 2, 0, 0, (), 0)
ARCHIVE = ProvedArchive("packs", "/srv/packs", 1, AT, AT, "revealbook 1", (SITE,), ())
FAULT = ProvedFault("s/a", (Held("the site file", versions=(1,)),), "was changed", {})


def said(archive: ProvedArchive = ARCHIVE, language: str = "en") -> Statement:
    return statement(archive, "heads.pdf", words_in(language))


def of_site(**changes: object) -> dict[str, str]:
    site = replace(SITE, **changes)  # type: ignore[arg-type]
    return dict(said(replace(ARCHIVE, sites=(site,))).sites[0].facts)


def test_a_head_stands_in_four_lines_of_four_groups_and_whole_in_code_and_command() -> None:
    lines = (("0123", "4567", "89ab", "cdef"),) * 4
    assert grouped(HEAD) == lines
    assert "".join("".join(line) for line in grouped(HEAD)) == HEAD
    (site,) = said().sites
    assert (site.name, site.head, site.code) == ("Alder Yard", lines, f"s={HEAD}")
    assert said().command == ("revealbook prove s --archive /srv/packs", f'--head "s={HEAD}"')
    assert said().from_file == "revealbook prove --archive /srv/packs --heads-from heads.pdf"


def test_a_place_with_blanks_is_quoted() -> None:
    shown = said(replace(ARCHIVE, path="/srv/our packs"))
    assert shown.command[0] == "revealbook prove s --archive '/srv/our packs'"


def test_a_site_is_told_with_its_latest_version_and_what_was_looked_at() -> None:
    assert of_site() == {
        "Id": "s",
        "Latest version": "3, filed 2026-11-24 10:00 UTC+01:00 by Ada",
        "Looked at": "3 versions, 12 files, 2 packs judged again, no pack signed",
    }
    assert of_site(signed=1)["Looked at"].endswith("2 packs judged again, 1 pack with signatures that hold")
    assert of_site(packs=0)["Looked at"].endswith("0 packs judged again")
    assert of_site(noted=(1,))["Heads noted earlier"] == "that of version 1 holds"
    assert of_site(noted=(1, 2))["Heads noted earlier"] == "those of versions 1 and 2 hold"
    assert of_site(faults=2)["Faults"] == "2, listed above"


def test_a_site_without_a_list_of_files_has_no_head() -> None:
    lost = replace(SITE, versions=0, head="", filed=None, by="")
    shown = said(replace(ARCHIVE, sites=(lost,)))
    assert dict(shown.sites[0].facts)["Versions"] == "none: its list of files cannot be read"
    assert (shown.sites[0].head, shown.sites[0].code, shown.command) == ((), "", ())
    assert said(replace(ARCHIVE, sites=(lost, SITE))).command[1] == f'--head "s={HEAD}"'


def test_a_sound_archive_is_called_sound_and_nothing_is_left_open() -> None:
    assert (said().sound, said().detail, said().faults) == (True, "", ())
    assert said().verdict == "Everything that was looked at is as it was filed."


def test_a_fault_is_told_first_and_in_the_readers_language() -> None:
    unsound = replace(ARCHIVE, faults=(FAULT,))
    assert (said(unsound).sound, said(unsound).verdict) == (False, "Not as it was filed: 1 fault.")
    assert said(unsound).faults == (("s/a", "the site file, version 1", "was changed"),)
    german = said(unsound, "de")
    assert german.faults == (("s/a", "die Baustellendatei, Fassung 1", "wurde verändert"),)
    noted = replace(FAULT, text="notes another head before version {number} than the history has now",
                    facts={"number": 3}, held=())  # fmt: skip
    ((_, held, wrong),) = said(replace(ARCHIVE, faults=(noted,)), "de").faults
    assert (held, wrong[:21]) == ("–", "nennt vor Fassung 3 e")


@pytest.mark.parametrize(("number", "listed", "more"), [(200, 200, ""), (203, 200, "And 3 more;")])
def test_paper_lists_so_many_faults_and_counts_the_rest(number: int, listed: int, more: str) -> None:
    shown = said(replace(ARCHIVE, faults=(FAULT,) * number))
    assert len(shown.faults) == listed
    assert shown.more[:11] == more
    assert shown.verdict == f"Not as it was filed: {number} faults."


def test_what_was_not_looked_at_is_said_beside_the_verdict() -> None:
    assert said(replace(ARCHIVE, there=3)).detail == "Looked at: 1 of 3 sites; nothing is said of the others."
    unchecked = said(replace(ARCHIVE, sites=(replace(SITE, unchecked=2),)))
    assert unchecked.detail == "The signatures of 2 packs were not checked."
    assert "signature" not in unchecked.method
    assert "every signature in it checked" in said().method


def test_a_proof_that_took_time_is_told_with_beginning_and_end() -> None:
    assert dict(said().facts)["Proved"] == "2026-11-29 05:10 UTC+01:00"
    long = replace(ARCHIVE, begun=AT - timedelta(days=1))
    assert dict(said(long).facts)["Proved"] == "2026-11-28 05:10 UTC+01:00 to 2026-11-29 05:10 UTC+01:00"
    later = replace(ARCHIVE, begun=AT + timedelta(days=1))  # a date that was asked for, not the clock's
    assert dict(said(later).facts)["Proved"] == "2026-11-29 05:10 UTC+01:00"
