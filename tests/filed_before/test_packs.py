"""Packs of earlier versions: judged again by the rules they carry they give what they gave then."""

import json
from pathlib import Path

import pytest
from tests.filed_before.kept import KEPT, PACKS

from revealbook.archive.again import Again, judge_again, judge_today
from revealbook.archive.opened import open_pack
from revealbook.archive.signatures import check_signatures
from revealbook.present.agreement import Difference

RENDERED = tuple(pack for pack in PACKS if pack.parent.name != "evidence")
SIGNED = KEPT / "archive/store/larch-court/v2/content/packs/larch-court.pdf"


def named(pack: Path) -> str:
    return pack.relative_to(KEPT).as_posix()


@pytest.mark.parametrize("pack", PACKS, ids=named)
def test_a_pack_gives_what_it_gave_then(pack: Path) -> None:
    """Outcomes, values, limits, margins, probabilities, subjects and lines of every finding."""
    found = judge_again(pack)
    assert isinstance(found, Again), found
    assert found.other_version == "0.2.0"
    assert found.findings == ()
    assert found.uncalled == ()


@pytest.mark.parametrize("pack", RENDERED, ids=named)
def test_the_pages_of_a_pack_carry_its_fingerprint(pack: Path) -> None:
    found = judge_again(pack)
    assert isinstance(found, Again), found
    assert found.agrees


@pytest.mark.parametrize("pack", [pack for pack in PACKS if "alder-yard-varied" not in pack.name], ids=named)
def test_a_pack_is_judged_by_the_rules_of_today(pack: Path) -> None:
    """It never fails, and the least that differs is the edition."""
    differences = judge_today(pack)
    assert all(isinstance(one, Difference) for one in differences), differences
    assert any("2026-11" in one.kept for one in differences if isinstance(one, Difference))


def test_both_signatures_hold() -> None:
    checked = check_signatures(SIGNED.read_bytes())
    assert checked.good
    assert [(one.role, one.holder) for one in checked.signatures] == [
        ("installer", "Bram Tussockdale"),
        ("clerk of works", "Ines Marlowhaugh"),
    ]


def test_every_rule_of_then_was_judged_and_many_failed() -> None:
    """They are worth as much as they cover."""
    seen: dict[str, set[str]] = {}
    for pack in PACKS:
        for opening in json.loads(open_pack(pack).carried["findings.json"])["openings"]:
            for judgement in opening["judgements"]:
                seen.setdefault(judgement["rule"], set()).add(judgement["outcome"])
    assert {rule for rule, outcomes in seen.items() if "conforms" not in outcomes} == set()
    never_failed = {rule for rule, outcomes in seen.items() if "does not conform" not in outcomes}
    assert len(never_failed) < len(seen) / 2
