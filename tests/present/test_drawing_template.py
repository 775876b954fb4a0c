"""The drawing as SVG: text stays text, the alternative text comes first, and the file stays small."""

import re
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest
from tests.present import elevations

from revealbook.present.drawing import elevation
from revealbook.present.drawing_input import ElevationInput, Found
from revealbook.present.drawing_section import SectionInput, section
from revealbook.present.drawing_sheet import Drawing
from revealbook.render.look import Look
from revealbook.render.templates import fill
from revealbook.rules.finding import Outcome

SVG = "{http://www.w3.org/2000/svg}"
PAGE = '{% import "drawing.html" as drawn %}{{ drawn.svg(drawing) }}'


def svg(drawing: Drawing, folder: Path) -> ET.Element:
    (folder / "page.html").write_text(PAGE, encoding="utf-8")
    return ET.fromstring(fill("page.html", {"drawing": drawing}, Look(override=folder), {"made_utc": ""}))  # noqa: S314


def drawn(given: ElevationInput) -> Drawing:
    return elevation(given, elevations.ENGLISH)


def test_the_title_comes_first_and_the_view_is_in_millimetres(tmp_path: Path) -> None:
    drawing = drawn(elevations.given())
    picture = svg(drawing, tmp_path)
    assert picture[0].tag == f"{SVG}title"
    assert picture[0].text == drawing.title
    size = [float(number) for number in picture.get("viewBox", "").split()]
    assert size == pytest.approx([0, 0, drawing.width_mm, drawing.height_mm], abs=0.005)
    assert picture.get("width") == f"{size[2]:g}mm"


def test_every_text_and_number_stays_text(tmp_path: Path) -> None:
    drawing = drawn(elevations.given(found=(elevations.breach(12, "window"), elevations.breach(3, "tests"))))
    written = [element.text for element in svg(drawing, tmp_path).iter(f"{SVG}text")]
    assert sorted(map(str, written)) == sorted([*(text.text for text in drawing.texts), "12", "3"])


def test_every_hole_is_a_circle_at_its_place(tmp_path: Path) -> None:
    drawing = drawn(elevations.given())
    circles = {
        (float(one.get("cx", 0)), float(one.get("cy", 0)))
        for one in svg(drawing, tmp_path).iter(f"{SVG}circle")
    }
    assert circles == {(disc.x, disc.y) for disc in drawing.discs}


def test_outcomes_differ_in_shape_not_only_in_shade(tmp_path: Path) -> None:
    def shapes(outcome: Outcome, number: str = "") -> str:
        found = (Found(("window", "bow_mm"), outcome, number),)
        bare = elevations.given(pieces={}, window=elevations.window(1230, 1480), found=found)
        whole, without = (svg(drawn(one), tmp_path) for one in (bare, elevations.given(pieces={})))
        tags = [element.tag for element in whole.iter()]
        for element in without.iter():
            if element.tag in tags:
                tags.remove(element.tag)
        return " ".join(sorted(tag.removeprefix(SVG) for tag in tags)) + (
            " dashed" if ".7 .5" in ET.tostring(whole, encoding="unicode") else ""
        )

    said = {shapes(Outcome.DOES_NOT_CONFORM, "1"), shapes(Outcome.UNDECIDED), shapes(Outcome.NOT_SHOWN)}
    assert said == {"g g rect text", "g path path", "rect dashed"}


def test_only_ink_and_greys_are_used(tmp_path: Path) -> None:
    picture = ET.tostring(svg(drawn(elevations.given()), tmp_path), encoding="unicode")
    for colour in set(re.findall(r"#([0-9a-f]{6})", picture)):
        red, green, blue = (int(colour[at : at + 2], 16) for at in (0, 2, 4))
        assert max(red, green, blue) - min(red, green, blue) < 20, f"#{colour} is told by its colour"


def test_the_section_dashes_what_is_not_shown(tmp_path: Path) -> None:
    nothing = SectionInput(None, frame=False, window=False, steps=())
    picture = ET.tostring(svg(section(nothing, elevations.ENGLISH), tmp_path), encoding="unicode")
    assert "stroke-dasharray" in picture
    assert "inner tape: not shown" in picture


def test_a_large_opening_with_a_dozen_nonconformities_stays_small(tmp_path: Path) -> None:
    found = tuple(
        elevations.breach(number, "frame", "pieces", "top", "holes_mm", number) for number in range(1, 13)
    )
    given = elevations.given(
        6000.0, 3000.0, found=found, supports=elevations.supports(500, 1500, 2500, 3500, 4500, 5500)
    )
    assert len(ET.tostring(svg(drawn(given), tmp_path))) < 15_000
