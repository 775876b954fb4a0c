"""What was found, against what and by how much, word by word."""

from datetime import timedelta
from math import inf

import pytest
from tests.present.judging import ENGLISH, judgement, lacking, taken
from tests.rules.changes import common_practice
from tests.rules.sets import in_force, rule, stated

from revealbook.measures.reading import Detail
from revealbook.present import found as said
from revealbook.rules.finding import Finding, Outcome
from revealbook.rules.limit import Limit

OVERLAP = rule()
NBSP = "\u00a0"
NOT_STATED = "is not stated in site.yaml for the product used, or no product was recorded"
PLUMB = "at most, by size: up to 500 mm: 3 mm; up to 1000 mm: 6 mm; up to 3000 mm: 8 mm; up to 6000 mm: 12 mm"
RULES = {held.id: held.rule for held in common_practice().rules}


def plain(text: str) -> str:
    return text.replace(NBSP, " ")


def found(finding: Finding, rule_id: str | None = None) -> str:
    return plain(said.found(finding, RULES[rule_id] if rule_id else OVERLAP, ENGLISH))


def required(rule_id: str) -> str:
    return plain(said.required(RULES[rule_id].limit, RULES[rule_id], ENGLISH))


def off_by(value: float, limit: Limit, probability: float | None = None) -> str:
    finding = taken(value, limit, margin=limit.margin(value), probability=probability)
    return plain(said.off_by(finding, OVERLAP, ENGLISH))


@pytest.mark.parametrize(
    ("value", "words"),
    [(79.96, "79.96 mm"), (80.04, "80.04 mm"), (80, "80 mm"), (62, "62 mm"), (inf, "none")],
)
def test_a_value_is_never_rounded_onto_its_limit(value: float, words: str) -> None:
    assert found(taken(value, Limit(low=80))) == words


def test_of_two_limits_the_nearer_one_counts() -> None:
    assert found(taken(199.96, Limit(low=150, high=200))) == "199.96 mm"
    assert found(taken(150.04, Limit(low=150, high=200))) == "150.04 mm"


def test_the_hole_centres_of_a_record_are_told_to_the_tenth_that_decides() -> None:
    centres = judgement("fixing-centres", {"frame.pieces.left.holes_mm": [175, 874.6, 1325]})
    assert found(centres.findings[5], "fixing-centres") == "699.6 mm (from 175 mm, to 874.6 mm), U = 1.4 mm"
    beyond = judgement("fixing-centres", {"frame.pieces.left.holes_mm": [175, 875.04, 1325]})
    assert beyond.outcome is Outcome.UNDECIDED
    assert found(beyond.findings[5], "fixing-centres") == "700.04 mm (from 175 mm, to 875 mm), U = 1.4 mm"


def test_numbers_beside_each_other_do_not_seem_equal_either() -> None:
    details = (Detail("waited_h", 3.97, "h"), Detail("needed_h", 4.0, "h"), Detail("hole_mm", 4.0, "mm"))
    assert found(taken(-0.03, Limit(low=0), details=details), "foam-set-before-trim") == (
        "waited 3.97 h, needed 4 h, hole at 4 mm"
    )


def test_a_truth_value_a_choice_and_an_uncertainty_have_their_words() -> None:
    assert found(taken(value=True), "corners-sealed") == "yes"
    assert found(taken(value=False), "corners-sealed") == "no"
    assert found(taken("set without moving"), "full-contact") == "set without moving"
    assert found(taken(81.0, Limit(low=80), uncertainty=1.0)) == "81 mm, U = 1 mm"


def test_details_say_moments_answers_and_texts() -> None:
    details = (
        Detail("from", "2026-11-20T11:00:00+01:00", "-"),
        Detail("needs_primer", True, "yes/no"),
        Detail("by", "ada", "-"),
        Detail("used", "T-118", "-"),
    )
    assert found(taken(90.0, Limit(low=80), details=details)) == (
        "90 mm (from 2026-11-20 11:00, whether a primer is asked for yes, by ada, used on T-118)"
    )


@pytest.mark.parametrize(
    ("what", "path", "words"),
    [
        ("air_c", ("seals", "events", 1, "air_c"), "“air temperature” was not recorded"),
        ("floor_mm", (), "“floor_mm” was not recorded"),
        ("product", ("frame", "bonding", 0, "product"), "“product” was not recorded"),
        (
            "air_min_c",
            ("frame", "bonding", 0, "product"),
            f"“lowest air temperature allowed” {NOT_STATED}",
        ),
        (
            "profile_width_mm",
            ("frame", "pieces", "left", "profile"),
            f"“width of the profile” {NOT_STATED}",
        ),
        ("foam", ("seals", "events"), "no foam was recorded"),
        ("beyond_last_step", ("opening", "width_mm"), "no limit is stated for this size"),
        ("waits_table_unusable", (), "the product's table of waits in site.yaml does not hold together"),
    ],
)
def test_what_is_missing_is_named(what: str, path: tuple[str | int, ...], words: str) -> None:
    assert found(lacking(what, *path)) == words


def test_weather_outside_a_table_of_waits_is_told_with_the_table() -> None:
    details = (Detail("read", -2.0, "degC"), Detail("lowest", 0.0, "degC"), Detail("highest", 30.0, "degC"))
    assert found(lacking("climate_outside_table", "seals", details=details)) == (
        "the weather (−2 °C) lies outside the product's table of waits (0 °C to 30 °C)"
    )


@pytest.mark.parametrize(
    ("rule_id", "words"),
    [
        ("frame-overlap", "at least 80 mm"),
        ("fixing-centres", "at most 700 mm"),
        ("bottom-length", "160 to 175 mm"),
        ("hole-diameter", "8 mm"),
        ("corners-sealed", "yes"),
        ("full-contact", "pressed and shifted"),
        ("wall-plumb", PLUMB),
        ("air-in-range", "as the data sheet states"),
        ("holes-filled", "at most 0"),
    ],
)  # fmt: skip
def test_what_a_rule_asks_for_is_said_whole(rule_id: str, words: str) -> None:
    assert required(rule_id) == words


def test_words_to_choose_from_are_joined_with_or_and_least_values_by_size_are_told() -> None:
    choice = rule(measure="seating", unit="choice", one_of=["pressed", "pressed and shifted"])
    assert said.required(choice.limit, choice, ENGLISH) == "pressed or pressed and shifted"
    sized = rule(at_least_by="nominal_height", steps=[{"up_to": 1000, "limit": 60}])
    assert plain(said.required(sized.limit, sized, ENGLISH)) == "at least, by size: up to 1000 mm: 60 mm"
    assert said.required(None, sized, ENGLISH) == "by size"
    assert said.required(None, OVERLAP, ENGLISH) == ""


@pytest.mark.parametrize(
    ("value", "words"),
    [
        (62, "18 mm outside"),
        (79.99, "0.01 mm outside"),
        (80, "exactly on the limit"),
        (80 - 1e-12, "exactly on the limit"),
        (82, "2 mm inside"),
        (inf, ""),
    ],
)
def test_the_distance_from_the_limit_is_told_with_its_side(value: float, words: str) -> None:
    assert off_by(value, Limit(low=80)) == words


@pytest.mark.parametrize(
    ("probability", "words"),
    [
        (0.0000001, "2 mm inside; under 0.1 % likely to be inside"),
        (0.342, "2 mm inside; 34.2 % likely to be inside"),
        (0.99999, "2 mm inside; over 99.9 % likely to be inside"),
    ],
)
def test_a_probability_is_told_but_never_as_certainty(probability: float, words: str) -> None:
    assert off_by(82, Limit(low=80), probability=probability) == words


def test_what_has_no_distance_has_no_words_for_it() -> None:
    assert said.off_by(taken(value=True), OVERLAP, ENGLISH) == ""
    assert said.off_by(lacking("air_c"), OVERLAP, ENGLISH) == ""


def brief(rule_id: str, *findings: Finding) -> str:
    return plain(said.brief(findings, RULES[rule_id], ENGLISH))


def test_one_reading_is_told_with_its_part_and_details() -> None:
    details = (Detail("from_mm", 175.0, "mm"),)
    only = taken(700.0, Limit(high=700), subject=("left", "hole 1-2"), details=details)
    assert brief("fixing-centres", only) == "left, hole 1–2: 700 mm (from 175 mm)"
    assert brief("corners-sealed", taken(value=True)) == "yes"


def test_many_readings_are_told_by_part_and_equal_ones_once() -> None:
    limit = Limit(high=700)
    findings = (
        taken(540.0, limit, subject=("bottom", "hole 1-2")),
        taken(570.0, limit, subject=("bottom", "hole 2-3")),
        taken(575.0, limit, subject=("left", "hole 1-2")),
        taken(575.0, limit, subject=("left", "hole 2-3")),
        taken(575.0, limit, subject=("right", "hole 1-2")),
        lacking("holes_mm", "frame", subject=("top",)),
    )
    assert brief("fixing-centres", *findings) == (
        "bottom: 540 mm, 570 mm; left, right: 575 mm; top: “positions of the holes” was not recorded"
    )


def test_readings_of_the_opening_as_a_whole_need_no_part() -> None:
    assert brief("corners-sealed", taken(value=True), taken(value=True)) == "yes"


def test_margins_to_a_data_sheet_carry_their_sign() -> None:
    limit = Limit(low=0)
    findings = (taken(3.5, limit, subject=("foam",)), taken(-1.0, limit, subject=("inner tape",)))
    assert brief("air-in-range", *findings) == "foam: +3.5 K; inner tape: −1 K"


def test_a_limit_shared_by_all_sizes_is_shown_alone_else_the_whole_table() -> None:
    plumb = judgement("wall-plumb")
    shown = said.limit_in_force(plumb.findings, plumb.held.rule, ENGLISH)
    assert plain(shown) == "at most 8 mm"
    mixed = (taken(1.0, Limit(high=3)), taken(1.0, Limit(high=6)))
    assert plain(said.limit_in_force(mixed, RULES["wall-plumb"], ENGLISH)).startswith(
        "at most, by size: up to 500"
    )


def test_a_site_s_own_limit_is_said_after_the_requirement() -> None:
    overlay = {"change": [{"id": "frame-overlap", "at_least": 100, "basis": {"kind": "common practice"},
                           "reason": "wider profile"}]}  # fmt: skip
    (changed,) = in_force(stated(), overlays=(overlay,)).rules
    assert plain(said.requirement(changed, ENGLISH)) == (
        "The bottom piece runs at least 80 mm past the opening on each side. On this site: at least 100 mm."
    )
    (base,) = in_force(stated()).rules
    assert said.requirement(base, ENGLISH) == OVERLAP.requirement


def gone_on(rule_id: str, trim: str = "") -> str:
    told = judgement(rule_id, {"seals.events[2].at": trim} if trim else {})
    return said.could_have_gone_on(told.findings, ENGLISH)


def test_a_wait_that_was_too_short_names_the_moment_from_which_it_would_have_been_enough() -> None:
    too_early = judgement("foam-set-before-trim", {"seals.events[2].at": "2026-11-20T12:00+01:00"})
    (finding,) = too_early.findings
    assert too_early.outcome is Outcome.DOES_NOT_CONFORM
    needed = next(detail.value for detail in finding.details if detail.name == "needed_h")
    assert isinstance(needed, float)
    assert timedelta(hours=4, minutes=5) < timedelta(hours=needed) < timedelta(hours=4, minutes=6)
    assert said.could_have_gone_on([finding], ENGLISH) == "The work could have gone on from 2026-11-20 15:06."


def test_a_wait_that_was_kept_or_ended_before_it_began_names_no_moment() -> None:
    assert gone_on("foam-set-before-trim") == ""
    assert gone_on("foam-set-before-trim", trim="2026-11-20T10:30+01:00") == ""
    assert gone_on("frame-overlap") == ""


def test_of_several_waits_the_longest_one_decides_when_work_could_have_gone_on() -> None:
    covered = judgement("covered-after-waits", {"covering.at": "2026-11-20T17:00+01:00"})
    waits = {finding.subject: said.could_have_gone_on([finding], ENGLISH) for finding in covered.findings}
    assert len(set(waits.values())) > 2
    for findings in (covered.findings, covered.findings[::-1]):
        assert said.could_have_gone_on(findings, ENGLISH) == max(waits.values())


def test_a_wait_that_was_never_reckoned_names_no_moment() -> None:
    details = (Detail("from", "2026-11-20T11:00:00+01:00", "-"), Detail("needed_h", 0.0, "h"))
    backwards = taken(-2.0, Limit(low=0), details=details, margin=-2.0)
    assert said.could_have_gone_on([backwards], ENGLISH) == ""


def test_a_moment_beyond_the_calendar_is_not_named() -> None:
    details = (Detail("from", "9999-12-31T20:00:00+00:00", "-"), Detail("needed_h", 9000.0, "h"))
    late = taken(-1.0, Limit(low=0), details=details, margin=-1.0)
    assert said.could_have_gone_on([late], ENGLISH) == ""
