from typing import Any

from tests.present.judging import ENGLISH
from tests.rules.changes import work_of

from revealbook.present.which_opening import facts


def told(way: str = "", **changes: Any) -> dict[str, str]:
    opening = work_of({key.replace("__", "."): value for key, value in changes.items()}, way=way).opening
    return {label: said.replace("\u00a0", " ") for label, said in facts(opening, ENGLISH)}


def test_the_ordinary_opening_says_nothing_of_what_it_has_not() -> None:
    assert set(told()) == {
        "Nominal size", "Place", "Serial of the window", "Drawing", "Substrate", "Window frame",
        "Mass with glass", "Panes",
    }  # fmt: skip
    assert told()["Window frame"] == "PVC-U, white"


def test_sashes_and_couplings_are_told_from_left_to_right() -> None:
    pair = told("coupled pair")
    assert pair["Sashes, from the left"] == (
        "tilt and turn, hinges on the left, 1126 × 1378 mm, 42 kg; fixed, 1126 × 1378 mm, 38 kg"
    )
    assert pair["Coupled"] == "to 260911-05, coupling profile, joint 4 mm"


def test_a_coupling_at_a_corner_says_its_angle() -> None:
    corner = told(window__couplings=[{"to": "W-1.02", "corner": "right", "angle_deg": 90}])
    assert corner["Coupled"] == "to W-1.02, at the building's corner (90°)"


def test_what_stands_round_the_window_is_told() -> None:
    assert told("arched head")["Head"] == "segmental arch, rise 240 mm"
    assert told("over plaster")["Finish on the wall"] == "plaster, 15 mm"
    assert told("shutter box")["Shutter box"] == "200 mm"
    assert told("fire barrier")["Insulation"] == "EPS, 180 mm"
    assert told("guarded")["Glass, inside and outside"] == "annealed, annealed"
