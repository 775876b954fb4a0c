from typing import Any

import pytest
from tests.builders import build, full_opening, full_site

from revealbook.measures.fixing_lines import Line, line_of, support_fixings
from revealbook.measures.method import METHOD_OF_FORMAT_1, Method
from revealbook.measures.physics.support_reactions import SpreadLoad
from revealbook.measures.reading import Missing
from revealbook.measures.weight import Weight, borne, distance_paths, span_of, weight_of
from revealbook.measures.work import Work

G = 9.80665


def full(method: Method | None = None, **window: Any) -> Work:
    opening = full_opening()
    opening["window"] |= window
    return build(opening, full_site(), method)


def parts_of(work: Work) -> Any:
    weight, bottom = weight_of(work), line_of(work, "bottom")
    assert isinstance(weight, Weight)
    assert isinstance(bottom, Line)
    supports = [one for one in support_fixings(work) if isinstance(one, Line)]
    found, missing = borne(work, weight, bottom, supports)
    return {subject[0]: on_it for subject, on_it in found.items()}, missing


def test_the_weight_stands_as_far_out_as_the_record_allows() -> None:
    found = weight_of(full(centre_from_wall_mm=70, out_of_place_mm=3))
    assert found == pytest.approx(Weight(1.35 * 148 * G, 70, 73, 40))
    assert distance_paths(full()) == (("window", "centre_from_wall_mm"), ("window", "out_of_place_mm"))
    first = full(Method.model_validate(dict(METHOD_OF_FORMAT_1)))
    assert distance_paths(first) == (("window", "centre_from_wall_mm"),)


def test_what_lacks_for_the_weight_is_named() -> None:
    found = weight_of(build())
    assert isinstance(found, tuple)
    assert [one.what for one in found if isinstance(one, Missing)] == [
        "mass_kg",
        "centre_from_wall_mm",
        "out_of_place_mm",
        "profile_width_mm",
    ]


def test_the_weight_is_spread_from_the_end_of_the_left_joint() -> None:
    assert span_of(full()) == pytest.approx(SpreadLoad(94, 94 + 2376, 148 * G))


def test_both_models_stand_beside_what_counts() -> None:
    found, missing = parts_of(full())
    assert missing == ()
    # the sill runs over three supports: the inner one gets more than hinged spans would give it
    middle, weight = found["support 2"], 1.35 * 148 * G
    models = dict(middle.models)
    assert models["shared_use"].shear_n == pytest.approx(weight / 12)
    assert models["own_reaction_use"].shear_n == middle.share.shear_n > 0.48 * weight / 2
    assert models["own_reaction_use"].tension_n == pytest.approx(middle.share.tension_n * 90 / 92)
    bottom = dict(found["bottom"].models)
    assert bottom["own_reaction_use"] == (0, 0)
    assert found["bottom"].share.shear_n == pytest.approx(weight / 12)


def test_where_one_model_is_asked_for_there_is_nothing_beside_it() -> None:
    found, missing = parts_of(full(Method(weight_split="shared alike")))
    assert missing == ()
    assert {on_it.models for on_it in found.values()} == {()}
