"""The page of an archive is one file that allows its own style and script and nothing else."""

import base64
import hashlib
import re
from datetime import UTC, datetime

import pytest
from tests.present import listing

from revealbook.making.archive_page import make_archive_page
from revealbook.present.archive_page import archive_page
from revealbook.present.words import words_in

MADE = datetime(2036, 3, 4, 10, 20, tzinfo=UTC)


def made(language: str = "en", count: int = 3) -> str:
    listed = archive_page("<b>&", listing.sites(), listing.openings(count), MADE, words_in(language))
    return make_archive_page(listed, MADE, language).decode()


def test_only_its_own_style_and_script_may_run() -> None:
    html = made()
    policy = re.search(r'Content-Security-Policy" content="([^"]*)"', html)
    assert policy is not None
    assert policy[1].startswith("default-src 'none'; ")
    assert "unsafe" not in policy[1]
    for tag in ("style", "script"):
        inside = re.search(f"<{tag}>(.*?)</{tag}>", html, re.DOTALL)
        assert inside is not None
        digest = base64.b64encode(hashlib.sha256(inside[1].encode()).digest()).decode()
        assert f"{tag}-src 'sha256-{digest}'" in policy[1]


def test_it_asks_for_no_other_file() -> None:
    html = made()
    assert set(re.findall(r'\b(?:src|href)="([^"]*)"', html)) == {
        "#q", *(pack.href for site in listing.sites() for version in site.versions for pack in version.packs)
    }  # fmt: skip
    assert "url(" not in html
    assert "@import" not in html
    assert "eval(" not in html


def test_names_are_escaped() -> None:
    assert '<h1 dir="auto">Archive &lt;b&gt;&amp;</h1>' in made()


def test_the_same_archive_gives_the_same_bytes() -> None:
    assert made() == made()


def test_every_mark_that_the_script_may_ask_for_is_in_the_page() -> None:
    html = made()
    for slug in ("conforms", "does-not-conform", "undecided", "not-shown", "does-not-apply"):
        assert f'<symbol id="mark-{slug}"' in html


def test_a_german_page_says_so_and_speaks_german() -> None:
    html = made("de")
    assert '<html lang="de">' in html
    assert ">Schließen</button>" in html
    assert "Close" not in re.sub(r"<script>.*?</script>", "", html, flags=re.DOTALL)


def test_a_time_without_zone_is_refused() -> None:
    listed = archive_page("a", (), (), MADE, words_in("en"))
    with pytest.raises(ValueError, match="no zone"):
        make_archive_page(listed, MADE.replace(tzinfo=None))


def test_an_empty_archive_has_a_page_as_well() -> None:
    listed = archive_page("a", (), (), MADE, words_in("en"))
    assert b"Nothing is filed in this archive." in make_archive_page(listed, MADE)
