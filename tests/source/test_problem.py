from dataclasses import FrozenInstanceError

import pytest

from revealbook.source.place import Place
from revealbook.source.problem import Problem


def test_a_problem_needs_no_facts() -> None:
    assert Problem(Place("f"), "empty_file").facts == {}


def test_a_problem_cannot_be_changed() -> None:
    problem = Problem(Place("f"), "tab")
    with pytest.raises(FrozenInstanceError):
        problem.code = "alias"  # type: ignore[misc]
