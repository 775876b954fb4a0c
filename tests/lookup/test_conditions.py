"""A question becomes conditions whose values stand apart from the statements."""

from revealbook.lookup.conditions import conditions
from revealbook.lookup.database import Database
from revealbook.lookup.question import Question


def test_no_value_stands_in_a_statement(index: Database) -> None:
    asked = conditions(index, Question(mark="nasty'1", serial="nasty'2", site="nasty'3"))
    assert not any("nasty" in text for text, _ in asked.plain)
    assert ("o.site = ?", ("nasty'3",)) in asked.plain
    assert ("o.mark_key = ?", ("nasty_1",)) in asked.plain


def test_idle_words_and_the_place_are_not_looked_for_in_texts(index: Database) -> None:
    asked = conditions(index, Question("the bedroom window in house B second floor"))
    assert asked.words == ("bedroom",)
    assert asked.place == {"building": "b", "floor": "2"}


def test_only_what_was_filed_last_is_asked_for_unless_told(index: Database) -> None:
    latest = ("o.latest = 1", ())
    assert latest in conditions(index, Question()).plain
    assert latest not in conditions(index, Question(all_versions=True)).plain


def test_a_batch_with_a_product_is_that_of_the_product(index: Database) -> None:
    [_, alone] = conditions(index, Question(batch="7714", product="frame-bond")).shared
    assert len(alone.terms) == 1
    other = conditions(index, Question(batch="7714", product="joint-foam")).shared[-1]
    assert other.terms == ()


def test_what_nothing_is_called_is_unknown(index: Database) -> None:
    asked = conditions(index, Question(batch="4711", person="ada"))
    assert [(one.what, one.asked) for one in asked.unknown] == [("batch", "4711")]


def test_words_can_be_left_out(index: Database) -> None:
    asked = conditions(index, Question("sill water"))
    assert asked.without(["water"]).words == ("sill",)
