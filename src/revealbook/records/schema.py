"""JSON Schemas of the files that people write, for editors that complete and check while typing."""

from typing import Any

from pydantic import BaseModel

from revealbook.records.afterwards import KINDS
from revealbook.records.opening import Opening
from revealbook.records.remeasurement import Remeasurement
from revealbook.records.site import Site

DIALECT = "https://json-schema.org/draft/2020-12/schema"
WRITTEN: dict[str, type[BaseModel]] = {
    "site": Site,
    "record": Opening,
    **KINDS,
    "re-measurement": Remeasurement,
}
"""Files by what they are called on the command line."""
IN_A_SITE = ("site", "record")
"""Those of them that lie in a site folder; the others are written when the site has long been filed."""


def schema(model: type[BaseModel], name: str) -> dict[str, Any]:
    """Give the JSON Schema (2020-12) of a model.

    Args:
        model: the model of the file.
        name: what the file is called, for the schema's identity.

    Of a file of a site it asks for `format`, which reading does without: a file without it is of format 1.
    """
    made = model.model_json_schema(by_alias=True)
    if model in WRITTEN.values():
        made["required"] = ["format", *made.get("required", ())]
    return {"$schema": DIALECT, "$id": f"urn:revealbook:schema:{name}", **made}
