from typing import Any

import pytest
from tests.builders import build, value, values

from revealbook.measures.work import Work

SITE = {
    "products": {
        "tapes": [
            {"id": "in", "sd_m": 40, "may_be_stuck_first": True},
            {"id": "out", "sd_m": 0.5},
            {"id": "sill", "sd_m": 20},
        ]
    }
}
JAMBS_AND_HEAD = ["left", "right", "top"]


def tape(face: str, product: str, sides: list[str] | None = None, **keys: Any) -> dict[str, Any]:
    return {"step": f"{face} tape", "at": "2026-11-20T10:00+01:00", "product": product, "sides": sides} | keys


def taped(*events: dict[str, Any]) -> Work:
    return build({"seals": {"events": list(events)}}, SITE)


ALL_ROUND = tape("inner", "in", [*JAMBS_AND_HEAD, "bottom"])


def test_tapes_that_do_not_state_their_sides_close_the_joint_all_round() -> None:
    assert value(taped(tape("inner", "in"), tape("outer", "out")), "sides_closed") == 2


def test_a_side_without_its_outer_tape_is_closed_on_one_face_only() -> None:
    found = values(taped(ALL_ROUND, tape("outer", "out", JAMBS_AND_HEAD)), "sides_closed")
    assert found == {("left",): 2, ("right",): 2, ("top",): 2, ("bottom",): 1}


def test_where_one_tape_states_its_sides_a_tape_that_does_not_is_no_evidence() -> None:
    work = taped(tape("inner", "in"), tape("outer", "out", JAMBS_AND_HEAD))
    for name in ("sides_closed", "sd_ratio", "foam_after_tape", "tape_after_trim"):
        assert value(work, name) == "missing sides at seals.events.0.sides", name


def test_vapour_is_judged_side_by_side() -> None:
    work = taped(ALL_ROUND, tape("outer", "out", JAMBS_AND_HEAD), tape("outer", "sill", ["bottom"]))
    assert values(work, "sd_ratio") == {("left",): 80, ("right",): 80, ("top",): 80, ("bottom",): 2}


def test_the_order_of_tapes_is_judged_side_by_side() -> None:
    late = tape("inner", "in", ["bottom"], at="2026-11-20T12:00+01:00")
    foam = {"step": "foam", "at": "2026-11-20T11:00+01:00"}
    found = values(taped(tape("inner", "in", JAMBS_AND_HEAD), late, foam), "foam_after_tape")
    assert found == {("left", "foam"): 1, ("right", "foam"): 1, ("top", "foam"): 1, ("bottom", "foam"): -1}


@pytest.mark.parametrize(("product", "hours"), [("in", 2.5), ("out", -0.5)])
def test_tape_stuck_on_first_counts_from_then_only_where_its_maker_allows_it(
    product: str, hours: float
) -> None:
    first = tape("inner", product, at="2026-11-20T11:30+01:00", stuck_to_window_at="2026-11-20T08:30+01:00")
    work = taped(first, {"step": "foam", "at": "2026-11-20T11:00+01:00"})
    assert value(work, "foam_after_tape") == hours


def test_a_data_sheet_that_does_not_allow_sticking_first_in_words_shows_nothing() -> None:
    work = taped(tape("outer", "out", stuck_to_window_at="2026-11-20T08:30+01:00"))
    assert value(work, "tape_stuck_first") is True
    assert value(work, "stuck_first_allowed") == "missing may_be_stuck_first at seals.events.0.product"
