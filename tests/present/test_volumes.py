"""Which openings stand together in a volume, and the index that names them all."""

import json
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.present.judging import ENGLISH, site
from tests.rules.changes import common_practice

from revealbook.present.evidence import fingerprint
from revealbook.present.present import present
from revealbook.present.volumes import VOLUMES_FILE, By, VolumeLine, groups, index_of, read_lines
from revealbook.rules.judged import JudgedSite

LINES = (
    VolumeLine("building A, floor 1", "s-building-A-floor-1.pdf", 2, 19, "0a" * 32, "1b" * 32),
    VolumeLine("building A, floor 2 – west", "s-building-A-floor-2---west.pdf", 1, 9, "2c" * 32, "3d" * 32),
)


def of(*places: tuple[str | None, str | None]) -> JudgedSite:
    """A site with an opening at each place, marked O-0, O-1, ... in this order; one rule looks at it."""
    rules = common_practice()
    return site(
        {
            f"O-{number}": {"opening.building": building, "opening.floor": floor}
            for number, (building, floor) in enumerate(places)
        },
        rules=replace(rules, rules=rules.rules[:1]),
    )


def divided(judged: JudgedSite, by: By) -> list[tuple[str, str, list[str]]]:
    return [
        (group.name, group.title, [one.mark for one in group.judged.openings])
        for group in groups(judged, by, ENGLISH)
    ]


def test_volumes_by_building_and_by_storey() -> None:
    judged = of(("B", "1"), ("A", "2"), ("A", "1"), ("B", "1"))
    assert divided(judged, "building") == [
        ("building-A", "building A", ["O-1", "O-2"]),
        ("building-B", "building B", ["O-0", "O-3"]),
    ]
    assert divided(judged, "storey") == [
        ("building-A-floor-1", "building A, floor 1", ["O-2"]),
        ("building-A-floor-2", "building A, floor 2", ["O-1"]),
        ("building-B-floor-1", "building B, floor 1", ["O-0", "O-3"]),
    ]


def test_openings_that_name_no_building_or_floor_have_their_volume_too() -> None:
    assert divided(of((None, None), ("A", None)), "storey") == [
        ("building-unnamed-floor-unnamed", "building –, floor –", ["O-0"]),
        ("building-A-floor-unnamed", "building A, floor –", ["O-1"]),
    ]


def test_storeys_are_counted_not_spelt() -> None:
    judged = of(("A", "10"), ("A", "2"), ("A", "1. OG"), ("A", "EG"), ("A", "10. OG"))
    assert [title.split("floor ")[1] for _, title, _ in divided(judged, "storey")] == [
        "1. OG", "2", "10", "10. OG", "EG",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("first", "second"),
    [("A 1", "A/1"), ("Haus a", "Haus A"), ("unnamed", None), ("A?", "A!"), ("Ä", "ä")],
)
def test_places_whose_names_look_alike_never_share_a_file(first: str, second: str | None) -> None:
    found = groups(of((first, "1"), (second, "1"), ("A", "1")), "building", ENGLISH)
    names = [group.name.casefold() for group in found]
    assert len(set(names)) == len(names) == 3
    assert all("/" not in name and " " not in name for name in names)


TEXTS = st.text(
    st.characters(max_codepoint=0xFFFD, exclude_categories=["Cs", "Cc"]), min_size=1, max_size=6
).filter(lambda text: text.strip())
PLACES = st.lists(st.tuples(st.none() | TEXTS, st.none() | TEXTS), min_size=1, max_size=5)


@settings(max_examples=15, deadline=None)
@given(PLACES, st.sampled_from(["building", "storey"]))
def test_every_opening_stands_in_exactly_one_volume(
    places: list[tuple[str | None, str | None]], by: By
) -> None:
    judged = of(*places)
    found = groups(judged, by, ENGLISH)
    marks = [one.mark for group in found for one in group.judged.openings]
    assert sorted(marks) == sorted(one.mark for one in judged.openings)
    assert len({group.name.casefold() for group in found}) == len(found)
    assert all(group.judged.openings for group in found)
    assert all(group.judged.rule_set is judged.rule_set for group in found)


def test_the_index_has_no_sheets_but_all_else_and_names_every_volume() -> None:
    whole = present(of(("A", "1"), ("A", "2")), ENGLISH)
    index = index_of(whole, LINES, ENGLISH)
    assert index.sheets == ()
    assert index.volumes == LINES
    assert (index.register, index.nonconformities, index.verdict) == (
        whole.register, whole.nonconformities, whole.verdict,
    )  # fmt: skip
    anchors = [anchor for anchor, _, _ in index.contents]
    assert not any(under for _, _, under in index.contents)
    assert anchors.index("volumes") == anchors.index("sources") - 1
    assert set(anchors) - {"volumes"} == {anchor for anchor, _, under in whole.contents if not under}


def test_the_index_carries_the_list_of_volumes_and_its_fingerprint_counts_it() -> None:
    whole = present(of(("A", "1")), ENGLISH)
    index = index_of(whole, LINES, ENGLISH)
    (listed,) = [file for file in index.carried if file.path == VOLUMES_FILE]
    assert [file for file in index.carried if file is not listed] == list(whole.carried)
    assert [file.path for file in index.carried] == sorted(file.path for file in index.carried)
    assert json.loads(listed.content)[0] == {
        "title": "building A, floor 1", "file": "s-building-A-floor-1.pdf", "openings": 2, "pages": 19,
        "fingerprint": "0a" * 32, "sha256": "1b" * 32,
    }  # fmt: skip
    assert read_lines(listed.content) == LINES
    assert index.fingerprint == fingerprint(index.carried) != whole.fingerprint
    assert index_of(whole, LINES[:1], ENGLISH).fingerprint != index.fingerprint


@pytest.mark.parametrize(
    "content",
    [b"", b"{", b"5", b"[1]", b'[{"title": "x"}]', b'{"title": "x"}', b"null",
     b'[{"title": 1, "file": "f", "openings": 1, "pages": 1, "fingerprint": "0", "sha256": "0"}]',
     b'[{"title": "t", "file": "f", "openings": "1", "pages": 1, "fingerprint": "0", "sha256": "0"}]',
     b'[{"title": "t", "file": "f", "openings": true, "pages": 1, "fingerprint": "0", "sha256": null}]',
     b'[{"title": "t", "file": "f", "openings": 1, "pages": 1, "fingerprint": "0", "sha256": "0", "x": 1}]'],
)  # fmt: skip
def test_what_is_no_list_of_volumes_is_refused(content: bytes) -> None:
    with pytest.raises(ValueError, match=r"."):
        read_lines(content)
