"""Every language says everything: the catalogues are complete and sound, and a pack in German is German."""

import importlib.util
import re
from datetime import UTC, datetime
from itertools import combinations, pairwise
from pathlib import Path
from types import ModuleType
from typing import Any, get_args

import pypdfium2
import pytest
from babel.messages.pofile import read_po
from hypothesis import given
from hypothesis import strategies as st
from tests.cli.terminal import run
from tests.made import judged
from tests.present import elevations, judging
from tests.present.test_drawing_section import ALL
from tests.site_folders import EARLY_TRIM, NOT_SOUND, RECORD, SHORT_OVERLAP, change, conforming

from revealbook import api
from revealbook.making.pack import Packed
from revealbook.making.sheets import make_cutting_list, make_setting_out
from revealbook.present.conditions import conditions_chart
from revealbook.present.drawing import elevation
from revealbook.present.drawing_section import SectionInput, section
from revealbook.present.drawing_shapes import TEXT_MM, text_width
from revealbook.present.timechart import WIDTH_MM, time_chart
from revealbook.present.timeline import events
from revealbook.present.words import languages, words_in
from revealbook.records.load import Folder, look_into
from revealbook.records.site import Site
from revealbook.setting_out.materials import Allowances
from revealbook.setting_out.refusal import NotPossible
from revealbook.setting_out.site import SetOutSite, read_and_set_out
from revealbook.setting_out.site_cuts import Saw, site_cuts

ROOT = Path(__file__).parents[2]
RERUN = "translate these in src/revealbook/present/languages/, after `python docs/make_catalogue.py`"
OTHERS = sorted(set(languages()) - {"en"})
ENGLISH, GERMAN = words_in("en"), words_in("de")
SAME_IN_GERMAN = {
    "Bytes", "EPS", "Material", "Name", "PVC-U", "Parameter", "SHA-256 {digest} …", "XPS", "linear",
}  # fmt: skip
"""Texts that German writes as English does."""
PLACEHOLDER = re.compile(r"\{\w*\}")
ENGLISH_WORDS = (
    "accepted|all|and|any|are|as|at least|batch|bead|beads|by size|centres|clause|"
    "concession|conform|conforms|corner|does|each|edition|fixing|fixings|found|frame|from|"
    "hole|holes|inside|is|joint|least|left|length|limit|measured|missing|most|needed|no|"
    "not|nothing|of|opening|openings|outside|page|piece|pieces|read|record|recorded|required|"
    "right|rule|rules|sealed|shown|signed|site|substrate|support|supports|tape|than|that|"
    "the|to|undecided|waited|wall|weather|when|where|whether|which|width|window|with|"
    "yes"
)
ENGLISH_WORD = re.compile(rf"(?<![\w./:_-])(?:{ENGLISH_WORDS})(?![\w/_-]|\.\w)", re.IGNORECASE)
"""A word of these that stands by itself: not inside a rule's id, a file's name or a place in a record."""
DECIMAL_POINT = re.compile(r"(?<![\w.-])\d+\.\d+(?![\w.-])(?! x)")
"""A number with a point; not a date, a mark as W-1.01, or a product's name as 7.5 x 182."""
LEFT_MM, RIGHT_MM = 23, 18
PAPERS = {"A4": (595.28, 841.89), "Letter": (612, 792)}
POINT_MM = 25.4 / 72


def catalogue(language: str) -> dict[str, str]:
    file = languages()[language]
    assert file is not None
    with file.open("rb") as opened:
        read = read_po(opened, locale=language)
    assert not [message.id for message in read if message.fuzzy and message.id]
    return {str(message.id): str(message.string) for message in read if message.id}


def translated(language: str) -> dict[str, str]:
    """What is missing is told by one test only."""
    return {text: said for text, said in catalogue(language).items() if said}


@pytest.fixture(scope="module")
def shown() -> set[str]:
    """Every text that is shown, as the script that keeps the catalogues finds them."""
    spec = importlib.util.spec_from_file_location("make_catalogue", ROOT / "docs" / "make_catalogue.py")
    assert spec is not None
    assert spec.loader is not None
    module: ModuleType = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    found: set[str] = module.texts()
    return found


def test_the_site_file_may_ask_for_every_language_that_has_a_catalogue() -> None:
    assert set(get_args(Site.model_fields["language"].annotation)) == set(languages())


def test_texts_are_found_wherever_they_stand(shown: set[str]) -> None:
    assert {
        "conforms",  # marked in Python
        "{number} cartridges",  # one of two by number
        "Outcomes by opening and stage",  # in a template
        "{number} openings",  # one of two by number, in a template
        "No support is lifted off by the window's weight (indicative).",  # a rule
        "table 2",  # a rule's clause
        "Whether the drawing calls for supports.",  # a measure
        "hollow masonry",  # a choice of the record
        "no word is allowed",  # a model's refusal
    } <= shown


@pytest.mark.parametrize("language", OTHERS)
def test_every_text_has_its_translation_and_no_other_is_kept(language: str, shown: set[str]) -> None:
    known = catalogue(language)
    assert sorted(shown - {text for text, said in known.items() if said}) == [], RERUN
    assert sorted(set(known) - shown) == [], RERUN


@pytest.mark.parametrize("language", OTHERS)
def test_a_translation_holds_the_same_facts_and_ends_alike(language: str) -> None:
    for text, said in translated(language).items():
        assert set(PLACEHOLDER.findall(text)) == set(PLACEHOLDER.findall(said)), text
        assert (text[0].isspace(), text[-1].isspace()) == (said[0].isspace(), said[-1].isspace()), text
        for sign in ".:?":
            assert text.endswith(sign) == said.endswith(sign) or len(said) <= 10, (
                text
            )  # short heads may be cut


def test_german_leaves_nothing_in_english() -> None:
    known = translated("de")
    words = {text for text in known if re.search(r"[a-zA-Z]", PLACEHOLDER.sub("", text))}
    assert {text for text in words if known[text] == text} <= SAME_IN_GERMAN
    found = {said: english(PLACEHOLDER.sub("", said)) for said in known.values()}
    assert {said: words for said, words in found.items() if words} == {}


def test_german_writes_decimal_commas_throughout() -> None:
    for text, said in translated("de").items():
        assert not DECIMAL_POINT.search(said), text


def english(text: str) -> list[str]:
    return [str(word) for word in ENGLISH_WORD.findall(text)]


def test_one_and_many_are_told_apart_in_german() -> None:
    one, many = "1 roll", "{number} rolls"
    assert [GERMAN.count(number, one, many) for number in (0, 1, 2)] == ["0 Rollen", "1 Rolle", "2 Rollen"]


@given(st.integers(0, 10**6))
def test_the_number_is_said_whatever_it_is(number: int) -> None:
    assert GERMAN.count(number, "1 can", "{number} cans").split()[0] == str(number)


SIZES = [(400, 400), (400, 3000), (1230, 1480), (6000, 400), (6000, 3000)]


@pytest.mark.parametrize(("width", "height"), SIZES)
def test_german_words_find_the_same_room_on_the_elevation(width: float, height: float) -> None:
    whole = elevations.given(
        width,
        height,
        supports=elevations.supports(100, width - 100),
        plinth=elevations.plinth(width),
        pieces={**elevations.pieces(width, height), "top": None},
    )
    here, there = elevation(whole, GERMAN), elevation(whole, ENGLISH)
    assert here.left_out == there.left_out
    assert len(here.texts) == len(there.texts)
    assert [text for text in here.texts if text.box.left < 0 or text.box.right > here.width_mm] == []


@pytest.mark.parametrize("drawn", [ALL, SectionInput(None, frame=False, window=False, steps=())])
def test_german_words_find_their_room_on_the_section(drawn: SectionInput) -> None:
    found = section(drawn, GERMAN)
    assert len(found.texts) == len(section(drawn, ENGLISH).texts)
    assert not [1 for here, there in combinations(found.texts, 2) if here.box.meets(there.box)]
    assert max(text.box.right for text in found.texts) <= found.width_mm <= WIDTH_MM


def test_german_words_find_their_room_on_the_charts() -> None:
    of = judging.opening()
    times = time_chart(of, events(of.record.opening, GERMAN, judging.PEOPLE), GERMAN)
    assert times is not None
    widest = max(text_width(f"{bar.label} {bar.note}") for bar in times.bars)
    assert widest * 2.5 / TEXT_MM < WIDTH_MM
    uses = conditions_chart(of, GERMAN)
    assert uses is not None
    pitch = uses.columns[1].x - uses.columns[0].x
    assert max(text_width(text) for one in uses.columns for text in (one.label, one.values)) < pitch


def german_site(folder: Path, paper: str = "A4") -> Path:
    """A site in German whose one opening conforms, does not conform and lacks evidence, by rule."""
    site = conforming(folder / "hof")
    change(site / "site.yaml", "set: common-practice", "set: published-limits")
    text = (site / "site.yaml").read_text(encoding="utf-8")
    (site / "site.yaml").write_text(f"language: de\npaper: {paper}\n{text}", encoding="utf-8")
    for old, new in (SHORT_OVERLAP, EARLY_TRIM, NOT_SOUND):
        change(site / RECORD, old, new)
    return site


def test_check_speaks_the_site_s_language(tmp_path: Path) -> None:
    site = german_site(tmp_path)
    told = run("check", site, "--open")
    assert told.status == 1
    assert "■ W-1.01/1  Das untere Profil steht auf jeder Seite mindestens 80 mm über die" in told.out
    flat = told.out.replace("\n      ", " ")
    assert "links: 62 mm, U = 1 mm; verlangt: mindestens 80 mm (18 mm außerhalb; unter 0,1 %" in flat
    assert "gewartet 1 h, nötig 4,1 h" in flat
    assert "Die einzige Öffnung ist nicht konform" in told.out
    assert max(map(len, told.out.splitlines())) <= 80
    assert english(without(own_texts(site), told.out)) == []
    assert (
        "Keine lesbare Öffnung heißt W-1.02. Ist W-1.01 gemeint?"
        in run("check", site, "--opening", "W-1.02").err
    )


def test_problems_speak_the_site_s_language(tmp_path: Path) -> None:
    site = german_site(tmp_path)
    (site / "openings" / "leer.yaml").write_text("opening: {mark: leer}\nsurvey: 7\n")
    told = run("check", site)
    assert "survey" in told.err
    assert "braucht eigene Schlüssel darunter, nicht 7." in told.err
    assert english(told.err.replace("“", "")) == []


def own_texts(site: Path) -> list[str]:
    """What the site itself says, in its own words, longest first."""
    from yaml import safe_load

    def inside(value: Any) -> list[str]:
        parts = value.values() if isinstance(value, dict) else value if isinstance(value, list) else ()
        return [value] if isinstance(value, str) else [text for part in parts for text in inside(part)]

    files = (safe_load(file.read_text(encoding="utf-8")) for file in (site / "site.yaml", site / RECORD))
    return sorted({text for file in files for text in inside(file) if len(text) > 4}, key=len, reverse=True)


def without(texts: list[str], page: str) -> str:
    flat = " ".join(page.replace("\ufffe", "-").replace("\u00a0", " ").split())
    for text in texts:
        flat = flat.replace(text, "§")
    return flat


def assert_inside(page: pypdfium2.PdfPage) -> None:
    """Whatever is written stands between the margins, and nothing on anything else."""
    text = page.get_textpage()
    boxes = [text.get_rect(number) for number in range(text.count_rects())]
    width, height = page.get_size()
    for left, bottom, right, top in boxes:
        said = text.get_text_bounded(left, bottom, right, top)
        assert left * POINT_MM >= LEFT_MM - 0.5, said
        assert right * POINT_MM <= width * POINT_MM - RIGHT_MM + 0.5, said
        assert 0 < bottom < top < height, said
    for here, there in combinations(boxes, 2):
        wide = min(here[2], there[2]) - max(here[0], there[0])
        high = min(here[3], there[3]) - max(here[1], there[1])
        assert wide < 2 or high < 2, (text.get_text_bounded(*here), text.get_text_bounded(*there))


def broken_words(page: str) -> list[str]:
    """Words of the catalogue that a narrow column cut in two without a hyphen."""
    known = {word for said in translated("de").values() for word in re.findall(r"\w+", said)}
    lines = [(re.search(r"\w+$", line), re.match(r"\w+", line)) for line in page.splitlines()]
    pairs = [(here[0][0], there[1][0]) for here, there in pairwise(lines) if here[0] and there[1]]
    return [f"{one}|{rest}" for one, rest in pairs if one + rest in known and one not in known]


def assert_german_on(paper: str, pdf: bytes, site: Path) -> None:
    own = own_texts(site)
    with pypdfium2.PdfDocument(pdf) as read:
        for page in read:
            assert page.get_size() == pytest.approx(PAPERS[paper], abs=0.5)
            assert_inside(page)
            text = page.get_textpage().get_text_bounded()
            assert broken_words(text) == []
            said = without(own, text)
            assert english(said) == [], said
            assert DECIMAL_POINT.findall(said) == [], said


@pytest.mark.slow
@pytest.mark.parametrize("paper", PAPERS)
def test_a_german_pack_is_german_and_keeps_to_its_paper(tmp_path: Path, paper: str) -> None:
    site = german_site(tmp_path, paper)
    packed = api.pack(judged(site), site, tmp_path / "cache", datetime(2026, 12, 1, tzinfo=UTC))
    assert isinstance(packed, Packed)
    assert packed.warnings == ()
    assert_german_on(paper, packed.pdf, site)


@pytest.mark.slow
@pytest.mark.parametrize("paper", PAPERS)
def test_german_sheets_before_the_work_are_german_and_keep_to_their_paper(tmp_path: Path, paper: str) -> None:
    site = german_site(tmp_path, paper)
    folder = look_into(site)
    assert isinstance(folder, Folder)
    found = read_and_set_out(folder, (), Allowances())
    assert isinstance(found, SetOutSite)
    plans = [(one.mark, one.plan) for one in found.openings if not isinstance(one.plan, NotPossible)]
    assert plans
    saw = Saw(offcuts_mm={})
    cuts = site_cuts(plans, found.openings[0].work.around, saw)
    made = datetime(2026, 11, 1, tzinfo=UTC)
    for sheets in (make_setting_out(found, site, made), make_cutting_list(found, cuts, saw, site, made)):
        assert sheets.warnings == ()
        assert_german_on(paper, sheets.pdf, site)
