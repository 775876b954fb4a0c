"""Frame, fixings, supports, plinth and window are told from the record, each length as it was read."""

import pytest
from tests.present import judging
from tests.present.judging import ENGLISH, Changes

from revealbook.present import story_work
from revealbook.present.story_phrases import Teller


def lines(part: str, changes: Changes | None = None) -> list[str]:
    site = judging.site({"W-1.01": changes or {}})
    teller = Teller.of(site.site.site, ENGLISH)
    said = getattr(story_work, part)(site.openings[0].record.opening, teller)
    return [sentence.replace("\u00a0", " ") for sentence in said]


def test_a_frame_piece_is_told_with_length_overlaps_joints_and_beads() -> None:
    assert lines("frame")[0] == (
        "Frame piece, bottom: length 2565 mm, overlap on the left 82 mm, overlap on the right 82 mm, "
        "joined lengthwise at 1400 mm, 2 beads, running through, pressed and shifted."
    )


def test_side_pieces_are_not_asked_for_overlaps() -> None:
    assert lines("frame")[1] == (
        "Frame piece, left: length 1500 mm, 2 beads, running through, pressed and shifted."
    )


def test_the_adhesive_is_told_with_batch_times_and_weather() -> None:
    said = lines("frame")[4]
    assert said.startswith(
        "Adhesive: Example Frame Bond, batch 0412, use by 2027-03-31, first bead laid 2026-11-19"
    )
    assert "surface 4.1 K above dew point" in said


def test_a_surface_below_dew_point_is_said_to_be_below() -> None:
    assert "below dew point" in lines("frame", {"frame.bonding[0].surface_c": 1.0})[4]


def test_a_distance_from_dew_point_that_cannot_be_reckoned_is_not_shown() -> None:
    said = lines("frame", {"frame.bonding[0].rh_pct": None})[4]
    assert said.endswith("Not shown: relative humidity, distance from dew point.")


def test_a_batch_that_was_not_recorded_is_not_shown() -> None:
    said = lines("frame", {"frame.bonding[0].batches[0].number": None})[4]
    assert said.endswith("Not shown: batch.")


def test_without_a_frame_every_piece_and_the_adhesive_are_not_shown() -> None:
    said = lines("frame", {"frame": None})
    assert len(said) == 5
    assert all(": not shown (" in one for one in said)


def test_fixings_are_told_with_number_product_centres_and_embedment() -> None:
    assert lines("fixings")[0] == (
        "Frame piece, bottom: 6 fixings, Example Frame Screw 7.5 x 182, centres 270 to 540 mm, "
        "embedment 62 mm."
    )


def test_positions_in_several_sets_make_one_line_of_fixings() -> None:
    first = {"at_mm": [180, 720], "product": "frame-screw-7.5", "embedment_mm": 62}
    second = {"at_mm": [450], "product": "frame-screw-7.5", "embedment_mm": 50}
    said = lines("fixings", {"frame.pieces.left.fixings": [first, second]})[1]
    assert "3 fixings" in said
    assert "centres 270 mm" in said
    assert "embedment 50 to 62 mm" in said


def test_what_lacks_for_some_fixings_is_not_hidden_behind_the_others() -> None:
    sets = [{"at_mm": [180, 720], "embedment_mm": 62}, {"product": "frame-screw-7.5"}]
    said = lines("fixings", {"frame.pieces.left.fixings": sets})[1]
    assert said.endswith("Not shown: positions of some fixings, embedment of some fixings.")


def test_supports_that_are_not_called_for_are_told_in_one_sentence() -> None:
    assert lines("supports", {"supports.called_for": False}) == [
        "The window's drawing calls for no supports."
    ]


def test_every_support_is_told() -> None:
    said = lines("supports")
    assert len(said) == 3
    assert said[0] == (
        "Support 1: position of the middle 310 mm, length 150 mm, gap 0 mm, 2 beads, running through, "
        "fixed to the wall, Example Frame Screw 7.5 x 182, embedment 60 mm."
    )


@pytest.mark.parametrize(
    ("placed", "said"),
    [(None, "Supports: not shown (supports as placed)."), ([], "No support was placed.")],
)
def test_supports_not_recorded_and_none_placed_are_different_things(placed: object, said: str) -> None:
    assert lines("supports", {"supports.placed": placed}) == [said]


def test_a_plinth_is_told_with_its_brackets() -> None:
    [said] = lines("plinth")
    assert "length 2376 mm, fitted 2026-11-20 07:50, bonded airtight" in said
    assert "5 brackets, centres 540 to 548 mm, fixed to the wall" in said


def test_a_bracket_that_nobody_says_is_fixed_leaves_all_of_them_not_shown() -> None:
    [said] = lines("plinth", {"plinth.brackets[1].fixed_to_wall": None})
    assert said.endswith("Not shown: whether it is fixed to the wall.")
    [said] = lines("plinth", {"plinth.brackets[1].fixed_to_wall": False})
    assert "not fixed to the wall" in said


def test_a_window_without_plinth_is_told_so() -> None:
    assert lines("plinth", {"plinth.used": False}) == ["This window has no plinth profile."]


def test_the_window_is_told_with_size_mass_and_when_and_how_it_was_fixed() -> None:
    said = lines("window")
    assert said[0] == (
        "Window: width 2376 mm, height 1436 mm, mass of the window 148 kg, set 2026-11-20 08:30, "
        "secured 2026-11-20 09:40, fixed by screws through its frame."
    )
    assert said[1].startswith("Window fixed, left: 3 fixings, Example Window Screw 7.5 x 112, centres 538 mm")
    assert said[-1] == (
        "Joint to the mounting frame: left 11.5 to 12 mm, right 12 to 12.5 mm, top 12 to 12.5 mm, "
        "bottom 10 mm."
    )


def test_a_joint_read_at_fewer_places_says_so() -> None:
    said = lines("window", {"window.joint_widths_mm.left.middle": None})[-1]
    assert "left 11.5 to 12 mm (read at 2 of 3 places)" in said
    said = lines("window", {"window.joint_widths_mm.left": None})[-1]
    assert said.endswith("Not shown: left.")


def test_window_fixings_that_were_not_recorded_are_not_shown() -> None:
    assert lines("window", {"window.fixings": None})[0].endswith("Not shown: fixings.")
