from typing import Any

import pytest

from revealbook.measures.method import Method
from revealbook.measures.pull_out import Tension, tension_of
from revealbook.records.products import Fixing

TRIALS = [3900, 4200, 3650, 4050, 3800]


def tension(**keys: Any) -> Tension | str:
    return tension_of(Fixing.model_validate({"id": "screw"} | keys), Method())


def test_without_trials_the_data_sheet_counts() -> None:
    assert tension(tension_design_n=1800) == Tension(1800)
    assert tension() == "tension_design_n"


def test_trials_stand_in_for_a_wall_that_no_data_sheet_knows() -> None:
    found = tension(pull_out_trials_n=TRIALS)
    assert isinstance(found, Tension)
    assert found.design_n == pytest.approx(3420 / 2.5, abs=1)
    assert found.trials == 5


def test_the_lesser_of_both_counts() -> None:
    weak = tension(tension_design_n=1800, pull_out_trials_n=TRIALS)
    assert isinstance(weak, Tension)
    assert weak.design_n < 1400
    assert tension(tension_design_n=900, pull_out_trials_n=TRIALS) == Tension(900)


def test_few_trials_are_not_passed_over_for_the_data_sheet() -> None:
    assert tension(tension_design_n=1800, pull_out_trials_n=TRIALS[:4]) == "too_few_trials"
    assert tension(pull_out_trials_n=[]) == "too_few_trials"


def test_trials_that_scatter_leave_no_resistance() -> None:
    scattered = tension(tension_design_n=1800, pull_out_trials_n=[100, 200, 150, 9000, 4000])
    assert scattered == "trials_scatter"
