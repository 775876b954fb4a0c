import json
from typing import Any

from tests.present.judging import ENGLISH, document, site

from revealbook.inspection.compare import OpeningCompared, compare
from revealbook.inspection.draw import Chosen
from revealbook.inspection.lot_result import lot_result
from revealbook.inspection.sample import sample_site
from revealbook.present.compared import Comparison, comparison, comparison_data, lot_sentence
from revealbook.records.record import Sheet
from revealbook.records.remeasurement import Remeasurement

SITE = site({mark: {} for mark in ("W-1", "W-2")})
TAPE = {"id": "tape-c", "measures": "length", "uncertainty": 0.5}


def read(mark: str, readings: dict[str, Any]) -> tuple[OpeningCompared, ...]:
    stated = {"site": "alder-yard", "mark": mark, "by": "cleo", "instruments": [TAPE], "readings": readings}
    sheet = Sheet.of(document(stated, "again.yaml"))
    return compare(SITE, [(Remeasurement.model_validate(stated), sheet)])


def said(compared: tuple[OpeningCompared, ...]) -> Comparison:
    lot = lot_result(sample_site(SITE, "1.0", 1, (), Chosen()), compared)
    return comparison(SITE, compared, lot, ENGLISH)


SHORT = {"frame": {"pieces": {"bottom": {"overlap_left_mm": 62}}}}


def test_a_reading_that_differs_is_told_with_its_distance_and_uncertainty() -> None:
    (opening,) = said(read("W-1", SHORT)).openings
    (row,) = opening.rows
    assert row.cells[0] == "Mounting frame, bottom, overlap on the left"
    assert row.cells[1:] == ("82", "62", "−20", "1.1", "differs")
    assert opening.verdict == (
        "Nonconforming in the sample: 1 reading differs; 2 findings do not conform by the new values."
    )
    assert [rule for rule, *_ in opening.breached] == ["frame-overlap", "overlaps-add-up"]
    assert dict(opening.facts)["Measured by"] == "Cleo Reveal"
    assert dict(opening.facts)["Instruments"] == "tape-c (length, U = 0.5)"


def test_a_larger_value_is_written_with_its_sign() -> None:
    compared = read("W-1", {"frame": {"pieces": {"bottom": {"overlap_left_mm": 83}}}})
    (opening,) = said(compared).openings
    assert opening.rows[0].difference == "+1"
    assert opening.verdict.startswith("Conforms in the sample")


def test_an_opening_in_which_nothing_was_read_says_so() -> None:
    (opening,) = said(read("W-1", {})).openings
    assert opening.verdict == "Nothing was read again that could be judged."


def test_the_lot_is_rejected_in_one_sentence() -> None:
    found = said(read("W-1", SHORT))
    assert found.lot == "The lot is rejected: 1 of 2 openings nonconforming, 0 allowed."
    assert found.lot_notes[:2] == ("Nonconforming: W-1.", "Not measured again: W-2.")


def test_a_lot_of_which_something_is_missing_is_open() -> None:
    good = read("W-1", {"frame": {"pieces": {"bottom": {"overlap_left_mm": 82}}}})
    lot = lot_result(sample_site(SITE, "1.0", 1, (), Chosen()), good)
    assert lot_sentence(lot, ENGLISH) == (
        "The lot is neither accepted nor rejected yet: 0 of 2 openings nonconforming, 0 allowed, and 1 still "
        "to be measured again."
    )


def test_machines_get_unrounded_values() -> None:
    compared = read("W-1", SHORT)
    lot = lot_result(sample_site(SITE, "1.0", 1, (), Chosen()), compared)
    data = json.loads(json.dumps(comparison_data(SITE, compared, lot)))
    assert data["format"] == "revealbook-comparison-1"
    (reading,) = data["openings"][0]["readings"]
    assert reading["path"] == ["frame", "pieces", "bottom", "overlap_left_mm"]
    assert abs(reading["uncertainty"] - 1.25**0.5) < 1e-12
    assert data["lot"]["decision"] == "rejected"
    again = {one["rule"]: (one["before"], one["outcome"]) for one in data["openings"][0]["rules"]}
    assert again["frame-overlap"] == ("conforms", "does not conform")
    assert "lot" not in comparison_data(SITE, compared, None)
