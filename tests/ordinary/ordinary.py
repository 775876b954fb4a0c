"""The ordinary openings: the conforming record as each of them changes it, judged and in words."""

import copy
from pathlib import Path
from typing import Any, NamedTuple

from tests.rules.changes import CONFORMING, RECORD, WAYS, judged, plain, put, shipped

from revealbook.present.found import brief
from revealbook.present.words import words_in
from revealbook.rules.finding import Judgement, Outcome

HERE = Path(__file__).parent
FILES = tuple(sorted((HERE / "openings").glob("*.yaml")))
SETTLED = frozenset({Outcome.CONFORMS, Outcome.DOES_NOT_APPLY})
_ENGLISH = words_in("en")


class Told(NamedTuple):
    """What was found of a rule: its outcome, and the readings as a page says them."""

    outcome: str
    found: str


def changes(file: Path) -> dict[str, Any]:
    """Give what an opening changes in the conforming record and its site, by path."""
    stated = plain(file)
    way = plain(WAYS)[stated["way"]] if "way" in stated else {}
    record = {path: value for path, value in way.items() if not path.startswith("site.")}
    return {**plain(HERE / "site.yaml"), **record, **stated["set"]}


def told(file: Path) -> dict[str, Told]:
    """Judge an opening by its rule set and give every rule's outcome and words."""
    rules = shipped(plain(file).get("rules", "common-practice"))
    return {rule: _told(found) for rule, found in judged(changes(file), rules).items()}


def _told(found: Judgement) -> Told:
    outcome = "not yet due" if found.not_yet_due else str(found.outcome)
    return Told(outcome, brief(found.findings, found.held.rule, _ENGLISH).replace("\u00a0", " "))


def record_and_site(files: tuple[Path, ...]) -> tuple[dict[str, Any], Any]:
    """Give the records of openings by mark, and the one site that they share."""
    site = copy.deepcopy(plain(CONFORMING / "site.yaml"))
    records: dict[str, Any] = {}
    for file in files:
        record = copy.deepcopy(plain(RECORD))
        for path, value in changes(file).items():
            put({"site": site} if path.startswith("site.") else record, path, copy.deepcopy(value))
        record["opening"]["mark"] = file.stem
        records[file.stem] = record
    return records, site
