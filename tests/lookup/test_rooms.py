"""A room asked for in one language is one in the other."""

from revealbook.lookup.rooms import ALSO


def test_every_name_leads_to_all_names_of_its_room_and_to_itself() -> None:
    assert ALSO["bedroom"] == ALSO["schlafzimmer"] == ("bedroom", "schlafzimmer")
    assert all(name in others for name, others in ALSO.items())


def test_directions_do_not_lead_to_their_opposites() -> None:
    assert "nordwest" in ALSO["north_west"]
    assert not {"sudost", "west", "nord"} & set(ALSO["north_west"])
