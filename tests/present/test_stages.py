"""The rules on a sheet: by stage, what is open with its limit, what conforms with its readings."""

from dataclasses import replace

from tests.present import judging
from tests.present.judging import Changes
from tests.rules.changes import common_practice

from revealbook.present.stages import Stage, stages
from revealbook.present.words import words_in
from revealbook.rules.finding import Outcome
from revealbook.rules.rule import STAGES

BREACH = {"frame.pieces.bottom.overlap_left_mm": 62, "frame.pieces.bottom.overlap_right_mm": 102}


def made(changes: Changes | None = None, language: str = "en") -> tuple[Stage, ...]:
    return stages(judging.opening(changes), {"frame-overlap": "W-1.01/1"}, words_in(language))


def stage(name: str, changes: Changes | None = None) -> Stage:
    return next(one for one in made(changes) if one.name == name)


def plain(text: str) -> str:
    return text.replace("\u00a0", " ")


def readings_of(said: str, shown: Stage) -> str:
    return plain(next(readings for requirement, readings in shown.conforming if requirement.startswith(said)))


def test_rules_stand_by_stage_in_the_order_of_the_work_with_their_counts() -> None:
    judged, shown = judging.opening(BREACH), made(BREACH)
    assert [one.name for one in shown][:3] == ["Survey", "Mounting frame", "Supports"]
    assert len(shown) == len({one.held.rule.stage for one in judged.judgements} & set(STAGES))
    for one in shown:
        by_outcome = {count.outcome: count.number for count in one.counts}
        conforming = len(one.conforming) + len(one.as_required)
        assert conforming == by_outcome[Outcome.CONFORMS]
        applying = sum(by_outcome.values()) - by_outcome[Outcome.DOES_NOT_APPLY]
        assert len(one.open) + conforming == applying
    assert sum(count.number for one in shown for count in one.counts) == len(judged.judgements)


def test_what_is_open_bears_its_number_its_limit_and_every_reading() -> None:
    (row,) = stage("Mounting frame", BREACH).open
    assert (row.rule_id, row.number, row.outcome_word) == ("frame-overlap", "W-1.01/1", "does not conform")
    assert plain(row.required) == "at least 80 mm"
    assert plain(row.readings) == "bottom: 62 mm, 102 mm"


def test_what_conforms_stands_with_every_reading_and_no_number() -> None:
    assert stage("Mounting frame").open == ()
    assert readings_of("The bottom piece runs", stage("Mounting frame")) == "bottom: 82 mm"


def test_a_limit_by_size_is_told_beside_the_sentence_that_names_all_of_them() -> None:
    requirement = next(one for one, _ in stage("Survey").conforming if one.startswith("The wall face"))
    assert plain(requirement).endswith("Here: at most 8 mm.")


def test_a_limit_that_the_sentence_names_is_not_told_again() -> None:
    for shown in (made(), made(language="de")):
        supports = [one for one, _ in shown[2].conforming]
        assert supports
        assert not [one for one in supports if "Here:" in one or "Hier:" in one]


def test_a_question_answered_as_required_stands_as_a_sentence_any_other_answer_as_a_row() -> None:
    asked = "The substrate is clean, without oil, old paint or debris."

    def survey(clean: object) -> tuple[bool, bool]:
        shown = stage("Survey", {"survey.clean": clean})
        return asked in shown.as_required, "substrate-clean" in {row.rule_id for row in shown.open}

    assert survey(clean=True) == (True, False)
    assert survey(clean=False) == (False, True)
    assert survey(clean=None) == (False, True)


def test_what_rules_a_rule_out_is_told_once_for_all_that_share_it() -> None:
    (told,) = stage("Supports", {"supports.called_for": False}).not_applying
    assert "support-length" in told
    assert told.startswith("ruled out: ")
    assert ".:" not in told


def test_rules_that_the_buildings_set_does_not_hold_are_told_in_words() -> None:
    rules = common_practice()
    held = tuple(replace(one, left_out_by="less") if one.id == "two-beads" else one for one in rules.rules)
    found = stages(judging.opening(rules=replace(rules, rules=held)), {}, words_in("en"))
    (told,) = (line for one in found for line in one.not_applying if "less" in line)
    assert told == "not a rule of less, by which this building is judged: two-beads"


def test_a_rule_about_what_is_not_there_says_so() -> None:
    changes: Changes = {f"frame.pieces.{piece}.lengthwise_joints": [] for piece in ("bottom", "top")}
    told = stage("Mounting frame", changes).not_applying
    assert any(one.startswith("nothing of this kind on this opening: ") for one in told)
