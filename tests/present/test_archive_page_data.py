"""The data of an archive's page: compact, whole, and harmless inside a script element."""

import json
from dataclasses import replace
from typing import Any

import pytest
from tests.present import listing

from revealbook.present.archive_page_data import page_data, slug
from revealbook.present.words import words_in
from revealbook.rules.finding import Outcome

ENGLISH, GERMAN = words_in("en"), words_in("de")


def read(*openings: Any, language: str = "en") -> dict[str, Any]:
    data: dict[str, Any] = json.loads(page_data(listing.sites(), openings, words_in(language)))
    return data


def test_every_text_stands_once_and_openings_name_it_by_number() -> None:
    data = read(*listing.openings(40))
    words = data["words"]
    assert len(words) == len(set(words))
    assert words[0] == ""
    first, stated = data["openings"][0], listing.openings(40)[0]
    assert (words[first[1]], words[first[2]], words[first[3]]) == (stated.mark, stated.place, stated.building)
    assert [words[name] for name in first[9]] == list(stated.fitters)
    assert [tuple(words[cell] for cell in batch) for batch in first[10]] == list(stated.batches)
    assert [words[heading] for heading, _ in first[12]] == [part.heading for part in stated.parts]
    lines = first[12][2][1]
    assert [tuple(words[cell] for cell in line) for line in lines] == list(stated.parts[2].lines)


def test_shared_texts_make_the_page_small() -> None:
    openings = listing.openings(1000)
    spelt_out = sum(
        len(cell) for one in openings for part in one.parts for line in part.lines for cell in line
    )
    assert len(page_data(listing.sites(), openings, ENGLISH)) < 0.7 * spelt_out


def test_no_tag_can_begin_inside_the_data() -> None:
    hostile = replace(listing.openings(1)[0], mark="</script><!--<script>", place="a < b")
    written = page_data(listing.sites(), (hostile,), ENGLISH)
    assert "<" not in written
    assert "</script><!--<script>" in json.loads(written)["words"]


def test_a_floor_is_given_by_its_key() -> None:
    data = read(replace(listing.openings(1)[0], floor="2. OG"))
    assert data["words"][data["openings"][0][4]] == "2"


def test_days_are_shown_in_the_language_and_sorted_by_the_calendar() -> None:
    data = read(listing.openings(1)[0], language="de")
    shown = data["openings"][0][6]
    assert data["words"][shown] == "01.03.2024"
    assert data["days"] == {str(shown): "2024-03-01"}
    assert data["openings"][0][8] == "2024"


def test_an_undated_opening_has_no_day_and_no_year() -> None:
    data = read(replace(listing.openings(1)[0], finished=None))
    assert data["openings"][0][6:9:2] == [0, ""]
    assert data["days"] == {}


def test_the_worst_outcome_ranks_first() -> None:
    ranks = {name: one["rank"] for name, one in read()["outcomes"].items()}
    assert ranks["does-not-conform"] < ranks["undecided"] < ranks["conforms"]
    assert set(ranks) == {slug(one) for one in Outcome}


def test_an_opening_of_an_unknown_site_is_refused() -> None:
    stray = replace(listing.openings(1)[0], site="nowhere")
    with pytest.raises(ValueError, match="not listed: nowhere"):
        page_data(listing.sites(), (stray,), GERMAN)


def test_packs_and_pages_are_there_for_links() -> None:
    data = read(*listing.openings(4, per_site=4))
    pack = data["sites"][0]["versions"][1]["packs"][0]
    assert pack == ["Larch Court.pdf", "archive/store/Larch%20Court/v2/Larch%20Court.pdf"]
    assert data["openings"][1][11] == {"2": ["Larch Court.pdf", 2]}
