"""Rooms and directions are found in either language."""

from revealbook.lookup.keys import key
from revealbook.lookup.rooms import ALSO


def test_a_room_is_found_by_its_name_in_the_other_language() -> None:
    assert key("bedroom") in ALSO[key("Schlafzimmer")]
    assert key("Küche") in ALSO[key("kitchen")]
    assert key("Badezimmer") in ALSO[key("bathroom")]


def test_whoever_is_one_of_a_group_is_found_by_all_of_it() -> None:
    for name, others in ALSO.items():
        assert name in others
        assert all(ALSO[other] == others for other in others)


def test_no_room_belongs_to_two_groups() -> None:
    groups = set(ALSO.values())
    assert sum(len(set(group)) for group in groups) == len(ALSO)
