"""The story of an opening tells what its record holds, and says of everything else that it is not shown."""

from tests.present import judging
from tests.present.judging import ENGLISH, Changes

from revealbook.present.story import CAUTION, Told, story
from revealbook.present.words import words_in


def told(changes: Changes | None = None, language: str = "en") -> dict[str, Told]:
    site = judging.site({"W-1.01": changes or {}})
    return {part.key: part for part in story(site.openings[0], site.site.site, words_in(language))}


def text(key: str, changes: Changes | None = None) -> str:
    return " ".join(told(changes)[key].sentences).replace("\u00a0", " ")


def test_parts_stand_in_the_order_of_the_work() -> None:
    assert list(told()) == [
        "opening", "frame", "fixings", "supports", "plinth", "window", "seals", "nonconformities", "open",
        "concessions",
    ]  # fmt: skip
    assert all(part.sentences for part in told().values())


def test_who_did_each_part_is_told_by_name_and_who_is_not_recorded_is_not_shown() -> None:
    assert "window Ada Laibung" in text("opening")
    assert text("opening", {"window.by": None}).endswith("Not shown: window.")


def test_work_that_was_not_called_for_is_not_asked_for() -> None:
    said = text("opening", {"supports.called_for": False, "supports.by": None, "plinth.used": False})
    assert "supports" not in said
    assert "plinth" not in said


def test_seals_are_told_in_the_order_of_time_with_batch_and_distance_from_dew_point() -> None:
    seals = told()["seals"].sentences
    assert [sentence.split(":")[0] for sentence in seals] == ["Inner tape", "Foam", "Trim", "Outer tape"]
    first = seals[0].replace("\u00a0", " ")
    assert "done 2026-11-20 10:20, Ada Laibung, Example Inner Tape, batch T-118" in first
    assert "surface 5.5 K above dew point" in first


def test_a_seal_later_in_the_list_but_earlier_in_time_is_told_first_and_one_without_time_last() -> None:
    changes = {"seals.events[3].at": "2026-11-20T08:00+01:00", "seals.events[0].at": None}
    seals = told(changes)["seals"].sentences
    assert [sentence.split(":")[0] for sentence in seals] == ["Outer tape", "Foam", "Trim", "Inner tape"]
    assert "Not shown: the time." in seals[-1]


def test_an_event_without_its_own_person_is_by_who_did_the_seals() -> None:
    said = text("seals", {"seals.by": "cleo", "seals.events[0].by": None})
    assert "10:20, Cleo Reveal" in said
    assert "11:00, Ada Laibung" in said


def test_no_seal_recorded_is_not_shown() -> None:
    assert text("seals", {"seals.events": None}) == "Seals: not shown (tapes, foam and trim)."


def test_a_nonconformity_is_told_with_what_was_found_and_what_is_required() -> None:
    said = text(
        "nonconformities",
        {"frame.pieces.bottom.overlap_left_mm": 62, "frame.pieces.bottom.overlap_right_mm": 102},
    )
    assert "W-1.01/1 " in said
    assert "past the opening" in said
    assert "left: 62 mm" in said
    assert "required: at least 80 mm" in said
    assert text("nonconformities") == "No rule was found not to conform."


def test_what_a_rule_could_not_see_is_told_as_not_shown() -> None:
    said = text("open", {"survey.sound": None})
    assert said.startswith("not shown: ")
    assert "was not recorded" in said
    assert text("open") == "Nothing is undecided or not shown."


def test_a_concession_is_told_with_who_accepted_it_and_until_when() -> None:
    said = text("concessions")
    assert said.startswith(
        "Concession on wall-plumb: Cleo Reveal, 2026-11-17 15:00, until 2026-11-19 00:00 only"
    )
    changes = {"concessions[0].accepted_by": None, "concessions[0].reason": None}
    assert "wall-plumb: nobody is named" in text("concessions", changes)
    assert "reason not shown" in text("concessions", changes)
    assert text("concessions", {"concessions": []}) == "No concession was recorded."


def test_the_caution_defers_to_codes_suppliers_and_licensed_practice() -> None:
    said = ENGLISH.say(CAUTION)
    assert all(word in said for word in ("indicative", "local codes", "supplier", "licensed"))


def test_a_german_story_has_no_english_heading() -> None:
    english, german = told(), told(language="de")
    same = [key for key in english if english[key].heading == german[key].heading]
    assert same == []
