"""Page text against the evidence: what is missing or was added is told, and line breaks never are."""

import random
import shutil
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.builders import CONFORMING
from tests.made import Made, make
from tests.present.judging import ENGLISH, site

from revealbook.archive.opened import open_pack
from revealbook.present.agreement import Difference
from revealbook.present.page_text import Expected, compare_fingerprint, compare_pages, expected_text
from revealbook.present.present import Pack, present
from revealbook.present.volumes import VolumeLine, index_of

CONCESSION = {
    "rule": "frame-overlap", "reason": "the neighbouring wall leaves no more room",
    "accepted_by": "cleo", "at": "2026-11-19T15:00+01:00",
}  # fmt: skip
LINE = VolumeLine("building A, floor 1", "alder-yard-building-A-floor-1.pdf", 2, 19, "0a" * 32, "1b" * 32)


@cache
def pack() -> Pack:
    """Two openings with few rules: a nonconformity conceded, a wait too short, something not shown."""
    judged = site(
        {
            "W-1": {
                "frame.pieces.bottom.overlap_left_mm": 62,
                "frame.pieces.bottom.overlap_right_mm": 102,
                "concessions": [CONCESSION],
                "seals.events[2].at": "2026-11-20T12:00+01:00",
            },
            "A 2/b": {"survey.sound": None},
        }
    )
    wanted = {"substrate-sound", "frame-overlap", "foam-set-before-trim", "tests-water"}
    openings = tuple(
        replace(one, judgements=tuple(of for of in one.judgements if of.rule_id in wanted))
        for one in judged.openings
    )
    return present(replace(judged, openings=openings), ENGLISH)


def rows(of: Pack) -> list[Expected]:
    return [(mark, tuple(filter(None, texts))) for mark, texts in expected_text(of) if any(texts)]


def pages(texts: list[Expected]) -> list[str]:
    """Pages that say what is expected, four rows a page."""
    lines = ["  ".join(row) for _, row in texts]
    return ["\r\n".join(lines[start : start + 4]) for start in range(0, len(lines), 4)]


def test_pages_that_say_what_is_expected_agree() -> None:
    assert compare_pages(pages(rows(pack())), pack()) == ()
    assert compare_pages([], pack()) != ()


def kinds() -> set[str]:
    return {text for _, row in rows(pack()) for text in row}


def test_everything_a_reader_relies_on_is_expected() -> None:
    one, trim = pack().nonconformities
    sheet = pack().sheets[0]
    row = next(stage for stage in sheet.stages if stage.open).open[0]
    met = next(met for one in pack().sheets for stage in one.stages for met in stage.conforming)
    for text in (
        pack().verdict.sentence, pack().short_fingerprint, pack().fingerprint, sheet.verdict.sentence,
        one.number, one.requirement, one.remedy, one.points[0].found, one.points[0].place,
        one.points[0].required, one.points[0].off_by, CONCESSION["reason"], trim.gone_on,
        "does not conform", "not shown", "Cleo Reveal", "2400 × 1500\u00a0mm", "A 2/b",
        row.readings, *met, sheet.events[0].what, sheet.events[0].when,
        sheet.products[0][1], sheet.products[0][2], *filter(None, sheet.sign_offs[0]), pack().facts[0][1],
        "openings/W-1.yaml", *(file.digest for file in pack().carried),
    ):  # fmt: skip
        assert text, "nothing to look for"
        assert text in kinds(), text


def changed_rows() -> Iterator[tuple[int, int]]:
    for number, (_, row) in enumerate(rows(pack())):
        yield from ((number, cell) for cell in range(len(row)))


def test_every_text_that_is_missing_from_its_row_is_told() -> None:
    """Also where the same text stands elsewhere: each place on a page stands for one row only."""
    expected = rows(pack())
    untold = []
    for number, cell in changed_rows():
        mark, row = expected[number]
        without = [*expected]
        without[number] = (mark, tuple("~" if at == cell else text for at, text in enumerate(row)))
        told = [one.now.replace(" ", "") for one in compare_pages(pages(without), pack())]
        if not any(row[cell].replace(" ", "") in now for now in told):
            untold.append(row)
    assert untold == []


def test_a_missing_row_is_told_once_with_its_opening() -> None:
    expected = rows(pack())
    sheet = pack().sheets[0]
    gone = (sheet.mark, sheet.verdict.sentence)
    without = [one for one in expected if one[1] != gone]
    assert len(without) < len(expected)
    assert compare_pages(pages(without), pack()) == (
        Difference("W-1", "", "not on the pages", f"W-1 · {sheet.verdict.sentence}"),
    )


def test_texts_of_a_row_must_stand_together_and_in_order() -> None:
    expected = rows(pack())
    (at,) = [
        number
        for number, (_, row) in enumerate(expected)
        if row[0] == pack().register[1].mark and "not shown" in row
    ][:1]
    mark, row = expected[at]
    swapped, apart = [*expected], [*expected]
    swapped[at] = (mark, (row[1], row[0], *row[2:]))
    apart[at] = (mark, (row[0], "x" * 60, *row[1:]))
    assert compare_pages(pages(swapped), pack())
    assert compare_pages(pages(apart), pack())


def test_an_order_of_pages_that_differs_is_no_difference() -> None:
    """A site's own templates may put the parts otherwise."""
    assert compare_pages(pages(rows(pack()))[::-1], pack()) == ()


@settings(max_examples=40, deadline=None)
@given(st.data())
def test_line_breaks_hyphens_and_invisible_signs_are_no_difference(data: st.DataObject) -> None:
    whole = "  ".join(" ".join(row) for _, row in rows(pack()))
    at = sorted(data.draw(st.lists(st.integers(0, len(whole)), min_size=1, max_size=60)))
    added = ["\r\n", "-\r\n", "\u00ad", "\u200b", "\ufffe", "\x02\n", "\u2010\n", "\u2060", " "]
    parts = [whole[begin:end] for begin, end in zip([0, *at], [*at, len(whole)], strict=True)]
    text = "".join(part + data.draw(st.sampled_from(added)) for part in parts[:-1]) + parts[-1]
    missing = [one for one in compare_pages([text], pack()) if one.kept == "not on the pages"]
    assert missing == []


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("W-1/3", ("W-1", "W-1/3 on the pages")),
        ("see W-1/12.", ("W-1", "W-1/12 on the pages")),
        ("(A 2/b/1)", ("A 2/b", "A 2/b/1 on the pages")),
        ("A 2/b/1 The window stands plumb", ("A 2/b", "A 2/b/1 on the pages")),
        ("W-9/1", None),
        ("W-1/1", None),
        ("openings/W-1/3.yaml", None),
        ("XW-1/3", None),
        ("W-1/3.5", None),
        ("W-1/3-4", None),
    ],
)
def test_a_nonconformity_that_was_added_is_told(said: str, told: tuple[str, str] | None) -> None:
    text = [*pages(rows(pack())), said]
    expected = () if told is None else (Difference(*told[:1], "", told[1], "no such nonconformity"),)
    assert compare_pages(text, pack()) == expected


def test_the_index_of_volumes_names_each_with_its_digest() -> None:
    index = index_of(pack(), [LINE], ENGLISH)
    text = pages(rows(index))
    assert compare_pages(text, index) == ()
    for other, said in (
        (replace(LINE, sha256="2c" * 32), "2c2c2c"),
        (replace(LINE, pages=18), " · 18 · "),
        (replace(LINE, file="other.pdf"), "other.pdf"),
        (replace(LINE, openings=3), " · 3 · "),
    ):
        (told,) = compare_pages(text, replace(index, volumes=(other,)))
        assert told.kept == "not on the pages"
        assert said in told.now
    added = compare_pages([*text, "A 2/b/1"], index)
    assert [one.kept for one in added] == ["A 2/b/1 on the pages"], "sheets are not needed for it"


def test_the_fingerprint_of_what_is_inside_is_looked_for_on_the_pages() -> None:
    carried = {file.path: file.content for file in pack().carried}
    text = pages(rows(pack()))
    assert compare_fingerprint(text, carried) == ()
    assert compare_fingerprint(text, {**carried, "site.yaml": b"id: x"})
    assert compare_fingerprint(text, {**carried, "more.yaml": b""})
    assert compare_fingerprint(text, {path: carried[path] for path in carried if path != "site.yaml"})


def test_a_pack_without_openings_has_no_numbers_to_look_for() -> None:
    empty = present(site({}), ENGLISH)
    assert compare_pages([*pages(rows(empty)), "W-1/1"], empty) == ()


@pytest.mark.slow
def test_a_really_rendered_pack_says_all_that_is_expected(conforming_pack: Made) -> None:
    opened = open_pack(conforming_pack.pdf)
    assert len(rows(conforming_pack.packed.pack)) > 100
    assert compare_pages(opened.pages, conforming_pack.packed.pack) == ()


@pytest.mark.slow
def test_the_pages_of_work_in_progress_agree_with_their_evidence(tmp_path: Path) -> None:
    folder = shutil.copytree(CONFORMING, tmp_path / "site")
    record = folder / "openings" / "W-1.01.yaml"
    whole = record.read_text(encoding="utf-8")
    evening = whole.replace("mark: W-1.01", "mark: W-1.02").replace("\ncovering:", "\n# covering:")
    begun = evening[: evening.index("\nhold_points:")] + "\n"
    (folder / "openings" / "W-1.02.yaml").write_text(begun, encoding="utf-8")
    made = make(folder, tmp_path)
    assert [row.not_yet_due > 0 for row in made.packed.pack.register] == [False, True]
    assert compare_pages(open_pack(made.pdf).pages, made.packed.pack) == ()


@pytest.mark.slow
def test_each_row_that_was_changed_on_a_really_rendered_page_is_told(conforming_pack: Made) -> None:
    """Of each of 60 rows that stand once, one sign is changed on the page."""
    opened, shown = open_pack(conforming_pack.pdf), conforming_pack.packed.pack
    whole = "\n".join(opened.pages).replace("\u00a0", " ")
    chosen = random.Random(7)
    texts = sorted(
        {text for _, row in rows(shown) for text in row if whole.count(text) == 1 and len(text) > 3}
    )
    assert len(texts) > 100
    for text in chosen.sample(texts, 60):
        at = chosen.choice([number for number, sign in enumerate(text) if sign.isalnum()])
        wrong = text[:at] + ("x" if text[at] != "x" else "y") + text[at + 1 :]
        told = compare_pages([whole.replace(text, wrong)], shown)
        assert any(text in one.now for one in told), text
