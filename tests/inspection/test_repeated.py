from random import Random

from tests.inspection.asking import ask
from tests.inspection.planted import copied_readings, copied_record
from tests.inspection.simulated import honest

from revealbook.inspection.repeated import repeated


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
