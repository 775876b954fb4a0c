"""Write the reference pages that are made from the code: docs/rules/, docs/record.md and docs/commands.md.

Run it from the root after a change to rules, records or commands: `python docs/make_reference.py`. A test
fails as long as what stands in docs/ is not what this script would write.
"""  # noqa: INP001

import os
import sys
from collections.abc import Iterator
from contextlib import redirect_stdout
from dataclasses import replace
from io import StringIO
from itertools import groupby
from pathlib import Path
from typing import Any

from pydantic import BaseModel
from typer.main import get_command

from revealbook.cli.app import app
from revealbook.present import labels
from revealbook.present.found import required
from revealbook.present.rule_page import rule_page
from revealbook.present.words import words_in
from revealbook.records.afterwards import Claim, Repair
from revealbook.records.opening import Opening
from revealbook.records.remeasurement import Remeasurement
from revealbook.records.site import Site
from revealbook.rules.read import read_rules
from revealbook.rules.rule_set import RuleInForce, RuleSet

DOCS = Path(__file__).parent
WORDS = words_in("en")
UNITS = {
    "_kg_m3": "kg/m³", "_m_s": "m/s", "_m3_h": "m³/h", "_kg_m": "kg/m", "_mm": "mm", "_c": "°C", "_pct": "%",
    "_m2": "m²", "_kg": "kg", "_nm": "Nm", "_ml": "ml", "_pa": "Pa", "_n": "N", "_l": "l", "_m": "m",
}  # fmt: skip
RECORD_PREFACE = (
    """Made from the models by `python docs/make_reference.py`. A key that is not listed is refused. A reading
that is left out is *not shown*; none is assumed. Ranges only catch what cannot be meant, such as metres typed
for millimetres; the limits of practice stand in [the rules](rules/README.md).""",
    """Times are written with their zone, as `2026-11-20T14:05+01:00`; days as `2026-11-20`. Left and right
are as seen from outside.""",
)
DESCRIBED: tuple[tuple[str, type[BaseModel]], ...] = (
    ("A record: `openings/<mark>.yaml`", Opening),
    ("The site: `site.yaml`", Site),
    ("A claim, which joins an opening later", Claim),
    ("A repair, which joins an opening later", Repair),
    ("A re-measurement by the clerk of works", Remeasurement),
)
ABOUT_BASE = """[Practice and rules](../practice.md) tells which rule stands for which practice. A second set,
[published-limits](published-limits.md), adds loads, movement and tests to these."""
ABOUT_OWN = """The set extends [common-practice](README.md); listed are the rules that it adds. Whoever wants
them writes `rules: {set: published-limits, edition: "2026-12"}` in site.yaml.

**Indicative.** Loads, fixings and joints defer to local codes, to the supplier's written instructions and to
a licensed engineer. [The calculations](../calculations/loads.md) say what is reckoned, and how."""
COMMANDS_PREFACE = """Made from the commands by `python docs/make_reference.py`. Results go to the standard
output, problems and progress to the error output, one problem a line as `file:line:column: sentence`.
`revealbook --install-completion` makes the shell complete commands and options."""
Schema = dict[str, Any]


def pages() -> dict[str, str]:
    """Give every generated page, by its path below docs/."""
    base, published = _read("common-practice"), _read("published-limits")
    own = replace(published, rules=tuple(held for held in published.rules if held not in base.rules))
    made = {f"rules/{held.id}.md": rule_page(held, WORDS) for held in published.rules}
    indices = {
        "rules/README.md": _index(base, ABOUT_BASE),
        "rules/published-limits.md": _index(own, ABOUT_OWN),
    }
    return made | indices | {"record.md": _record_reference(), "commands.md": _commands()}


def _commands() -> str:
    """Give every command's help as a terminal of 80 columns shows it."""
    named: dict[str, object] = get_command(app).commands  # type: ignore[attr-defined]  # it is a group
    parts = ["# The commands", COMMANDS_PREFACE, _help()]
    for name in named:
        parts += [f"## revealbook {name}", _help(name)]
    return "\n\n".join(parts) + "\n"


def _help(*command: str) -> str:
    os.environ["COLUMNS"] = "80"
    with redirect_stdout(StringIO()) as shown:
        app([*command, "--help"], prog_name="revealbook", standalone_mode=False)
    return f"```text\n{shown.getvalue().strip()}\n```"


def _read(name: str) -> RuleSet:
    rules = read_rules(name, None)
    if not isinstance(rules, RuleSet):
        raise SystemExit("\n".join(map(str, rules)))
    return rules


def _index(rules: RuleSet, about: str) -> str:
    lines = [
        f"# The rules of {rules.id}, edition {rules.edition}",
        f"{rules.title}: {len(rules.rules)} rules, in the order of the work.",
        "Each rule's page says why it matters and what to do. A site changes limits in its own folder.",
        about,
        "Made from the rule set by `python docs/make_reference.py`.",
    ]
    for stage, of_stage in groupby(rules.rules, key=lambda held: held.rule.stage):
        lines += [f"## {labels.STAGES[stage]}", "\n".join(_index_table(of_stage))]
    return "\n\n".join(lines) + "\n"


def _index_table(of_stage: Iterator[RuleInForce]) -> Iterator[str]:
    yield "| rule | requirement | limit | grade | basis |"
    yield "|---|---|---|---|---|"
    for held in of_stage:
        rule = held.rule
        source = " ".join(filter(None, (rule.basis.standard, rule.basis.edition)))
        basis = f"{rule.basis.kind} ({source})" if source else rule.basis.kind
        limit = required(rule.limit, rule, WORDS)
        yield _row(f"[{rule.id}]({rule.id}.md)", rule.requirement, limit, rule.grade, basis)


def _row(*cells: str) -> str:
    return "| " + " | ".join(cell.replace("|", "\\|") for cell in cells) + " |"


def _record_reference() -> str:
    parts = ["# What a record and a site file may say", *RECORD_PREFACE]
    described: set[str] = set()
    for title, model in DESCRIBED:
        parts += [f"## {title}", *_sections(model, described)]
    return "\n\n".join(parts) + "\n"


def _sections(model: type[BaseModel], described: set[str]) -> Iterator[str]:
    schema = model.model_json_schema(mode="serialization")
    known: dict[str, Schema] = schema.pop("$defs", {}) | {model.__name__: schema}
    waiting = [model.__name__]
    while waiting:
        name = waiting.pop(0)
        if name in described:
            continue
        described.add(name)
        properties: dict[str, Schema] = known[name]["properties"]
        yield f"### {_title(name)}"
        yield str(known[name].get("description", "")).split("\n\n")[0].replace("\n", " ")
        yield "\n".join(_key_table(properties, set(known[name].get("required", ())), known))
        waiting = [part for value in properties.values() for part in _models_in(value)] + waiting


def _key_table(properties: dict[str, Schema], needed: set[str], known: dict[str, Schema]) -> Iterator[str]:
    yield "| key | meaning | what it may be | example |"
    yield "|---|---|---|---|"
    for key, value in properties.items():
        must = " Must be there." if key in needed and value.get("default", ...) is ... else ""
        example = f"`{_yaml(value['examples'][0])}`" if value.get("examples") else ""
        meaning = value.get("description") or _meaning_of_model(value, known)
        yield _row(f"`{key}`", f"{meaning}{must}", _kind(value, key, known), example)


def _meaning_of_model(value: Schema, known: dict[str, Schema]) -> str:
    """Give the docstring of the section a key holds: a key that only repeats it has no words of its own."""
    return next((str(known[name].get("description", "")) for name in _models_in(value)), "")


def _models_in(value: Schema) -> Iterator[str]:
    if "$ref" in value:
        yield str(value["$ref"]).rsplit("/", 1)[-1]
    for inner in (*value.get("anyOf", ()), *value.get("allOf", ()), *_listed(value)):
        yield from _models_in(inner)


def _listed(value: Schema) -> tuple[Schema, ...]:
    return (value["items"],) if isinstance(value.get("items"), dict) else ()


def _kind(value: Schema, key: str, known: dict[str, Schema]) -> str:
    """Say what a value may be: a link to its section, its words, or its range with its unit."""
    for inner in (*value.get("anyOf", ()), *value.get("allOf", ())):
        if inner.get("type") != "null":
            return _kind(inner, key, known)
    if "$ref" in value:
        return _link(next(_models_in(value)))
    if "enum" in value:
        return ", ".join(f"`{word}`" for word in value["enum"])
    if value.get("type") == "array":
        return f"list, each: {_kind(value['items'], key, known)}"
    return _plain_kind(value, key)


def _plain_kind(value: Schema, key: str) -> str:
    if value.get("type") in {"number", "integer"}:
        unit = next((f" {unit}" for suffix, unit in UNITS.items() if key.endswith(suffix)), "")
        whole = "whole number" if value["type"] == "integer" else "number"
        low, high = value.get("minimum"), value.get("maximum")
        return f"{whole}, {low:g} to {high:g}{unit}" if low is not None else f"{whole}{unit}"
    if value.get("type") == "boolean":
        return "`true` or `false`"
    if value.get("const") is not None:
        return f"`{value['const']}`"
    if value.get("format") in {"date", "date-time"}:
        return "day" if value["format"] == "date" else "time with its zone"
    return "name" if "pattern" in value else "text"


def _title(name: str) -> str:
    spaced = "".join(f" {letter.lower()}" if letter.isupper() else letter for letter in name)
    return spaced.strip().capitalize()


def _link(name: str) -> str:
    return f"[{_title(name)}](#{_title(name).lower().replace(' ', '-')})"


def _yaml(value: object) -> str:
    if isinstance(value, dict):
        return "{" + ", ".join(f"{key}: {_yaml(inner)}" for key, inner in value.items()) + "}"
    if isinstance(value, list | tuple):
        return "[" + ", ".join(_yaml(inner) for inner in value) + "]"
    if isinstance(value, bool):
        return "true" if value else "false"
    return str(value)


def main() -> None:
    """Write the pages, and take away pages of rules that are no more."""
    made = pages()
    (DOCS / "rules").mkdir(exist_ok=True)
    for old in (DOCS / "rules").glob("*.md"):
        if f"rules/{old.name}" not in made:
            old.unlink()
    for name, text in made.items():
        (DOCS / name).write_text(text, encoding="utf-8")
    sys.stdout.write(f"{len(made)} pages\n")


if __name__ == "__main__":
    main()
