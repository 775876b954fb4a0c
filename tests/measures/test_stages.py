from typing import Any

import pytest
from tests.builders import build, values

from revealbook.measures.method import METHOD_OF_FORMAT_1, Method, StageClosing
from revealbook.measures.stages import IN_ORDER

EARLY = {"survey", "frame", "supports"}
UNTIL_WINDOW = EARLY | {"plinth", "window"}
ALL = UNTIL_WINDOW | {"seals", "materials", "acceptance"}


def closed(method: Method | None = None, **record: Any) -> set[str]:
    return {stage for (stage,), shut in values(build(record, method=method), "stage_closed").items() if shut}


def looked(name: str, **more: Any) -> dict[str, Any]:
    return {"hold_points": [{"name": name, "at": "2026-11-20T11:00+01:00", "passed": True, **more}]}


def test_before_any_hold_point_every_stage_is_open() -> None:
    assert closed() == set()


@pytest.mark.parametrize(
    ("name", "shut"),
    [("substrate", {"survey"}), ("frame", EARLY), ("window", UNTIL_WINDOW), ("foam", UNTIL_WINDOW)],
)
def test_a_hold_point_closes_its_stage_and_those_before_it(name: str, shut: set[str]) -> None:
    assert closed(**looked(name)) == shut


def test_the_last_hold_point_leaves_acceptance_to_the_covering() -> None:
    assert closed(**looked("before covering")) == ALL - {"acceptance"}
    assert closed(covering={"at": "2026-11-26T08:00+01:00"}) == ALL


def test_a_look_that_was_not_passed_and_a_line_without_a_look_close_nothing() -> None:
    assert closed(**looked("frame", passed=False)) == set()
    assert closed(hold_points=[{"name": "frame"}]) == set()


def test_once_all_who_sign_have_signed_all_is_closed() -> None:
    fitter, clerk = {"role": "installer", "by": "ada"}, {"role": "clerk of works", "by": "cleo"}
    assert closed(sign_offs=[fitter]) == set()
    assert closed(sign_offs=[clerk, fitter]) == ALL


def test_in_the_first_edition_all_is_due_at_once() -> None:
    first = Method.model_construct(**METHOD_OF_FORMAT_1)
    assert values(build(method=first), "stage_closed") == {}


def test_the_method_says_what_closes_a_stage() -> None:
    later = Method(stage_closed_by=StageClosing(frame="window"))
    assert "frame" not in closed(later, **looked("frame"))
    assert "frame" in closed(later, **looked("window"))


def test_every_event_that_closes_stands_in_the_order_of_the_work() -> None:
    assert (*Method().hold_points, "covering") == IN_ORDER
