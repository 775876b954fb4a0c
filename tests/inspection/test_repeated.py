from itertools import combinations
from random import Random
from typing import Any

import pytest
from tests.inspection.asking import ask
from tests.inspection.planted import copied_readings, copied_record
from tests.inspection.simulated import honest

from revealbook.inspection.practice import practice
from revealbook.inspection.question import Question, Spot
from revealbook.inspection.repeated import (
    Taken,
    _alike,
    _block_alike,
    _chance,
    _Chances,
    _families,
    _sized_otherwise,
    repeated,
)
from revealbook.measures.reading import Path


def test_a_copied_record_is_asked_about_with_what_agrees() -> None:
    random = Random(4)
    site = honest(random, 14)
    copied_record(random, site)
    (found,) = repeated(site.evidence())
    assert found.code == "records_alike"
    assert len(found.openings) == 2
    same, compared = found.facts["same"], found.facts["compared"]
    assert isinstance(same, int)
    assert isinstance(compared, int)
    assert same == compared - 3
    assert found.chance is not None
    assert found.chance < 1e-3
    assert found.comparisons == 14 * 13 // 2


def test_a_survey_written_into_many_records_is_asked_about_once() -> None:
    random = Random(4)
    site = honest(random, 18)
    copied_readings(random, site)
    blocks = [one for one in repeated(site.evidence()) if one.code == "block_alike"]
    assert [(one.facts["block"], len(one.openings)) for one in blocks] == [("survey", 6)]


def test_weather_that_is_the_same_on_one_scaffold_is_not_asked_about() -> None:
    site = honest(Random(4), 14)
    for record in site.records:
        record["frame"]["bonding"][0] |= {"air_c": 9.5, "rh_pct": 70, "surface_c": 9.1}
    assert list(repeated(site.evidence())) == []


def test_two_short_records_that_agree_are_not_enough() -> None:
    few: dict[str, object] = {
        "survey.heights_mm": None, "survey.diagonals_mm": None, "frame.pieces": None,
        "window.joint_widths_mm": None, "seals.events": [],
    }  # fmt: skip
    assert ask(repeated, {"W-1": few, "W-2": few}) == []


def test_records_copied_from_one_another_are_one_question() -> None:
    (found,) = ask(repeated, {f"W-{number}": {} for number in range(5)})
    assert found.openings == ("W-0", "W-1", "W-2", "W-3", "W-4")
    assert [spot.mark for spot in found.spots] == list(found.openings)


@pytest.mark.parametrize(
    ("block", "by_grid"),
    [
        ("survey", {0.3: 0.4, 0.5: 0.4, 1: 0.45, 2: 0.6, 5: 0.85, 10: 0.95}),
        ("frame", {0.5: 0.35, 1: 0.35, 5: 0.6, 10: 0.9}),
        ("line", {0.1: 0.35, 0.5: 0.6, 1: 0.8}),
        ("joints", {0.1: 0.35, 0.5: 0.5, 1: 0.65, 5: 0.95}),
        ("seals", {1: 0.35, 5: 0.6, 10: 0.9}),
    ],
)
def test_a_reading_repeats_the_oftener_the_coarser_it_is_read(
    block: str, by_grid: dict[float, float]
) -> None:
    """The chances are practice; they stay apart from what is computed with them."""
    agree = next(one.agree for one in practice().repeated.blocks if one.name == block)
    found = {grid: _chance([grid * number for number in (1, 2, 3, 7, 9, 11)], agree) for grid in by_grid}
    assert found == by_grid


def test_nine_readings_in_ten_on_a_grid_make_it_the_takers() -> None:
    agree = next(one.agree for one in practice().repeated.blocks if one.name == "survey")
    assert _chance([1200.0] * 9 + [1203.0], agree) == 0.95
    assert _chance([1200.0] * 8 + [1203.0] * 2, agree) == 0.45


def taken(mark: str, width: float | None = 2400, height: float | None = 1500, **blocks: Any) -> Taken:
    """Clear widths read on 1 mm, so that each repeats with a chance of 0.45."""
    return Taken(mark, {"survey": {}, **blocks}, {"survey": "ada"}, width, height)


def clear(number: int, first: float = 2401) -> dict[Path, float]:
    return {("survey", "widths_mm", str(at)): first + 3 * at for at in range(number)}


@pytest.mark.parametrize(
    ("key", "width", "height", "other"),
    [
        ("widths_mm", 2420, 1500, False), ("widths_mm", 2421, 1500, True), ("widths_mm", 2379, 1500, True),
        ("widths_mm", 2400, 1600, False), ("widths_mm", None, 1600, False), ("heights_mm", 2500, 1500, False),
        ("heights_mm", 2400, 1479, True), ("diagonals_mm", 2400, 1521, True),
        ("diagonals_mm", 2421, 1500, True),
        ("diagonals_mm", 2420, 1480, False),
    ],
)  # fmt: skip
def test_a_clear_size_hardly_repeats_where_the_nominal_one_is_another(
    key: str, width: float | None, height: float | None, other: bool
) -> None:
    found = _sized_otherwise(taken("a"), taken("b", width, height), ("survey", key, "top"), 20)
    assert found is other
    chances = _Chances((taken("a", survey=clear(6)), taken("b", width, height, survey=clear(6, 2402))))
    chance = chances.of(
        taken("a", survey=clear(6)),
        taken("b", width, height, survey=clear(6)),
        "survey",
        ("survey", key, "top"),
    )
    assert chance == (0.05 if other else 0.45)


def test_the_coarser_of_two_takers_counts() -> None:
    fine, coarse = taken("a", survey=clear(6)), taken("b", survey={("survey", "widths_mm", "0"): 2400.0})
    coarse = coarse._replace(by={"survey": "emil"})
    chances = _Chances((fine, coarse))
    for one, other in ((fine, coarse), (coarse, fine)):
        assert chances.of(one, other, "survey", ("survey", "widths_mm", "0")) == 0.95


def pair(number: int, off: int = 0) -> tuple[Question, ...]:
    """Two records with so many clear widths, all but some of them the same."""
    other = clear(number) | dict.fromkeys(list(clear(number))[:off], 1.0)
    both = (taken("a", survey=clear(number)), taken("b", survey=other))
    return tuple(_alike(both, _Chances(both)))


def test_two_records_are_alike_at_half_the_chance_of_a_false_alarm() -> None:
    """0.45 ^ 6 is above 0.005 and 0.45 ^ 7 below; of two records there is one pair."""
    assert pair(6) == ()
    (found,) = pair(7)
    assert found.chance == pytest.approx(0.45**7)
    assert (found.comparisons, found.facts) == (1, {"same": 7, "compared": 7})
    assert [spot.mark for spot in found.spots] == ["a", "b"]


def test_readings_that_do_not_agree_count_against_a_copy() -> None:
    assert pair(8, off=1) == ()
    (found,) = pair(12, off=1)
    assert found.chance == pytest.approx(12 * 0.45**11 * 0.55 + 0.45**12)
    assert found.facts == {"same": 11, "compared": 12}
    assert found.spots[0].path == ("survey", "widths_mm", "1")


def test_less_than_five_readings_are_no_copy() -> None:
    """Even where each of them hardly repeats."""
    for number, asked in ((4, False), (5, True)):
        both = (taken("a", survey=clear(number)), taken("b", 2500, survey=clear(number)))
        assert bool(tuple(_alike(both, _Chances(both)))) is asked
        assert bool(tuple(_block_alike("survey", both, _Chances(both), set()))) is asked


def blocks(same: int, others: int, number: int = 5) -> list[Question]:
    """Openings of which so many have one survey, and others another each."""
    all_ = [taken(f"s{at}", survey=clear(number)) for at in range(same)]
    all_ += [taken(f"o{at}", survey=clear(number, 2000 + 7 * at)) for at in range(others)]
    return list(_block_alike("survey", tuple(all_), _Chances(tuple(all_)), set()))


def test_a_block_alike_is_counted_over_all_blocks_openings_and_groups() -> None:
    """Three of four alike: 0.45 ^ (2 x 5) for each of 4 groups, five blocks and four openings."""
    assert blocks(2, 2) == []
    assert blocks(3, 1) == []
    assert blocks(1, 3) == []
    (found,) = blocks(4, 0)
    assert found.chance == pytest.approx(0.45**15 * 5 * 4)
    assert found.comparisons == 20
    (found,) = blocks(4, 1)
    assert found.chance == pytest.approx(0.45**15 * 5 * 5 * 5)
    assert found.facts == {"same": 5, "block": "survey"}
    assert found.openings == ("s0", "s1", "s2", "s3")


def test_blocks_of_records_that_were_asked_about_are_not_asked_about_again() -> None:
    all_ = tuple(taken(f"s{at}", survey=clear(6)) for at in range(4))
    pairs = {frozenset(two) for two in combinations(("s0", "s1", "s2", "s3"), 2)}
    assert list(_block_alike("survey", all_, _Chances(all_), pairs)) == []
    assert list(_block_alike("survey", all_, _Chances(all_), set(list(pairs)[1:]))) != []


def linked(*marks: str, chance: float) -> Question:
    return Question(
        "repeated", "records_alike", marks, tuple(Spot(mark, ("survey",)) for mark in marks), {}, chance
    )


def test_records_linked_by_being_alike_are_one_family_with_its_weakest_link() -> None:
    pairs = (linked("a", "b", chance=1e-9), linked("c", "d", chance=1e-8), linked("e", "f", chance=1e-7),
             linked("b", "c", chance=1e-6))  # fmt: skip
    first, second = _families(pairs, ("f", "e", "d", "c", "b", "a"))
    assert (first.openings, first.chance) == (("f", "e"), 1e-7)
    assert (second.openings, second.chance) == (("d", "c", "b", "a"), 1e-6)
    assert [spot.mark for spot in second.spots] == ["d", "c", "b", "a"]
