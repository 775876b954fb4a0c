import json
from typing import Any

import jsonschema
import pytest
from tests.builders import full_opening, full_site

from revealbook.records.afterwards import Claim, Repair
from revealbook.records.opening import Opening
from revealbook.records.remeasurement import Remeasurement
from revealbook.records.schema import DIALECT, WRITTEN, schema
from revealbook.records.site import Site


def checker(name: str) -> jsonschema.Draft202012Validator:
    made = schema(WRITTEN[name], name)
    jsonschema.Draft202012Validator.check_schema(made)
    return jsonschema.Draft202012Validator(json.loads(json.dumps(made)))


def plain(data: Any) -> Any:
    return json.loads(json.dumps(data))


def test_the_schemas_are_of_the_site_the_record_and_what_joins_it_later() -> None:
    later = {"claim": Claim, "repair": Repair, "re-measurement": Remeasurement}
    assert {"site": Site, "record": Opening, **later} == WRITTEN


def test_a_schema_names_its_dialect_and_itself() -> None:
    made = schema(Opening, "record")
    assert made["$schema"] == DIALECT
    assert made["$id"] == "urn:revealbook:schema:record"


def test_editors_ask_for_the_format_that_reading_does_without() -> None:
    assert all("format" in schema(model, name)["required"] for name, model in WRITTEN.items())
    without = {key: value for key, value in plain(full_opening()).items() if key != "format"}
    assert not checker("record").is_valid(without)


def test_the_conforming_files_fit_their_schemas() -> None:
    checker("record").validate(plain(full_opening()))
    checker("site").validate(plain(full_site()))


@pytest.mark.parametrize(
    ("path", "wrong"),
    [
        (("opening", "widht_mm"), 1230),
        (("opening", "width_mm"), "wide"),
        (("opening", "width_mm"), 1.23),
        (("survey", "sound"), "yes"),
        (("window", "set_at"), "2026-11-20T08:30"),
        (("frame", "pieces", "left", "seating"), "thrown"),
        (("frame", "pieces", "left", "holes_mm"), 180),
    ],
)
def test_an_editor_with_the_schema_marks_what_the_reader_would_refuse(
    path: tuple[str, ...], wrong: object
) -> None:
    data = full_opening()
    section = data
    for part in path[:-1]:
        section = section[part]
    section[path[-1]] = wrong
    assert not checker("record").is_valid(plain(data))


def test_every_key_of_the_schema_says_what_it_means() -> None:
    made = schema(Opening, "record")
    for model in (made, *made["$defs"].values()):
        assert model["description"]
        for key, said in model.get("properties", {}).items():
            assert said.get("description") or "$ref" in said, key
