"""`revealbook judge-again`: what it says of a pack, word by word, and with which status it leaves."""

from functools import cache
from pathlib import Path

import pikepdf
import pytest
from tests.archive.test_again import STRICTER, by_rules
from tests.cli.terminal import run
from tests.made import Made, bare, changed, file_changed, judged
from tests.site_folders import CONFORMING, SHORT_OVERLAP, conforming, opening

from revealbook import __version__
from revealbook.present.evidence import Carried, evidence

RECORD = "openings__W-1.01.yaml"


@cache
def carried() -> tuple[Carried, ...]:
    return evidence(judged(CONFORMING))


@pytest.mark.slow
def test_a_pack_that_agrees_leaves_with_0(conforming_pack: Made) -> None:
    found = run("judge-again", conforming_pack.pdf)
    assert (found.status, found.err) == (0, "")
    assert found.out == (
        f"{conforming_pack.pdf}: 1 opening, common-practice 2026-12\n"
        "The findings inside are those that the records give.\n"
        "The pages say what the records give.\n"
    )


@pytest.mark.slow
def test_today_adds_what_would_be_judged_differently(conforming_pack: Made) -> None:
    found = run("judge-again", conforming_pack.pdf, "--today")
    assert found.status == 0
    assert found.out.splitlines()[-1] == "By today's rules nothing would be judged differently."


@pytest.mark.slow
def test_a_tampered_pack_leaves_with_1_and_says_what_differs(conforming_pack: Made, tmp_path: Path) -> None:
    def tampered(pdf: pikepdf.Pdf) -> None:
        lied = file_changed("findings.json", b'"found":"82\xc2\xa0mm', b'"found":"99\xc2\xa0mm')
        lied(pdf)
        pdf.attachments["x\u202ey.txt"] = pikepdf.AttachedFileSpec(pdf, b"x", filename="x\u202ey.txt")

    pack = changed(conforming_pack.pdf, tmp_path / "p.pdf", tampered)
    found = run("judge-again", pack)
    assert found.status == 1
    assert found.err == ""
    lines = found.out.splitlines()
    assert lines[:2] == [
        f"{pack}: 1 opening, common-practice 2026-12", "The findings inside differ:",
    ]  # fmt: skip
    assert lines[2].startswith("  W-1.01 frame-overlap: conforms: 99 mm")
    assert " -> conforms: 82 mm" in lines[2]
    assert lines[3:] == [
        "The pages say what the records give.",
        "Files inside that are not accounted for, stand there twice or are missing:",
        "  x y.txt",
    ]


@pytest.mark.slow
def test_pages_that_say_something_else_are_told_line_by_line(conforming_pack: Made, tmp_path: Path) -> None:
    def removed(pdf: pikepdf.Pdf) -> None:
        del pdf.pages[0]

    found = run("judge-again", changed(conforming_pack.pdf, tmp_path / "p.pdf", removed))
    assert found.status == 1
    lines = found.out.splitlines()
    assert lines[1:3] == ["The findings inside are those that the records give.", "The pages differ:"]
    assert lines[3] == "  the pack: not on the pages -> The only opening conforms."


def test_of_another_version_values_and_fingerprint_are_compared(tmp_path: Path) -> None:
    pack = changed(
        bare(carried(), tmp_path / "p.pdf"),
        tmp_path / "c.pdf",
        file_changed("findings.json", f'"made_with":"{__version__}"'.encode(), b'"made_with":"0.0.1"'),
    )
    found = run("judge-again", pack)
    assert found.status == 1
    assert found.out.splitlines()[:4] == [
        f"{pack}: 1 opening, common-practice 2026-12",
        "The findings inside are those that the records give.",
        "Made by version 0.0.1: values and fingerprint are compared, wording and pages not.",
        "The pages differ:",
    ]


def test_rules_stricter_then_are_told_as_judged_differently_today(tmp_path: Path) -> None:
    site = conforming(tmp_path / "site")
    opening(site, "W-1.02", SHORT_OVERLAP)
    pack = bare(evidence(by_rules(site, STRICTER)), tmp_path / "p.pdf")
    lines = run("judge-again", pack, "--today").out.splitlines()
    begin = lines.index("By today's rules:")
    assert lines[0] == f"{pack}: 2 openings, common-practice 2026-12"
    assert [line.split(":")[0] for line in lines[begin + 1 :]] == [
        "  W-1.01 frame-overlap", "  W-1.02 frame-overlap",
    ]  # fmt: skip
    assert lines[begin + 1] == "  W-1.01 frame-overlap: does not conform -> conforms"
    assert lines[begin + 2].startswith("  W-1.02 frame-overlap: does not conform: 62 mm")


def test_another_set_is_judged_by_as_well(tmp_path: Path) -> None:
    pack = bare(carried(), tmp_path / "p.pdf")
    lines = run("judge-again", pack, "--set", "published-limits").out.splitlines()
    assert "By today's rules:" in lines
    assert any(line.startswith("  the pack rule_set: ") or "rule_set" in line for line in lines)
    assert any("no such rule -> " in line for line in lines)


def test_a_set_that_is_not_shipped_leaves_with_2_and_does_not_blame_the_pack(tmp_path: Path) -> None:
    found = run("judge-again", bare(carried(), tmp_path / "p.pdf"), "--set", "nonsense")
    assert (found.status, found.out) == (2, "")
    assert found.err == (
        "site.yaml: No rule set is called “nonsense”; there are: common-practice, published-limits.\n"
        "1 problem in 1 file; what could not be used was not judged.\n"
        "The pack cannot be judged by today's rules.\n"
    )


@pytest.mark.parametrize("today", [(), ("--today",)])
def test_evidence_that_cannot_be_read_leaves_with_2_and_tells_each_problem_once(
    tmp_path: Path, today: tuple[str, ...]
) -> None:
    damaged = changed(
        bare(carried(), tmp_path / "p.pdf"), tmp_path / "c.pdf",
        file_changed(RECORD, b"moisture_pct: 3.1", b"moisture_pct: wet"),
    )  # fmt: skip
    found = run("judge-again", damaged, *today)
    assert (found.status, found.out) == (2, "")
    lines = found.err.splitlines()
    assert lines[0].startswith("openings/W-1.01.yaml:33:3: ")
    assert lines[1:] == [
        "1 problem in 1 file; what could not be used was not judged.",
        "What the pack carries cannot be judged; it is not what was judged when it was made.",
    ]


def test_what_is_no_pack_leaves_with_2(tmp_path: Path) -> None:
    (tmp_path / "text.pdf").write_bytes(b"no PDF")
    empty = bare((), tmp_path / "empty.pdf")
    assert run("judge-again", empty) == (
        2, "", f"{empty} carries no site file; it is no pack, or its evidence was taken out.\n",
    )  # fmt: skip
    for file in (tmp_path / "text.pdf", tmp_path / "nowhere.pdf", tmp_path):
        found = run("judge-again", file)
        assert (found.status, found.out) == (2, "")
        assert found.err.startswith(f"{file} cannot be opened as a PDF: ")
        assert len(found.err.splitlines()) == 1
