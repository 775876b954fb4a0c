import re
from datetime import UTC, date, datetime
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.builders import full_opening, full_site

from revealbook.records.blank import blank
from revealbook.records.opening import Opening
from revealbook.records.site import Site
from revealbook.source.read import Document, read_bytes
from revealbook.source.validate import validate

TEXT = st.text(st.characters(codec="utf-8", exclude_categories=("Cs", "Cc")), min_size=1)


def data_of(text: str) -> Document:
    document = read_bytes(text.encode(), "f.yaml")
    assert isinstance(document, Document), document
    return document


def told(data: Any) -> Any:
    """Leave out what says nothing: empty keys, and sections of which every key is empty."""
    if isinstance(data, dict):
        kept = {key: told(value) for key, value in data.items()}
        return {key: value for key, value in kept.items() if value is not None and value != {}}
    return [told(item) for item in data] if isinstance(data, tuple) else data


def test_every_key_stands_in_a_blank_record() -> None:
    text = blank(Opening)
    for key in ("mark", "out_of_flat_mm", "overlap_left_mm", "load_points_mm", "events", "sign_offs"):
        assert f"{key}:" in text


def test_every_line_says_what_to_enter() -> None:
    lines = blank(Opening).splitlines()
    assert all("#" in line for line in lines)


def test_what_is_not_known_stays_empty() -> None:
    assert data_of(blank(Opening)).data["survey"]["moisture_pct"] is None


def test_lists_of_sections_stand_as_a_comment_until_its_signs_are_taken_away() -> None:
    text = blank(Opening, {"opening": {"mark": "A"}})
    assert "events" not in (data_of(text).data["seals"] or {})
    held = validate(Opening, data_of(re.sub(r"(?m)^( *)# ", r"\1", text)))
    assert isinstance(held, Opening), held
    assert held.seals is not None
    assert held.seals.events is not None
    assert held.seals.events[0].step == "foam"
    assert held.sign_offs is not None


@pytest.mark.parametrize(("model", "data"), [(Opening, full_opening()), (Site, full_site())])
def test_a_full_file_written_out_says_the_same(model: Any, data: Any) -> None:
    held = model.model_validate(data)
    written = validate(model, data_of(blank(model, held.model_dump(exclude_none=True))))
    assert not isinstance(written, tuple), written
    assert told(written.model_dump()) == told(held.model_dump())


def test_a_long_value_is_kept_apart_from_what_is_said_of_it() -> None:
    room = "a room with a name that runs past the column of comments"
    text = blank(Opening, {"opening": {"mark": "A", "room": room}})
    assert data_of(text).data["opening"]["room"] == room


def test_moments_and_days_are_written_as_they_are_read() -> None:
    known = {
        "opening": {"mark": "A"},
        "covering": {"at": datetime(2026, 11, 26, 8, tzinfo=UTC)},
        "frame": {"bonding": [{"batches": [{"expires": date(2027, 3, 31)}]}]},
    }
    held = validate(Opening, data_of(blank(Opening, known)))
    assert isinstance(held, Opening), held
    assert held.covering is not None
    assert held.covering.at == datetime(2026, 11, 26, 8, tzinfo=UTC)


@pytest.mark.slow
@given(TEXT.map(str.strip).filter(bool))
@settings(max_examples=200, deadline=None)
def test_any_text_comes_back_as_it_was(room: str) -> None:
    held = validate(Opening, data_of(blank(Opening, {"opening": {"mark": "A", "room": room}})))
    assert isinstance(held, Opening), held
    assert held.opening.room == room


PLANNED = {
    ("frame", "pieces", "bottom", "length_mm"): "1390",
    ("frame", "pieces", "bottom", "lengthwise_joints"): "1500",
    ("supports", "placed"): "2, middle at 390, 1000",
}


def test_what_is_planned_stands_in_comments_and_is_no_value() -> None:
    known = {"opening": {"mark": "A"}}
    planned = blank(Opening, known, PLANNED)
    assert data_of(planned).data == data_of(blank(Opening, known)).data
    comments = [line.partition("#")[2] for line in planned.splitlines() if "planned" in line]
    assert [comment.split("planned ")[1].split(". ")[0] for comment in comments] == list(PLANNED.values())


def test_only_the_key_planned_for_is_commented() -> None:
    text = blank(Opening, {"opening": {"mark": "A"}}, {("frame", "pieces", "left", "length_mm"): "1480"})
    (line,) = (line for line in text.splitlines() if "planned" in line)
    assert line.lstrip().startswith("length_mm:")
    assert "e.g." not in line


def test_a_section_in_which_nothing_is_filled_in_stands_as_a_comment_like_its_lists() -> None:
    assert re.search(r"(?m)^# products: ", blank(Site))
    known = {"products": {"tapes": [{"id": "t"}]}}
    assert re.search(r"(?m)^products: ", blank(Site, known))
