"""What a damaged file holds, in words."""

import pytest
from tests.archive.archives import WHEN

from revealbook.archive.holds import holds, kind
from revealbook.archive.inventory import Block, Inventory
from revealbook.present.faults import Held, say_held
from revealbook.present.words import words_in

A, B = "a" * 128, "b" * 128


def inventory(*states: dict[str, str]) -> Inventory:
    blocks = tuple(Block(WHEN, "", "ada", state) for state in states)
    return Inventory("s", {A: ("v1/content/one",), B: ("v2/content/two",)}, blocks)


def said(*held: Held) -> str:
    return say_held(held, words_in("en"))


@pytest.mark.parametrize(
    ("path", "told"),
    [
        ("packs/larch-court.pdf", "pack larch-court.pdf"),
        ("openings/W-2.07.yaml", "record of opening W-2.07"),
        ("openings/east/W-2.07.yaml", "record of opening east/W-2.07"),
        ("photos/W-2.07-beads.jpg", "photograph W-2.07-beads.jpg"),
        ("findings/larch-court.json", "findings of pack larch-court"),
        ("rules/site.yaml", "the site's own rules site.yaml"),
        ("rule_sets/common-practice/frame.yaml", "rules common-practice/frame.yaml"),
        ("afterwards/claim-1.yaml", "later record claim-1"),
        ("site.yaml", "the site file"),
        ("filing.json", "who filed what"),
        ("facts.json", "facts for looking up"),
        ("something/else", "something/else"),
    ],
)
def test_a_file_is_told_from_its_path(path: str, told: str) -> None:
    assert said(kind(path)) == told


def test_the_versions_that_hold_it_are_told() -> None:
    file = "openings/W.yaml"
    assert said(*holds(inventory({file: A}), "v1/content/one")) == "record of opening W, version 1"
    three = inventory({file: A}, {file: A}, {file: A})
    assert said(*holds(three, "v1/content/one")) == "record of opening W, versions 1 to 3"
    gap = inventory({file: A}, {file: B}, {file: A})
    assert said(*holds(gap, "v1/content/one")) == "record of opening W, versions 1, 3"


def test_content_under_two_names_is_told_twice() -> None:
    both = inventory({"photos/a.jpg": A, "photos/b.jpg": A})
    assert said(*holds(both, "v1/content/one")) == "photograph a.jpg, version 1; photograph b.jpg, version 1"


def test_what_nothing_refers_to_holds_nothing_known() -> None:
    assert holds(inventory({"site.yaml": A}), "v9/content/none") == ()
