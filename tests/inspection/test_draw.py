import hashlib
import subprocess

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.builders import full_opening

from revealbook.inspection.draw import Candidate, Chosen, allocate, candidate, draw, lot, order, strata
from revealbook.measures.physics.sampling import single_plan
from revealbook.records.opening import Opening

LOT = tuple(
    Candidate(f"W-{number:02}", elevation="north" if number < 30 else "south", fitter=f"f{number % 3}")
    for number in range(40)
)


def test_the_same_seed_draws_the_same_sample_whatever_the_order_of_the_records() -> None:
    plan = single_plan(40, "2.5")
    drawn = draw(LOT, plan, 7)
    assert drawn == draw(tuple(reversed(LOT)), plan, 7)
    assert len(set(drawn)) == plan.sample_size == 5
    assert drawn != draw(LOT, plan, 8)


def test_the_draw_never_changes() -> None:
    """Written down once; a sample on paper must be drawn again in ten years."""
    assert order(["W-1", "W-2", "W-3", "W-4", "W-5"], 20261124) == EVER


def test_an_ordinary_tool_gives_the_same_order() -> None:
    def digest(mark: str) -> str:
        told = subprocess.run(["sha256sum"], input=f"7\n{mark}".encode(), capture_output=True, check=True)
        return told.stdout.split()[0].decode()

    marks = ["A-0.01", "A-0.02", "Ä 1"]
    assert order(marks, 7) == tuple(sorted(marks, key=digest))
    assert digest("A-0.01") == hashlib.sha256(b"7\nA-0.01").hexdigest()


EVER = ("W-3", "W-4", "W-2", "W-1", "W-5")


def test_a_divided_lot_gives_every_part_its_share_and_at_least_one() -> None:
    plan = single_plan(40, "6.5")
    drawn = draw(LOT, plan, 7, ("elevation",))
    south = [one.mark for one in LOT if one.elevation == "south"]
    assert plan.sample_size == 8
    assert sum(mark in south for mark in drawn) == 2
    assert draw(LOT, plan, 7, ("elevation",)) == drawn


def test_parts_are_as_the_records_say_and_what_they_do_not_say_is_a_part_too() -> None:
    members = (Candidate("a", elevation="north"), Candidate("b"), Candidate("c", elevation="north"))
    assert strata(members, ("elevation",)) == {("",): ("b",), ("north",): ("a", "c")}
    assert strata(members, ()) == {(): ("a", "b", "c")}


@given(st.lists(st.integers(1, 60), min_size=1, max_size=12), st.data())
def test_shares_add_up_and_none_is_more_than_its_part(sizes: list[int], data: st.DataObject) -> None:
    parts: dict[tuple[str, ...], int] = {(str(number),): size for number, size in enumerate(sizes)}
    total = data.draw(st.integers(0, sum(sizes)))
    given_ = allocate(parts, total)
    assert sum(given_.values()) == total
    assert all(0 <= given_[part] <= size for part, size in parts.items())
    if total >= len(sizes):
        assert min(given_.values()) >= 1


def test_shares_are_in_proportion() -> None:
    assert allocate({("a",): 30, ("b",): 10}, 8) == {("a",): 6, ("b",): 2}
    assert allocate({("a",): 38, ("b",): 1, ("c",): 1}, 5) == {("a",): 3, ("b",): 1, ("c",): 1}
    assert allocate({("a",): 30, ("b",): 10, ("c",): 5}, 2) == {("a",): 1, ("b",): 1, ("c",): 0}


def test_the_fitter_is_who_made_the_frame_else_who_set_the_window() -> None:
    data = full_opening()
    data["window"]["by"] = "emil"
    assert candidate(Opening.model_validate(data)).fitter == "ada"
    data["frame"]["by"] = None
    assert candidate(Opening.model_validate(data)).fitter == "emil"


@pytest.mark.parametrize(
    ("chosen", "taken"),
    [(Chosen(), True), (Chosen("A"), True), (Chosen("B"), False), (Chosen("A", "2"), False),
     (Chosen("A", "1", "ada"), True), (Chosen(fitter="emil"), False)],
)  # fmt: skip
def test_a_lot_is_a_building_a_floor_or_a_fitters_work(chosen: Chosen, taken: bool) -> None:
    assert chosen.takes(Candidate("W-1", "A", "1", "north", "ada")) is taken


def test_the_lot_of_a_site() -> None:
    from tests.present.judging import site

    judged = site({"W-1": {}, "W-2": {"opening.building": "B"}})
    assert [one.mark for one in lot(judged, Chosen(building="B"))] == ["W-2"]


def test_a_place_goes_to_the_part_that_lags_most_and_to_the_first_of_equals() -> None:
    assert allocate({("a",): 10, ("b",): 10}, 3) == {("a",): 2, ("b",): 1}
    assert allocate({("a",): 1, ("b",): 9, ("c",): 10}, 3) == {("a",): 1, ("b",): 1, ("c",): 1}
    assert allocate({("a",): 1, ("b",): 9, ("c",): 10}, 20) == {("a",): 1, ("b",): 9, ("c",): 10}
    assert allocate({("a",): 20, ("b",): 10}, 1) == {("a",): 1, ("b",): 0}


def test_who_only_sealed_is_the_fitter_where_nobody_else_is_named() -> None:
    record = full_opening()
    record["frame"]["by"] = record["window"]["by"] = None
    record["seals"]["by"] = "dov"
    assert candidate(Opening.model_validate(record)).fitter == "dov"
    record["seals"]["by"] = None
    assert candidate(Opening.model_validate(record)).fitter == ""


def test_an_opening_that_says_nothing_of_its_place_is_of_none() -> None:
    assert candidate(Opening.model_validate({"opening": {"mark": "W-1"}})) == Candidate("W-1")
