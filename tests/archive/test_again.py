"""A pack judged again from itself: agreement, tampering, and the rules of another day."""

from collections.abc import Callable
from functools import cache, partial
from pathlib import Path
from tempfile import tempdir

import pikepdf
import pytest
from tests.made import Made, bare, changed, file_changed, judged
from tests.site_folders import CONFORMING, SHORT_OVERLAP, conforming, opening
from tests.site_folders import change as change_text

from revealbook import __version__
from revealbook.archive import again as module
from revealbook.archive.again import Again, judge_again, judge_today
from revealbook.archive.opened import NotAPack
from revealbook.making.pack import pack_of
from revealbook.present.agreement import Difference
from revealbook.present.evidence import Carried, evidence
from revealbook.present.volumes import VolumeLine, index_of
from revealbook.present.words import words_in
from revealbook.records.load import Folder, look_into
from revealbook.rules.judge_site import judge_site, read_overlays
from revealbook.rules.judged import JudgedSite
from revealbook.rules.read import assemble, set_files, shipped_sets
from revealbook.rules.rule_set import RuleSet, SourceFile
from revealbook.source.problem import Problem

RECORD = "openings__W-1.01.yaml"
Change = Callable[[pikepdf.Pdf], None]


@pytest.fixture
def site(tmp_path: Path) -> Path:
    return conforming(tmp_path / "site")


@cache
def conforming_evidence() -> tuple[Carried, ...]:
    return evidence(judged(CONFORMING))


def again(pack: Path) -> Again:
    found = judge_again(pack)
    assert isinstance(found, Again), found
    return found


def after(change: Change, folder: Path) -> Again:
    """Judge again what a pack carries after a change to it; the pages are left aside."""
    pack = bare(conforming_evidence(), folder / "pack.pdf")
    return again(changed(pack, folder / "changed.pdf", change))


# --- it agrees with itself -------------------------------------------------------------------------------


@pytest.mark.slow
def test_a_rendered_pack_agrees_with_itself(conforming_pack: Made) -> None:
    found = again(conforming_pack.pdf)
    assert found.agrees
    assert (found.findings, found.pages, found.uncalled, found.other_version) == ((), (), (), None)
    assert [one.mark for one in found.judged.openings] == ["W-1.01"]
    assert judge_today(conforming_pack.pdf) == ()


def test_photographs_are_not_needed(site: Path, tmp_path: Path) -> None:
    """They are printed, not carried."""
    pack = bare(evidence(judged(site)), tmp_path / "p.pdf")
    assert again(pack).findings == ()


def test_overlays_of_the_site_are_carried_and_count(site: Path, tmp_path: Path) -> None:
    (site / "rules").mkdir()
    (site / "rules" / "own.yaml").write_text(
        "overlay: the supplier's\nchange:\n  - id: frame-overlap\n    at_least: 100\n"
        "    basis: {kind: supplier, document: sheet 4}\n    reason: wider profile\n",
        encoding="utf-8",
    )
    found = again(bare(evidence(judged(site)), tmp_path / "p.pdf"))
    assert found.findings == ()
    assert found.uncalled == ()
    assert str(found.judged.outcome) == "does not conform"


def test_a_building_judged_by_a_set_below_the_sites_is_judged_so_again(site: Path, tmp_path: Path) -> None:
    change_text(site / "site.yaml", "set: common-practice", "set: published-limits")
    change_text(site / "site.yaml", "{name: A, ", "{name: A, rules: common-practice, ")
    carried = evidence(judged(site))
    assert {one.path.split("/")[1] for one in carried if one.kind == "rules"} == {
        "common-practice",
        "published-limits",
    }
    found = again(bare(carried, tmp_path / "p.pdf"))
    assert (found.findings, found.uncalled) == ((), ())
    assert "ruled_out_by_set" in next(one for one in carried if one.kind == "findings").content.decode()


# --- it was tampered with --------------------------------------------------------------------------------


def test_a_record_changed_by_one_character_is_told_by_opening_and_rule(tmp_path: Path) -> None:
    found = after(file_changed(RECORD, b"overlap_left_mm: 82", b"overlap_left_mm: 62"), tmp_path)
    assert not found.agrees
    told = {(one.mark, one.rule): (one.kept, one.now) for one in found.findings}
    assert told[("W-1.01", "frame-overlap")] == ("conforms", "does not conform")


def test_a_record_changed_where_no_rule_looks_is_told_by_the_fingerprint(
    conforming_pack: Made, tmp_path: Path
) -> None:
    pack = changed(
        conforming_pack.pdf, tmp_path / "p.pdf", file_changed(RECORD, b"# Invented.", b"# Invented,")
    )
    found = again(pack)
    assert found.findings == ()
    assert not found.agrees
    missing = {one.now for one in found.pages}
    assert any(found_one.startswith("openings/W-1.01.yaml · ") for found_one in missing)


def test_findings_changed_inside_are_told(tmp_path: Path) -> None:
    lied = file_changed("findings.json", b'"outcome":"conforms"', b'"outcome":"not shown"')
    assert after(lied, tmp_path).findings


def test_rules_changed_inside_are_told(tmp_path: Path) -> None:
    name = "rule_sets__common-practice__frame.yaml"
    found = after(file_changed(name, b"at_least: 80", b"at_least: 90"), tmp_path)
    assert ("W-1.01", "frame-overlap") in {(one.mark, one.rule) for one in found.findings}


def test_a_file_that_was_added_is_told(tmp_path: Path) -> None:
    def added(pdf: pikepdf.Pdf) -> None:
        pdf.attachments["extra.txt"] = pikepdf.AttachedFileSpec(pdf, b"x", filename="extra.txt")

    found = after(added, tmp_path)
    assert found.uncalled == ("extra.txt",)
    assert not found.agrees


def test_a_record_that_was_added_is_told(tmp_path: Path) -> None:
    def added(pdf: pikepdf.Pdf) -> None:
        record = (CONFORMING / "openings" / "W-1.01.yaml").read_bytes().replace(b"W-1.01", b"W-1.02")
        name = "openings__W-1.02.yaml"
        pdf.attachments[name] = pikepdf.AttachedFileSpec(pdf, record, filename=name)

    found = after(added, tmp_path)
    assert {one.mark for one in found.findings} >= {"W-1.02"}


@pytest.mark.parametrize("name", ["findings.json", RECORD])
def test_a_file_that_was_taken_out_is_told(tmp_path: Path, name: str) -> None:
    def removed(pdf: pikepdf.Pdf) -> None:
        del pdf.attachments[name]

    found = after(removed, tmp_path)
    assert found.findings
    assert not found.agrees
    if name == "findings.json":
        assert found.uncalled == ("findings.json",)


def test_a_file_carried_twice_is_told(tmp_path: Path) -> None:
    def twice(pdf: pikepdf.Pdf) -> None:
        names = pdf.Root.Names.EmbeddedFiles.Names
        names.append(pikepdf.String("site.yaml"))
        names.append(pikepdf.AttachedFileSpec(pdf, b"id: other", filename="site.yaml").obj)

    assert after(twice, tmp_path).uncalled == ("site.yaml",)


def without_text(page: int, pdf: pikepdf.Pdf) -> None:
    """Take all text off a page."""
    shown = {"Tj", "TJ", "'", '"'}
    kept = [one for one in pikepdf.parse_content_stream(pdf.pages[page]) if str(one.operator) not in shown]
    pdf.pages[page].Contents = pdf.make_stream(pikepdf.unparse_content_stream(kept))


@pytest.mark.slow
def test_text_taken_off_a_page_is_told(conforming_pack: Made, tmp_path: Path) -> None:
    found = again(changed(conforming_pack.pdf, tmp_path / "p.pdf", partial(without_text, 0)))
    assert found.findings == ()
    assert not found.agrees
    assert ("", "The only opening conforms.") in {(one.mark, one.now) for one in found.pages}


@pytest.mark.slow
def test_a_page_taken_out_is_told(conforming_pack: Made, tmp_path: Path) -> None:
    def removed(pdf: pikepdf.Pdf) -> None:
        del pdf.pages[-1]

    found = again(changed(conforming_pack.pdf, tmp_path / "p.pdf", removed))
    assert {one.kept for one in found.pages} == {"not on the pages"}


def test_the_evidence_of_another_pack_on_these_pages_is_told(
    conforming_pack: Made, site: Path, tmp_path: Path
) -> None:
    """Everything inside agrees with itself, but it is not what the pages say."""
    (site / "openings" / "W-1.01.yaml").unlink()
    opening(site, "W-1.01", SHORT_OVERLAP)
    other = evidence(judged(site))

    def swapped(pdf: pikepdf.Pdf) -> None:
        for file in other:
            pdf.attachments[file.name].obj.EF.F.write(file.content)

    found = again(changed(conforming_pack.pdf, tmp_path / "p.pdf", swapped))
    assert found.findings == ()
    assert any(one.now.startswith("The only opening does not conform") for one in found.pages)
    assert any(one.mark == "W-1.01" and "62\u00a0mm" in one.now for one in found.pages)


def test_a_pack_of_another_version_is_compared_by_values_and_by_its_fingerprint(
    conforming_pack: Made, tmp_path: Path
) -> None:
    earlier = f'"made_with":"{__version__}"'.encode()
    claimed = changed(
        conforming_pack.pdf, tmp_path / "p.pdf", file_changed("findings.json", earlier, b'"made_with":"0"')
    )
    found = again(claimed)
    assert (found.other_version, found.findings, found.uncalled) == ("0", (), ())
    assert [one.kept for one in found.pages] == ["not on the pages"], "the version alone was changed"


# --- it cannot be judged ---------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("name", "old", "new"),
    [
        ("site.yaml", b"name: Alder Yard", b"nam: Alder Yard"),
        (RECORD, b"widths_mm: {", b"widths_mm: ["),
        ("rule_sets__common-practice__frame.yaml", b"at_least: 80", b"at_leest: 80"),
        ("rule_sets__common-practice__set.yaml", b"set: common-practice", b"set: [common-practice"),
    ],
)
def test_what_cannot_be_read_any_more_is_a_problem_at_its_line(
    tmp_path: Path, name: str, old: bytes, new: bytes
) -> None:
    pack = bare(conforming_evidence(), tmp_path / "pack.pdf")
    damaged = changed(pack, tmp_path / "damaged.pdf", file_changed(name, old, new))
    found = judge_again(damaged)
    assert isinstance(found, tuple)
    assert found
    assert {problem.place.file for problem in found} <= {name.replace("__", "/"), "site.yaml"}


def test_a_rule_set_that_was_taken_out_is_a_problem(tmp_path: Path) -> None:
    carried = tuple(file for file in conforming_evidence() if file.kind != "rules")
    found = judge_again(bare(carried, tmp_path / "p.pdf"))
    assert isinstance(found, tuple)
    assert [problem.code for problem in found] == ["unknown_rule_set"]


def test_what_is_no_pack_is_refused(tmp_path: Path) -> None:
    (tmp_path / "p.pdf").write_bytes(b"no pdf")
    for judge in (judge_again, judge_today):
        with pytest.raises(NotAPack):
            judge(tmp_path / "p.pdf")


@pytest.mark.parametrize(
    "name",
    ["..__..__escaped.yaml", "ABSOLUTE", "openings__..__..__..__escaped.yaml", "openings",
     "openings__W-1.01.yaml__x.yaml", "a" * 300, "site.yaml__x", ".", "..", "a\x00b", "rules"],
    ids=lambda name: name[:20].replace("\x00", "NUL"),
)  # fmt: skip
def test_names_that_lead_elsewhere_write_nothing_there_and_are_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, name: str
) -> None:
    inner = tmp_path / "a" / "b"
    inner.mkdir(parents=True)
    monkeypatch.setattr("tempfile.tempdir", str(inner))
    before = set(tmp_path.rglob("*"))
    if name == "ABSOLUTE":
        name = Carried(str(tmp_path / "escaped.yaml"), b"", "record").name

    def added(pdf: pikepdf.Pdf) -> None:
        names = pdf.Root.Names.EmbeddedFiles.Names
        names.append(pikepdf.String(name))
        names.append(pikepdf.AttachedFileSpec(pdf, b"opening: {mark: X}", filename=name).obj)

    pack = changed(bare(conforming_evidence(), tmp_path / "p.pdf"), tmp_path / "c.pdf", added)
    found = judge_again(pack)
    assert set(tmp_path.rglob("*")) - before == {tmp_path / "p.pdf", tmp_path / "c.pdf"}
    assert isinstance(found, tuple) or not found.agrees
    assert tempdir != str(inner)


# --- by the rules of today -------------------------------------------------------------------------------


def by_rules(site: Path, *changes: tuple[str, bytes, bytes]) -> JudgedSite:
    """Judge a site by the shipped rules as they might have been another day."""

    def then(folder: Folder, _: object) -> RuleSet | tuple[Problem, ...]:
        files = []
        for file in set_files(shipped_sets()["common-practice"]["2026-12"]):
            raw = file.raw
            for name, old, new in changes:
                if file.name.endswith(f"/{name}"):
                    assert raw.count(old) == 1
                    raw = raw.replace(old, new)
            files.append(SourceFile(file.name, raw))
        edition = next(
            (new.decode().split('"')[1] for name, _, new in changes if name == "set.yaml"), "2026-12"
        )
        return assemble("common-practice", edition, {"common-practice": files}, read_overlays(folder)[0])

    folder = look_into(site)
    assert isinstance(folder, Folder)
    found = judge_site(folder, then).judged
    assert found is not None
    return found


STRICTER = ("frame.yaml", b"at_least: 80\n", b"at_least: 100\n")


def test_rules_that_were_stricter_then_are_told_by_opening_and_rule(site: Path, tmp_path: Path) -> None:
    opening(site, "W-1.02", SHORT_OVERLAP)
    pack = bare(evidence(by_rules(site, STRICTER)), tmp_path / "p.pdf")
    found = again(pack)
    assert (found.findings, found.uncalled) == ((), ()), "by the rules inside nothing differs"
    told = judge_today(pack)
    outcomes = {(one.mark, one.rule, one.kept, one.now) for one in told if isinstance(one, Difference)}
    assert ("W-1.01", "frame-overlap", "does not conform", "conforms") in outcomes
    assert {rule for _, rule, _, _ in outcomes} == {"frame-overlap"}
    assert {mark for mark, _, _, _ in outcomes} == {"W-1.01", "W-1.02"}, "the limit differs on both"


def test_an_edition_of_another_day_is_judged_by_todays(site: Path, tmp_path: Path) -> None:
    text = (site / "site.yaml").read_text(encoding="utf-8")
    (site / "site.yaml").write_text(text.replace("edition: 2026-12", "edition: 2020-01"), encoding="utf-8")
    then = by_rules(site, ("set.yaml", b'edition: "2026-12"', b'edition: "2020-01"'))
    pack = bare(evidence(then), tmp_path / "p.pdf")
    assert again(pack).findings == ()
    told = judge_today(pack)
    assert [one.rule for one in told if isinstance(one, Difference)] == ["rule_set"]


def test_another_rule_set_may_be_asked_for(tmp_path: Path) -> None:
    pack = bare(conforming_evidence(), tmp_path / "p.pdf")
    told = judge_today(pack, "published-limits")
    rules = {one.rule for one in told if isinstance(one, Difference)}
    assert "rule_set" in rules
    assert {one.kept for one in told if isinstance(one, Difference)} >= {"no such rule"}
    (problem,) = judge_today(pack, "nonsense")
    assert isinstance(problem, Problem)
    assert problem.code == "unknown_rule_set"


# --- the index of volumes --------------------------------------------------------------------------------


def index(target: Path) -> Path:
    line = VolumeLine("building A", "alder-yard-building-A.pdf", 1, 24, "0a" * 32, "1b" * 32)
    return bare(index_of(pack_of(judged(CONFORMING)), [line], words_in("en")).carried, target)


def test_the_list_of_volumes_is_accounted_for(tmp_path: Path) -> None:
    found = again(index(tmp_path / "p.pdf"))
    assert (found.findings, found.uncalled) == ((), ())


@pytest.mark.parametrize("damage", [b"[]x", b"{}", b"[1]", b'[{"title": "x"}]'])
def test_a_list_of_volumes_that_cannot_be_read_is_told(tmp_path: Path, damage: bytes) -> None:
    def damaged(pdf: pikepdf.Pdf) -> None:
        pdf.attachments["volumes.json"].obj.EF.F.write(damage)

    found = again(changed(index(tmp_path / "p.pdf"), tmp_path / "c.pdf", damaged))
    assert not found.agrees
    if damage != b"{}":
        assert found.uncalled == ("volumes.json",)


def test_a_rule_file_is_never_taken_for_a_record(tmp_path: Path) -> None:
    """Rule sets are read from memory; below the site folder they would be looked for as nothing."""
    carried = (*conforming_evidence(), Carried("rule_sets/x/openings/y.yaml", b"a: 1", "rules"))
    found = again(bare(carried, tmp_path / "p.pdf"))
    assert found.uncalled == ("rule_sets/x/openings/y.yaml",)
    assert module.FINDINGS == "findings.json"
