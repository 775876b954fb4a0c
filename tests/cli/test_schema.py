import json

import jsonschema
import pytest
from tests.cli.terminal import run
from tests.rules.sets import stated

from revealbook.cli.schema import KINDS


@pytest.mark.parametrize("kind", KINDS)
def test_the_schema_of_every_kind_of_file_is_json_that_a_validator_takes(kind: str) -> None:
    told = run("schema", kind)
    assert (told.status, told.err) == (0, "")
    schema = json.loads(told.out)
    assert schema["$id"] == f"urn:revealbook:schema:{kind}"
    jsonschema.Draft202012Validator.check_schema(schema)


def test_the_schema_of_rules_takes_a_rule_and_refuses_a_misspelled_key() -> None:
    checker = jsonschema.Draft202012Validator(json.loads(run("schema", "rules").out))
    checker.validate({"rules": [stated()]})
    assert not checker.is_valid({"rules": [stated(grdae="major")]})


def test_a_kind_that_is_none_is_told_with_those_there_are() -> None:
    kinds = "site, record, claim, repair, re-measurement, rules, overlay"
    assert run("schema", "recrod") == (2, "", f"recrod is no kind of file; there are: {kinds}.\n")
