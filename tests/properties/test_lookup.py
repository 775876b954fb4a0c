"""Laws of looking up: names are compared by keys, and what was written is found by its words."""

from contextlib import closing
from pathlib import Path
from tempfile import TemporaryDirectory

from hypothesis import given, settings
from hypothesis import strategies as st

from revealbook.lookup.conditions import conditions
from revealbook.lookup.filed import Entry, FiledOpenings
from revealbook.lookup.find import find
from revealbook.lookup.index import fill, open_database
from revealbook.lookup.keys import key, pieces, tokens, words
from revealbook.lookup.question import Question
from revealbook.present.facts_record import OpeningFacts
from revealbook.rules.finding import Outcome

TEXTS = st.text(st.characters(codec="utf-8", exclude_categories=["C"]), max_size=60)
LETTERS = st.text(st.characters(categories=["L", "N"]), min_size=1, max_size=5)
WORDS = st.lists(
    st.from_regex(r"[a-zäöüß]{1,9}([-./]?[0-9]{1,4})?", fullmatch=True) | LETTERS, min_size=1, max_size=8
)


@given(TEXTS)
def test_what_stands_between_the_parts_of_a_name_does_not_matter(name: str) -> None:
    assert key(f" {key(name).replace('_', ' - ')} ") == key(name)


@given(TEXTS)
def test_words_and_their_pieces_are_tokens(text: str) -> None:
    found = tokens(text)
    for word in words(text):
        assert word in found
        assert set(pieces(word)) <= found


@given(TEXTS)
def test_tokens_hold_nothing_that_a_query_language_could_read(text: str) -> None:
    assert all(sign.isalnum() or sign == "_" for token in tokens(text) for sign in token)


@settings(max_examples=30, deadline=None)
@given(WORDS, st.text(max_size=30))
def test_what_was_written_is_found_by_its_words_in_any_order(written: list[str], other: str) -> None:
    text = " ".join(written)
    facts = OpeningFacts(site="elm", mark="W-1", outcome=Outcome.CONFORMS, texts=(text,))
    filed = FiledOpenings("elm", "Elm", "d", 1, (Entry(facts, 1, 1, latest=True, pack=""),))
    with TemporaryDirectory() as name, closing(open_database(Path(name), f"{name}/i.sqlite")) as index:
        fill(index, name, [filed])
        question = Question(" ".join(reversed(written)))
        asked = conditions(index, question)
        assert asked.place or not asked.words or find(index, question).unknown == ()
        find(index, Question(other))  # whatever somebody types is a question
