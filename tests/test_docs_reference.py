"""What docs/ says of rules, records and commands is what the code says; no rule is left out."""

import importlib.util
import re
from collections import Counter
from pathlib import Path
from types import ModuleType

import pytest
from pydantic import BaseModel
from tests.rules.changes import common_practice

from revealbook.records.schema import WRITTEN

DOCS = Path(__file__).parents[1] / "docs"
RERUN = "docs/ is stale: run `python docs/make_reference.py`"


@pytest.fixture(scope="module")
def script() -> ModuleType:
    spec = importlib.util.spec_from_file_location("make_reference", DOCS / "make_reference.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.fixture(scope="module")
def pages(script: ModuleType) -> dict[str, str]:
    made: dict[str, str] = script.pages()
    return made


def test_the_reference_is_what_the_code_says(pages: dict[str, str]) -> None:
    stale = [name for name, text in pages.items() if not _says(DOCS / name, text)]
    assert stale == [], RERUN


def _says(path: Path, text: str) -> bool:
    return path.is_file() and path.read_text(encoding="utf-8") == text


def test_no_page_is_left_of_a_rule_that_is_no_more(pages: dict[str, str]) -> None:
    assert {f"rules/{path.name}" for path in (DOCS / "rules").iterdir()} <= set(pages), RERUN


def _keys(model: type[BaseModel]) -> set[str]:
    schema = model.model_json_schema()
    return {key for part in (schema, *schema["$defs"].values()) for key in part.get("properties", ())}


def test_the_record_reference_names_every_key_with_its_meaning(pages: dict[str, str]) -> None:
    rows = re.findall(r"^\| `(\w+)` \| (.*?) \| (.*?) \| (.*?) \|$", pages["record.md"], re.MULTILINE)
    described = (_keys(model) for model in WRITTEN.values())
    assert set[str]().union(*described) == {key for key, *_ in rows}
    assert all(kind for _, _, kind, _ in rows)


def test_the_record_reference_gives_range_unit_and_example(pages: dict[str, str]) -> None:
    assert (
        "| `hole_diameter_mm` | Diameter of the holes in the piece, mm. | number, 1 to 40 mm | `8` |"
        in pages["record.md"]
    )
    assert "`inner tape`, `outer tape`, `foam`, `trim`" in pages["record.md"]


def test_links_of_the_record_reference_lead_to_a_heading(pages: dict[str, str]) -> None:
    text = pages["record.md"]
    headings = {title.lower().replace(" ", "-") for title in re.findall(r"^### (.+)$", text, re.MULTILINE)}
    assert set(re.findall(r"\]\(#([^)]+)\)", text)) <= headings


def test_the_index_lists_every_rule_under_its_stage(pages: dict[str, str]) -> None:
    listed = re.findall(r"^\| \[([a-z0-9-]+)\]\(\1\.md\)", pages["rules/README.md"], re.MULTILINE)
    assert listed == [held.id for held in common_practice().rules]


def _practice_rows() -> list[tuple[str, str, list[str]]]:
    text = (DOCS / "practice.md").read_text(encoding="utf-8")
    rows = re.findall(r"^\| (\w+) \| (.+?) \| (\[.+) \|$", text, re.MULTILINE)
    return [(stage, said, re.findall(r"\[([\w-]+)\]\(rules/\1\.md\)", rules)) for stage, said, rules in rows]


def test_every_rule_stands_for_one_practice_and_every_practice_has_its_rules() -> None:
    named = Counter(rule for _, _, rules in _practice_rows() for rule in rules)
    assert named == Counter(held.id for held in common_practice().rules)


@pytest.mark.parametrize(
    ("practice", "rule"),
    [
        ("full contact", "substrate-flat"),
        ("160 mm longer than the opening is wide", "bottom-length"),
        ("centres are not over 700 mm", "fixing-centres"),
        ("a fixing on both sides of the joint", "joint-fixings"),
        ("Two continuous beads", "beads-continuous"),
        ("does not follow at once", "top-edge-sealed"),
        ("no gap to the bottom piece", "support-gap"),
        ("self-drilling metal screws", "plinth-screws"),
        ("closed on both sides", "foam-closed-both-sides"),
        ("tighter against vapour", "inner-seal-tighter"),
        ("3 K above the dew point", "surface-above-dew-point"),
        ("Named roles sign", "signed-off"),
    ],
)
def test_a_practice_is_held_by_its_rule(practice: str, rule: str) -> None:
    assert [rules for _, said, rules in _practice_rows() if practice in said and rule in rules]


def test_a_practice_names_rules_of_its_own_stage() -> None:
    stages = {held.id: held.rule.stage for held in common_practice().rules}
    named = {(rule, stage) for stage, _, rules in _practice_rows() for rule in rules}
    assert named <= set(stages.items())
