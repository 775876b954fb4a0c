from collections import Counter
from collections.abc import Mapping

import pytest
from tests.present.judging import ENGLISH, PEOPLE, evening, opening

from revealbook.present.nonconformities import Entry, Point, entries, grouped, open_points
from revealbook.rules.finding import Outcome

SHORT_OVERLAP = {
    "frame.pieces.bottom.length_mm": 2561,
    "frame.pieces.bottom.overlap_left_mm": 77,
    "frame.pieces.bottom.overlap_right_mm": 78,
}
ACCEPTED = {
    "rule": "frame-overlap", "covers": "left end", "reason": "gas pipe", "accepted_by": "cleo",
    "at": "2026-11-24T10:00+01:00",
}  # fmt: skip


def breached(changes: Mapping[str, object], mark: str = "W-1.01") -> tuple[Entry, ...]:
    return entries(opening(changes, mark=mark), Outcome.DOES_NOT_CONFORM, ENGLISH, PEOPLE)


def test_a_conforming_opening_has_no_nonconformity() -> None:
    assert breached({}) == ()


def test_a_nonconformity_tells_what_to_do_about_what_and_why() -> None:
    (entry,) = breached(SHORT_OVERLAP)
    assert (entry.number, entry.mark, entry.rule_id) == ("W-1.01/1", "W-1.01", "frame-overlap")
    assert (entry.stage, entry.grade, entry.outcome_word) == (
        "Mounting frame",
        "critical",
        "does not conform",
    )
    assert entry.requirement == "The bottom piece runs at least 80 mm past the opening on each side."
    assert entry.remedy
    assert entry.why
    assert entry.accepted == ()
    assert entry.gone_on == ""


def test_every_point_names_part_value_limit_distance_and_place() -> None:
    (entry,) = breached(SHORT_OVERLAP)
    left, right = entry.points
    assert (left.subject, right.subject) == ("bottom, left", "bottom, right")
    assert left.found.replace("\u00a0", " ") == "77 mm, U = 1 mm"
    assert left.required.replace("\u00a0", " ") == "at least 80 mm"
    assert left.off_by.replace("\u00a0", " ") == "3 mm outside; under 0.1 % likely to be inside"
    assert left.path == ("frame", "pieces", "bottom", "overlap_left_mm")
    file, line, _column = left.place.split(":")
    assert file == "openings/W-1.01.yaml"
    assert right.place.startswith(f"{file}:{int(line) + 1}:")


def test_only_the_readings_that_gave_the_outcome_are_told() -> None:
    (entry,) = breached(
        {"frame.pieces.bottom.overlap_left_mm": 62, "frame.pieces.bottom.overlap_right_mm": 102}
    )
    assert [point.subject for point in entry.points] == ["bottom, left"]


def test_nonconformities_are_numbered_once_per_opening_in_the_order_of_the_work() -> None:
    changes = {**SHORT_OVERLAP, "survey.sound": False, "seals.events[1].without_voids": False}
    found = breached(changes, mark="B-2")
    assert [(entry.number, entry.rule_id) for entry in found] == [
        ("B-2/1", "substrate-sound"), ("B-2/2", "frame-overlap"), ("B-2/3", "foam-without-voids"),
    ]  # fmt: skip


def test_what_is_open_bears_no_number() -> None:
    (entry,) = entries(opening({"survey.sound": None}), Outcome.NOT_SHOWN, ENGLISH, PEOPLE)
    assert (entry.number, entry.rule_id) == ("", "substrate-sound")
    assert entry.points[0].found == "“whether it is sound” was not recorded"


def test_what_is_not_wrong_yet_is_not_to_be_put_right_but_looked_at() -> None:
    nearly = {"frame.pieces.bottom.overlap_left_mm": 80.5}
    (undecided,) = entries(opening(nearly), Outcome.UNDECIDED, ENGLISH, PEOPLE)
    (lacking,) = entries(opening({"survey.sound": None}), Outcome.NOT_SHOWN, ENGLISH, PEOPLE)
    assert undecided.remedy.startswith("Measure again with a finer instrument")
    assert lacking.remedy.startswith("Look, measure and record it while it can still be seen.")


def test_what_was_not_read_in_its_hour_is_not_to_be_measured_again() -> None:
    (near,) = entries(opening({"seals.events[0].surface_c": 6.6}), Outcome.UNDECIDED, ENGLISH, PEOPLE)
    unread = entries(opening({"seals.events[0].surface_c": None}), Outcome.NOT_SHOWN, ENGLISH, PEOPLE)
    assert near.rule_id == "surface-above-dew-point"
    assert {one.rule_id for one in unread} == {"surface-in-range", "surface-above-dew-point"}
    for entry in (near, *unread):
        assert entry.remedy.startswith("The moment is past and cannot be read again.")


def test_a_short_wait_says_when_work_could_have_gone_on() -> None:
    found = {entry.rule_id: entry for entry in breached({"seals.events[2].at": "2026-11-20T12:00+01:00"})}
    assert found["foam-set-before-trim"].gone_on == "The work could have gone on from 2026-11-20 15:06."


def test_a_concession_stands_beside_with_who_when_and_why_and_changes_nothing() -> None:
    (bare,) = breached(SHORT_OVERLAP)
    (entry,) = breached({**SHORT_OVERLAP, "concessions[0]": ACCEPTED})
    (accepted,) = entry.accepted
    assert (accepted.by, accepted.at, accepted.reason) == ("Cleo Reveal", "2026-11-24 10:00", "gas pipe")
    assert accepted.covers == "left end"
    assert accepted.place.startswith("openings/W-1.01.yaml:")
    assert (entry.outcome, entry.number) == (bare.outcome, bare.number)
    assert [point.found for point in entry.points] == [point.found for point in bare.points]


@pytest.mark.parametrize(
    ("given", "by", "at"),
    [
        ({"rule": "frame-overlap"}, "", ""),
        ({"rule": "frame-overlap", "accepted_by": "zoe"}, "zoe", ""),
        ({**ACCEPTED, "until": "2031-11-24T00:00+01:00"}, "Cleo Reveal",
         "2026-11-24 10:00, until 2031-11-24 00:00 only"),
    ],
)  # fmt: skip
def test_a_concession_says_no_more_than_was_recorded(given: dict[str, str], by: str, at: str) -> None:
    (entry,) = breached({**SHORT_OVERLAP, "concessions[0]": given})
    assert (entry.accepted[0].by, entry.accepted[0].at) == (by, at)


def test_a_concession_of_another_rule_stands_elsewhere() -> None:
    (entry,) = breached({**SHORT_OVERLAP, "concessions[0]": {**ACCEPTED, "rule": "wall-plumb"}})
    assert entry.accepted == ()


def test_concessions_never_change_a_count() -> None:
    without, beside = opening(SHORT_OVERLAP), opening({**SHORT_OVERLAP, "concessions[0]": ACCEPTED})
    entitled = Counter({Outcome.DOES_NOT_CONFORM: 1})
    assert without.counts[Outcome.DOES_NOT_CONFORM] == entitled[Outcome.DOES_NOT_CONFORM]
    assert beside.counts == without.counts


def _point(subject: str, found: str) -> Point:
    return Point(Outcome.NOT_SHOWN, subject, found, "", "", "", ())


def test_what_several_parts_share_is_said_once() -> None:
    points = [
        _point("left", "missing"),
        _point("right", "missing"),
        _point("", "6 mm"),
        _point("top", "7 mm"),
    ]
    assert grouped(points) == ("left; right: missing", "6 mm", "top: 7 mm")
    (entry,) = entries(
        opening({"frame.corners.top_left.sealed": None, "frame.corners.top_right.sealed": None}),
        Outcome.NOT_SHOWN, ENGLISH, PEOPLE,
    )  # fmt: skip
    assert entry.grouped == ("top left; top right: “whether it is sealed” was not recorded",)


def test_undecided_points_stand_before_what_was_not_shown() -> None:
    changes = {
        "survey.sound": None,
        "frame.pieces.bottom.overlap_left_mm": 80.5,
    }
    assert [(one.rule_id, one.outcome_word) for one in open_points(opening(changes), ENGLISH, PEOPLE)] == [
        ("frame-overlap", "undecided"), ("substrate-sound", "not shown"),
    ]  # fmt: skip


def test_what_is_not_yet_due_comes_last_and_asks_for_nothing_that_is_missed() -> None:
    found = open_points(opening({**evening(), "survey.sound": None}), ENGLISH, PEOPLE)
    assert (found[0].rule_id, found[0].due, found[0].outcome_word) == ("substrate-sound", True, "not shown")
    assert {(one.due, one.outcome_word) for one in found[1:]} == {(False, "not yet due")}
    assert all(one.remedy.startswith("Nothing is missed yet.") for one in found[1:])
