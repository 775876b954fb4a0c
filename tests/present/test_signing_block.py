"""The block for signing: a name only where one person signed every record."""

from typing import Any

from tests.present.judging import ENGLISH, Changes, site

from revealbook.present.signing_block import signing_block
from revealbook.present.words import Words

OTHER_INSTALLER: Changes = {"sign_offs[0].by": "dov"}


def block(by_mark: dict[str, Changes], **changes: Any) -> dict[str, str]:
    return {role: name for role, name, _ in signing_block(site(by_mark, **changes), ENGLISH)}


def test_every_role_that_signs_has_a_row_with_room_for_the_date() -> None:
    rows = signing_block(site({"A": {}}), ENGLISH)
    assert [role for role, _, _ in rows] == ["installer", "clerk of works"]
    assert {date for _, _, date in rows} == {""}


def test_the_name_of_the_one_who_signed_all_records_stands_there() -> None:
    assert block({"A": {}, "B": {}}) == {"installer": "Ada Laibung", "clerk of works": "Cleo Reveal"}


def test_no_name_stands_where_two_people_signed() -> None:
    assert block({"A": {}, "B": OTHER_INSTALLER}) == {"installer": "", "clerk of works": "Cleo Reveal"}


def test_no_name_stands_where_one_record_is_not_signed() -> None:
    assert block({"A": {}, "B": {"sign_offs": None}}) == {"installer": "", "clerk of works": ""}


def test_a_site_without_openings_names_nobody() -> None:
    assert set(block({}).values()) == {""}


def test_somebody_unknown_to_the_site_file_is_named_by_id() -> None:
    assert block({"A": {}}, people=[])["installer"] == "ada"


def test_roles_are_said_in_the_readers_language() -> None:
    shouting = Words("en", str.upper)
    assert [role for role, _, _ in signing_block(site({"A": {}}), shouting)] == [
        "INSTALLER",
        "CLERK OF WORKS",
    ]
