"""Rule sets from their folders: the set, what it extends, and the site's overlay on top."""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from importlib.resources import files
from pathlib import Path
from typing import Any, Literal

from pydantic import Field

from revealbook.measures.method import METHOD_OF_FORMAT_1, Method
from revealbook.records.quantities import Many, Mark, Text
from revealbook.rules.fit import faults
from revealbook.rules.overlay import Overlay, lay_over
from revealbook.rules.rule import STAGES, Rule, RuleId, Stated
from revealbook.rules.rule_set import RuleInForce, RuleSet, SourceFile
from revealbook.source.follow import at
from revealbook.source.nearest import nearest
from revealbook.source.place import Place
from revealbook.source.problem import Problem
from revealbook.source.read import Document, read_bytes
from revealbook.source.validate import validate

SET_FILE = "set.yaml"
Problems = tuple[Problem, ...]


class SetHead(Stated):
    """set.yaml of a rule set: what it is, what it extends, its method."""

    set: Mark = Field(description="The set's name; also that of its folder.")
    edition: Text = Field(description="Edition, as 2026-11.")
    format: Literal[1, 2] = Field(
        default=1, description="Format of the set; one of format 1 was written before most method parameters."
    )
    title: Text = Field(description="Title for the report.")
    extends: Mark | None = Field(default=None, description="A set that it builds on.")
    method: Method = Field(default=Method(), description="Method parameters.")

    @property
    def method_in_force(self) -> Method:
        """The method that the set states; in format 1, what it could not state is as it was reckoned then."""
        stated = {name: getattr(self.method, name) for name in self.method.model_fields_set}
        return Method.model_construct(**{**(METHOD_OF_FORMAT_1 if self.format == 1 else {}), **stated})


class RuleFile(Stated):
    """A file of rules."""

    rules: Many[Rule] = Field(description="Rules, in the order of the work.")


class Gathered:
    """Files read so far, and everything found wrong with them."""

    def __init__(self) -> None:
        """Start with nothing."""
        self.files: list[SourceFile] = []
        self.problems: list[Problem] = []

    def read(self, name: str, raw: bytes, model: type[Any]) -> tuple[Any, Document] | None:
        """Read one file as `model`; None once its problems have been noted."""
        document = read_bytes(raw, name)
        if isinstance(document, Problem):
            self.problems.append(document)
            return None
        valid = validate(model, document)
        if isinstance(valid, tuple):
            self.problems.extend(valid)
            return None
        self.files.append(SourceFile(name, raw))
        return valid, document


def shipped_sets() -> dict[str, dict[str, Path]]:
    """Give the folders of every edition of every rule set ever shipped: by name, then by edition, rising."""
    home = Path(str(files("revealbook.rules") / "rule_sets"))
    return {
        folder.name: {edition.name: edition for edition in sorted(folder.iterdir())}
        for folder in sorted(home.iterdir())
        if folder.is_dir()
    }


def set_files(folder: Path) -> list[SourceFile]:
    """Give the files of an edition's folder, set.yaml first, named as packs carry them."""
    names = [folder / SET_FILE, *sorted(file for file in folder.glob("*.yaml") if file.name != SET_FILE)]
    return [SourceFile(f"rule_sets/{folder.parent.name}/{file.name}", file.read_bytes()) for file in names]


def read_rules(name: str, edition: str | None, overlays: Iterable[SourceFile] = ()) -> RuleSet | Problems:
    """Read a shipped rule set with a site's overlays on top.

    Args:
        name: the set's name.
        edition: the edition that the site asks for; None takes the newest.
        overlays: the site's overlay files.

    Returns:
        The rule set in force, or everything that is wrong with it, all at once.
    """
    editions = shipped_sets()
    known = editions.get(name, {})
    if known and edition is not None and edition not in known:
        facts = {"set": name, "asked": edition, "known": tuple(known)}
        return (Problem(Place("site.yaml"), "unknown_edition", facts),)
    wanted = edition or max(known, default=None)
    shipped = {
        key: set_files(folders.get(wanted or "", folders[max(folders)])) for key, folders in editions.items()
    }
    return assemble(name, edition, shipped, overlays)


def assemble(
    name: str, edition: str | None, sets: dict[str, list[SourceFile]], overlays: Iterable[SourceFile] = ()
) -> RuleSet | Problems:
    """Put a rule set together from the files of all sets at hand; `read_rules` hands in the shipped ones."""
    gathered = Gathered()
    found = _read_chain(name, sets, gathered)
    if found is None:
        return tuple(gathered.problems)
    head, rules, chain = found
    if edition is not None and head.edition != edition:
        facts = {"set": name, "asked": edition, "known": head.edition}
        gathered.problems.append(Problem(Place("site.yaml"), "edition_differs", facts))
    in_force = RuleSet(
        head.set, head.edition, head.title, tuple(rules), method=head.method, chain=chain, format=head.format
    )
    for file in overlays:
        overlay = gathered.read(file.name, file.raw, Overlay)
        if overlay is not None:
            in_force, wrong = lay_over(in_force, *overlay)
            gathered.problems.extend(wrong)
    if gathered.problems:
        return tuple(sorted(gathered.problems, key=lambda problem: problem.place))
    return replace(in_force, rules=_in_order_of_work(in_force), files=tuple(gathered.files))


def _in_order_of_work(rule_set: RuleSet) -> tuple[RuleInForce, ...]:
    return tuple(sorted(rule_set.rules, key=lambda held: STAGES.index(held.rule.stage)))


def _read_chain(
    name: str, sets: dict[str, list[SourceFile]], gathered: Gathered, below: tuple[str, ...] = ()
) -> tuple[SetHead, list[RuleInForce], tuple[str, ...]] | None:
    """Read a set after the set that it extends, whose method holds where it states none of its own."""
    if name not in sets or name in below:
        code = "sets_extend_each_other" if name in below else "unknown_rule_set"
        facts = {"name": name, "nearest": nearest(name, sets), "known": tuple(sets)}
        gathered.problems.append(Problem(Place("site.yaml"), code, facts))
        return None
    first, *rest = sets[name]
    head_read = gathered.read(first.name, first.raw, SetHead)
    if head_read is None:
        return None
    head: SetHead = head_read[0]
    base: list[RuleInForce] = []
    names: tuple[str, ...] = (name,)
    if head.extends:
        chain = _read_chain(head.extends, sets, gathered, (*below, name))
        if chain is None:
            return None
        base, names = chain[1], (name, *chain[2])
        stated = {key: getattr(head.method, key) for key in head.method.model_fields_set}
        head = head.model_copy(update={"method": chain[0].method.model_copy(update=stated)})
    else:
        head = head.model_copy(update={"method": head.method_in_force})
    own = _read_rules(rest, head.format, {held.id for held in base}, gathered)
    return head, base + [RuleInForce(rule, origin=name) for rule in own], names


def _read_rules(
    files_: list[SourceFile], format_: int, known: set[RuleId], gathered: Gathered
) -> Iterator[Rule]:
    for file in files_:
        found = gathered.read(file.name, file.raw, RuleFile)
        if found is None:
            continue
        rule_file, document = found
        for number, rule in enumerate(rule_file.rules):
            if rule.id in known:
                place = at(document.marks, ("rules", number, "id"), file.name)
                gathered.problems.append(Problem(place, "repeated_id", {"name": rule.id}))
            known.add(rule.id)
            for key, code, facts in faults(rule, format_):
                place = at(document.marks, ("rules", number, key), file.name)
                gathered.problems.append(Problem(place, code, facts))
            yield rule
