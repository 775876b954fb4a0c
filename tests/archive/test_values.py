from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from revealbook.archive.values import said, values_that_differ

PLAIN = st.recursive(
    st.none() | st.booleans() | st.integers(-5, 5) | st.text("ab", max_size=3),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text("ab", max_size=2), inner, max_size=3),
    max_leaves=8,
)


def differ(before: Any, after: Any) -> list[tuple[str, str | None, str | None]]:
    return list(values_that_differ(before, after))


@given(PLAIN)
def test_nothing_differs_from_itself(data: Any) -> None:
    assert differ(data, data) == []


@given(PLAIN, PLAIN)
def test_looking_from_the_other_side_changes_before_and_after(one: Any, other: Any) -> None:
    turned = [(path, after, before) for path, before, after in differ(other, one)]
    assert sorted(differ(one, other), key=repr) == sorted(turned, key=repr)


@given(PLAIN, PLAIN)
def test_two_documents_that_are_said_differently_differ(one: Any, other: Any) -> None:
    assert bool(differ(one, other)) == (repr_sorted(one) != repr_sorted(other))


def repr_sorted(data: Any) -> str:
    if isinstance(data, dict):
        return "of keys" + repr(sorted((key, repr_sorted(value)) for key, value in data.items()))
    return repr([repr_sorted(item) for item in data]) if isinstance(data, list) else repr(data)


@pytest.mark.parametrize(
    ("before", "after", "found"),
    [
        ({"a": 1}, {"a": 2}, ("a", "1", "2")),
        ({"a": {"b": "x"}}, {"a": {}}, ("a.b", "x", None)),
        ({"a": [1, 2]}, {"a": [1, 3]}, ("a[2]", "2", "3")),
        ({"a": True}, {"a": 1}, ("a", "true", "1")),
        ({"a": None}, {}, ("a", "null", None)),
        ([{"id": "x", "v": 1}, {"id": "y"}], [{"id": "y"}, {"id": "x", "v": 2}], ("[x].v", "1", "2")),
    ],
)
def test_a_value_is_told_with_its_path(before: Any, after: Any, found: tuple[str, str, str]) -> None:
    assert differ(before, after) == [found]


def test_a_number_written_otherwise_is_the_same_number() -> None:
    assert differ({"a": 80}, {"a": 80.0}) == []


def test_items_with_one_name_twice_are_numbered() -> None:
    twice = [{"id": "x", "v": 1}, {"id": "x", "v": 2}]
    assert differ(twice, [*twice[:1], {"id": "x", "v": 3}]) == [("[2].v", "2", "3")]


def test_a_text_is_said_as_it_is_and_the_rest_as_json() -> None:
    assert (said("Ü"), said(None), said({"a": [1]})) == ("Ü", "null", '{"a": [1]}')
