from typing import Any

import pytest
from tests.builders import build, details, reading, taken, value

from revealbook.measures.method import Method
from revealbook.measures.reading import Missing
from revealbook.measures.work import Work

WINDOW = {"opening_kind": "tilt and turn", "mass_kg": 60, "width_mm": 1200, "hinge_distance_mm": 1000}
FIXINGS = [
    {"id": "strong", "tension_design_n": 900, "shear_design_n": 1200},
    {"id": "weak", "tension_design_n": 1500, "shear_design_n": 500},
    {"id": "silent"},
]
G = 9.80665


def hung(*products: str, method: Method | None = None, **window: Any) -> Work:
    fixings = [{"side": "left", "product": product} for product in products or ("strong",)]
    site = {"products": {"fixings": FIXINGS}}
    return build({"window": WINDOW | {"fixings": fixings} | window}, site, method)


def named(work: Work, measure: str) -> list[str]:
    return [one.what for one in taken(work, measure) if isinstance(one, Missing)]


def test_a_window_of_one_sash_is_taken_for_its_sash() -> None:
    # 60 kg, 1.2 m, hinges 1.0 m apart
    assert value(hung(), "hinge_pull") == pytest.approx(60 * G * 0.6 / 1.0)


def test_the_weakest_fixing_counts_with_the_lesser_of_its_resistances() -> None:
    pull = 1.35 * 60 * G * 0.6
    assert value(hung(), "hinge_corner_use") == pytest.approx(pull / 900)
    found = reading(hung("strong", "weak"), "hinge_corner_use")
    assert found.value == pytest.approx(pull / 500)
    assert details(found)["least_design_n"] == 500
    assert details(found)["pull_n"] == pytest.approx(pull)
    assert value(hung(method=Method(gamma_dead=1)), "hinge_corner_use") == pytest.approx(pull / 1.35 / 900)


@pytest.mark.parametrize(
    ("kind", "hangs"),
    [("side hung", True), ("tilt and turn", True), ("fixed", False), ("top hung", False), ("sliding", False)],
)
def test_only_sashes_on_hinges_at_their_side_pull(kind: str, hangs: bool) -> None:
    assert value(hung(opening_kind=kind), "hangs_at_its_side") is hangs
    assert bool(taken(hung(opening_kind=kind), "hinge_pull")) is hangs


def test_a_sash_of_unknown_kind_is_missing() -> None:
    assert named(hung(opening_kind=None), "hinge_pull") == ["opening_kind"]


def test_an_unknown_kind_leaves_it_open_whether_the_sash_hangs() -> None:
    assert named(hung(opening_kind=None), "hangs_at_its_side") == ["opening_kind"]


def test_what_lacks_is_named() -> None:
    bare = {"mass_kg": None, "width_mm": None, "hinge_distance_mm": None}
    assert named(hung(**bare), "hinge_pull") == ["mass_kg", "width_mm", "hinge_distance_mm"]
    assert named(hung("strong", "other"), "hinge_corner_use") == ["product"]
    assert named(hung("silent"), "hinge_corner_use") == ["tension_design_n", "shear_design_n"]
    assert named(hung(fixings=None), "hinge_corner_use") == ["fixings"]
    assert named(hung(fixings=[]), "hinge_corner_use") == ["fixings"]


@pytest.mark.parametrize(
    ("kinds", "hangs"),
    [
        (("fixed", "side hung"), True),
        (("side hung", "fixed"), True),
        ((None, "tilt and turn"), True),
        (("fixed", "top hung"), False),
    ],
)
def test_one_sash_at_its_side_is_enough_among_several(kinds: tuple[str | None, ...], hangs: bool) -> None:
    assert value(hung(sashes=[{"kind": kind} for kind in kinds]), "hangs_at_its_side") is hangs


def test_each_sash_pulls_by_its_own_mass_and_width() -> None:
    sashes = [{"kind": "fixed"}, {"kind": "side hung", "mass_kg": 30, "width_mm": 800}, {"kind": "side hung"}]
    first, *missing = taken(hung(sashes=sashes), "hinge_pull")
    assert first == reading(hung(sashes=sashes[:2]), "hinge_pull")
    assert first.subject == ("sash 2",)
    assert getattr(first, "value", None) == pytest.approx(30 * G * 0.4)
    assert [one.path for one in missing] == [
        ("window", "sashes", 2, "mass_kg"),
        ("window", "sashes", 2, "width_mm"),
    ]
