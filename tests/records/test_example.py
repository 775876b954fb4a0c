from revealbook.records.example import Variant, full_example, inner_model
from revealbook.records.fixing import FixingSet
from revealbook.records.opening import Opening
from revealbook.records.seals import SealEvent, Seals
from revealbook.records.site import Site


def test_every_key_is_stated_and_can_be_read() -> None:
    for model in (Opening, Site):
        data = full_example(model)
        assert list(data) == list(model.model_fields)
        for turn in range(4):
            for opposite in (False, True):
                model.model_validate(full_example(model, Variant(turn, opposite)))


def test_items_of_a_list_show_every_word() -> None:
    steps = {event["step"] for event in full_example(Seals)["events"]}
    assert len(steps) == len(full_example(Seals)["events"])
    assert {"foam", "trim"} <= steps


def test_yes_can_be_no_and_a_key_left_out() -> None:
    assert full_example(SealEvent)["without_voids"] is True
    assert full_example(SealEvent, Variant(opposite=True))["without_voids"] is False
    assert "sd_m" not in full_example(SealEvent, Variant(without=frozenset({"sd_m"})))


def test_a_model_is_found_inside_a_list_and_an_option() -> None:
    assert inner_model(tuple[FixingSet, ...] | None) == (FixingSet, True)
    assert inner_model(FixingSet | None) == (FixingSet, False)
    assert inner_model(str | None) == (None, False)
