"""Bring the catalogues of languages up to date with every text that packs, sheets and the terminal show.

Run it from the root after a change to a text: `python docs/make_catalogue.py`. Texts that are no more are
taken out, new ones are put in without a translation, and those are listed. A new language: name it as an
argument, `python docs/make_catalogue.py fr`. See docs/languages.md.
"""  # noqa: INP001

import ast
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any, BinaryIO, get_args

import yaml
from babel.messages.catalog import Catalog
from babel.messages.extract import extract
from babel.messages.pofile import read_po, write_po
from jinja2 import Environment, nodes

from revealbook.measures.catalogue import CATALOGUE
from revealbook.records.survey import Substrate
from revealbook.records.window import FrameMaterial

ROOT = Path(__file__).parents[1]
PACKAGE = ROOT / "src" / "revealbook"
LANGUAGES = PACKAGE / "present" / "languages"
TEMPLATES = ROOT / "report_templates"
SHOWN = {"say": (0,), "N_": (0,), "count": (1, 2), "PydanticCustomError": (1,)}
"""Functions that take texts, and which of their arguments those are."""
HEADER = """\
# Texts of Revealbook; kept up to date by `python docs/make_catalogue.py`.
msgid ""
msgstr ""
"Language: {language}\\n"
"MIME-Version: 1.0\\n"
"Content-Type: text/plain; charset=utf-8\\n"
"Content-Transfer-Encoding: 8bit\\n"

"""
Found = Iterator[tuple[int, None, list[str], list[str]]]


def texts() -> set[str]:
    """Give every text that is shown, in English."""
    shown: set[str] = set()
    for folder, pattern, method in (
        (PACKAGE, "*.py", of_python),
        (TEMPLATES, "*.html", of_template),
        (PACKAGE / "rules" / "rule_sets", "*.yaml", of_rules),
    ):
        for path in sorted(folder.rglob(pattern)):
            with path.open("rb") as file:
                shown.update(str(text) for _, text, _, _ in extract(method, file))
    words = (word for measure in CATALOGUE.values() for word in measure.choices)
    meanings = (measure.meaning for measure in CATALOGUE.values())
    return shown | {*meanings, *words, *get_args(Substrate), *get_args(FrameMaterial)} - {""}


def of_python(fileobj: BinaryIO, _keywords: Any, _tags: Any, options: Any) -> Found:  # noqa: ARG001
    """Find the texts of Python code; Babel's own reader falls over `bytes.count(b"...")`."""
    for node in ast.walk(ast.parse(fileobj.read())):
        if isinstance(node, ast.Call):
            name = getattr(node.func, "id", getattr(node.func, "attr", ""))
            for number in SHOWN.get(name, ()):
                argument = node.args[number] if number < len(node.args) else None
                if isinstance(argument, ast.Constant) and isinstance(argument.value, str):
                    yield node.lineno, None, [argument.value], []


def of_template(fileobj: BinaryIO, _keywords: Any, _tags: Any, options: Any) -> Found:  # noqa: ARG001
    """Find the texts of a template: in say(...), and in words.count(...), which Jinja's own reader misses."""
    for node in Environment().parse(fileobj.read().decode()).find_all(nodes.Call):  # noqa: S701 - only parsed
        name = getattr(node.node, "name", getattr(node.node, "attr", ""))
        for number in SHOWN.get(name, ()):
            argument = node.args[number] if number < len(node.args) else None
            if isinstance(argument, nodes.Const) and isinstance(argument.value, str):
                yield node.lineno, None, [argument.value], []


def of_rules(fileobj: BinaryIO, _keywords: Any, _tags: Any, options: Any) -> Found:  # noqa: ARG001
    """Find the texts of a rule set: its title, and what each rule says of itself and of its basis."""
    stated = yaml.safe_load(fileobj)
    said = [stated.get("title")]
    for rule in stated.get("rules", ()):
        said += [rule["requirement"], rule["why"], rule["remedy"]]
        said += [rule["basis"].get("clause"), rule["basis"].get("note")]
    for text in filter(None, said):
        yield 1, None, [text], []


def updated(language: str, shown: set[str]) -> Catalog:
    """Give a language's catalogue with exactly the texts that are shown; new ones are untranslated."""
    path = LANGUAGES / f"{language}.po"
    known = Catalog(language)
    if path.is_file():
        with path.open("rb") as file:
            known = read_po(file, locale=language)
    made = Catalog(language)
    for text in sorted(shown):
        message = known.get(text)
        made.add(text, str(message.string) if message else "")
    return made


def write(language: str, catalogue: Catalog) -> None:
    """Write a catalogue, in the order of its texts and without line numbers, so that changes read well."""
    with (LANGUAGES / f"{language}.po").open("wb") as file:
        file.write(HEADER.format(language=language).encode())
        write_po(file, catalogue, width=100, no_location=True, omit_header=True, sort_output=True)


def main(languages: list[str]) -> int:
    """Update the catalogues; give 1 as long as a text lacks its translation."""
    shown, lacking = texts(), 0
    for language in languages or sorted(path.stem for path in LANGUAGES.glob("*.po")):
        catalogue = updated(language, shown)
        write(language, catalogue)
        empty = [str(message.id) for message in catalogue if message.id and not message.string]
        lacking += len(empty)
        print(f"{language}: {len(shown)} texts, {len(empty)} without translation", *empty, sep="\n  ")  # noqa: T201
    return 1 if lacking else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
