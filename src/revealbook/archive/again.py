"""A pack judged again from what it carries, by its own rules or by today's."""

from collections import defaultdict
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass, replace
from pathlib import Path
from tempfile import TemporaryDirectory

from revealbook.archive.opened import NotAPack, OpenedPack, open_pack
from revealbook.archive.refusal import Refused
from revealbook.present.agreement import Difference, compare_findings, made_by_another_version
from revealbook.present.evidence import findings_json
from revealbook.present.page_text import compare_fingerprint, compare_pages
from revealbook.present.present import Pack, present
from revealbook.present.volumes import VOLUMES_FILE, index_of, read_lines
from revealbook.present.words import words_in
from revealbook.records.load import Folder, load_site, look_into
from revealbook.records.record import SiteFile
from revealbook.records.site import Site
from revealbook.rules.judge_site import Checked, RulesOf, held_against, judge_site, read_overlays
from revealbook.rules.judged import JudgedSite
from revealbook.rules.read import assemble, read_rules
from revealbook.rules.rule_set import RuleSet, SourceFile
from revealbook.source.problem import Problem

FINDINGS = "findings.json"
_SETS = "rule_sets"


@dataclass(frozen=True, slots=True)
class Again:
    """What judging a pack again gave.

    Attributes:
        judged: the records inside, judged by the rules inside.
        findings: where the embedded findings differ from that.
        pages: where the text of the pages differs from that.
        uncalled: embedded files that nothing in the evidence accounts for, that stand in the pack twice,
            or that lack.
        other_version: the version that made the pack, if not this one; wording is then not compared, and
            of the pages only the fingerprint.
    """

    judged: JudgedSite
    findings: tuple[Difference, ...]
    pages: tuple[Difference, ...]
    uncalled: tuple[str, ...]
    other_version: str | None

    @property
    def agrees(self) -> bool:
        """Whether the pack agrees with itself in every respect."""
        return not (self.findings or self.pages or self.uncalled)


def judge_again(file: Path) -> Again | tuple[Problem, ...]:
    """Judge a pack again; as `judge_opened`.

    Raises:
        NotAPack: the file cannot be opened as a pack.
    """
    return judge_opened(open_pack(file))


def judge_for_use(file: Path) -> Again:
    """Judge a pack again to use its records, whether or not it agrees with itself.

    Raises:
        Refused: the file cannot be opened as a pack, or what it carries cannot be judged.
    """
    try:
        again = judge_again(file)
    except NotAPack as reason:
        raise Refused(str(reason)) from reason
    if isinstance(again, Again):
        return again
    raise Refused(f"What {file} carries cannot be judged.")


def judge_opened(opened: OpenedPack) -> Again | tuple[Problem, ...]:
    """Judge a pack again by the rules it carries, and compare it with itself.

    Args:
        opened: what stands in the pack.

    Returns:
        The comparison, or what keeps its records or rules from being read.
    """
    checked = _judge(opened, _rules_inside(opened))
    if checked.judged is None or checked.problems:
        return checked.problems
    judged = checked.judged
    pages = _presented(judged, opened.carried.get(VOLUMES_FILE))
    other = made_by_another_version(opened.carried.get(FINDINGS, b""))
    expected = {one.path for one in pages.carried}
    return Again(
        judged,
        compare_findings(opened.carried.get(FINDINGS, b""), findings_json(judged)),
        compare_fingerprint(opened.pages, opened.carried) if other else compare_pages(opened.pages, pages),
        tuple(sorted((expected ^ opened.carried.keys()) | set(opened.repeated))),
        other,
    )


def _presented(judged: JudgedSite, volumes: bytes | None) -> Pack:
    """Present what a pack should show: all of it, or the index if it carries a list of volumes."""
    words = words_in(judged.site.site.language)
    try:
        lines = None if volumes is None else read_lines(volumes)
    except ValueError:
        lines = None
    pages = present(judged, words, with_sheets=lines is None)
    return pages if lines is None else index_of(pages, lines, words)


def rules_in_pack(file: Path) -> tuple[RuleSet | tuple[Problem, ...], Site | None]:
    """Read the rules that a pack was judged by as it carries them, or what is wrong with them; and its site.

    Raises:
        NotAPack: the file cannot be opened as a pack.
    """
    opened = open_pack(file)
    with _laid_out(opened) as path:
        folder = look_into(path)
        if isinstance(folder, Problem):
            return (folder,), None
        site = load_site(folder)
        if not isinstance(site, SiteFile):
            return site, None
        return _rules_inside(opened)(folder, site), site.site


def judge_today(file: Path, rule_set: str | None = None) -> tuple[Difference, ...] | tuple[Problem, ...]:
    """Judge a pack's records by the rules of today and say what comes out differently.

    Args:
        file: the pack's PDF.
        rule_set: a shipped rule set; the one the site names if left out, in the edition shipped today.

    Raises:
        NotAPack: the file cannot be opened as a pack.
    """
    opened = open_pack(file)

    def today(folder: Folder, site: SiteFile) -> RuleSet | tuple[Problem, ...]:
        return read_rules(rule_set or site.site.rules.set, None, read_overlays(folder)[0])

    checked = _judge(opened, today)
    if checked.judged is None or checked.problems:
        return checked.problems
    return compare_findings(opened.carried.get(FINDINGS, b""), findings_json(checked.judged))


def _rules_inside(opened: OpenedPack) -> RulesOf:
    """Give a reader of the rules that a pack carries."""
    sets: defaultdict[str, list[SourceFile]] = defaultdict(list)
    for path in sorted(opened.carried, key=lambda path: (not path.endswith("/set.yaml"), path)):
        if path.startswith(f"{_SETS}/"):
            sets[path.split("/")[1]].append(SourceFile(path, opened.carried[path]))

    def inside(folder: Folder, site: SiteFile) -> RuleSet | tuple[Problem, ...]:
        named, overlays = site.site.rules, read_overlays(folder)[0]
        return held_against(site, assemble(named.set, named.edition, dict(sets), overlays))

    return inside


def _judge(opened: OpenedPack, rules: RulesOf) -> Checked:
    with _laid_out(opened) as path:
        folder = look_into(path)
        if isinstance(folder, Problem):
            return Checked(None, (folder,))
        return judge_site(replace(folder, photos=None), rules, filed=True)


@contextmanager
def _laid_out(opened: OpenedPack) -> Iterator[Path]:
    """Lay the carried files out as a site folder, for as long as they are judged.

    What cannot lie in a site folder is left out; nothing in the evidence accounts for it, so it is told.
    """
    with TemporaryDirectory(prefix="revealbook-again-") as name:
        root = Path(name).resolve()
        for path in sorted(opened.carried):
            if path.startswith(f"{_SETS}/"):
                continue
            with suppress(OSError, ValueError):
                target = (root / path).resolve()
                if target.is_relative_to(root):
                    target.parent.mkdir(parents=True, exist_ok=True)
                    target.write_bytes(opened.carried[path])
        yield root
