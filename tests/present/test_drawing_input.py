from tests.present.judging import opening, site

from revealbook.present.drawing_input import ASSUMED_WIDTH_MM, ElevationInput, elevation_input, found_in
from revealbook.rules.finding import Outcome
from revealbook.rules.judged import JudgedOpening


def taken(judged: JudgedOpening) -> ElevationInput:
    given = elevation_input(judged.record.opening, site({}).site.site, found_in(judged))
    assert given is not None
    return given


def test_the_surveyed_size_is_drawn_and_the_nominal_one_only_without_a_survey() -> None:
    assert (taken(opening()).width_mm, taken(opening()).height_mm) == (2401, 1500)
    bare = taken(opening({"survey": None}))
    assert (bare.width_mm, bare.height_mm) == (2400, 1500)
    one_end = taken(opening({"survey.widths_mm": {"top": 2402}}))
    assert one_end.width_mm == 2402


def test_without_any_size_there_is_no_elevation() -> None:
    judged = opening({"survey": None, "opening.width_mm": None})
    assert elevation_input(judged.record.opening, site({}).site.site) is None


def test_positions_are_taken_as_recorded() -> None:
    given = taken(opening())
    bottom = given.pieces["bottom"]
    assert bottom is not None
    assert bottom.holes_mm == (180, 720, 1260, 1530, 1960, 2390)
    assert bottom.fixings_mm == (bottom.holes_mm,)
    assert (bottom.overlap_left_mm, bottom.length_mm, bottom.joints_mm) == (82, 2565, (1400,))
    assert [support.centre_mm for support in given.supports] == [310, 1290, 2260]
    assert given.load_points_mm == (300, 1282, 2265)
    assert given.plinth is not None
    assert given.plinth.brackets_mm == (100, 640, 1188, 1736, 2276)
    assert given.window is not None
    assert given.window.joints_mm is not None
    assert given.window.joints_mm["left"] == (12, 12, 11.5)


def test_what_is_not_recorded_stays_unknown() -> None:
    given = taken(opening({"frame.pieces.left": None, "frame.pieces.top.profile": None, "window": None}))
    assert given.pieces["left"] is None
    assert given.window is None
    top = given.pieces["top"]
    assert top is not None
    assert top.width_mm == ASSUMED_WIDTH_MM


def test_a_plinth_profile_that_is_not_used_is_not_drawn() -> None:
    assert taken(opening({"plinth.used": False})).plinth is None


def test_nonconformities_carry_their_number_in_the_list_and_other_outcomes_none() -> None:
    judged = opening({
        "frame.pieces.left.holes_mm": [175, 1325],
        "frame.corners.top_left.sealed": False,
        "window.bow_mm": None,
    })  # fmt: skip
    rules = [one.rule_id for one in judged.with_outcome(Outcome.DOES_NOT_CONFORM)]
    found = found_in(judged)
    by_number = {int(one.number): one.path for one in found if one.number}
    assert by_number[rules.index("corners-sealed") + 1] == ("frame", "corners", "top_left", "sealed")
    assert by_number[rules.index("fixing-centres") + 1] == ("frame", "pieces", "left", "holes_mm", 1)
    lacking = [one for one in found if one.outcome is Outcome.NOT_SHOWN]
    assert ("window", "bow_mm") in [one.path for one in lacking]
    assert {one.number for one in lacking} == {""}


def test_a_piece_is_left_out_if_that_is_stated_and_nothing_is_recorded_of_it() -> None:
    stated = {"left_out": [{"what": "mounting frame"}]}
    assert taken(opening(stated)).left_out == frozenset()
    assert taken(opening({**stated, "frame.pieces.top": None})).left_out == {"top"}
