from typing import Any

import pytest
from tests.builders import build, details, full_opening, full_site, taken, values

from revealbook.measures.fixing_use import INTERACTIONS
from revealbook.measures.method import Method
from revealbook.measures.physics.fixing_resistance import Interaction
from revealbook.measures.reading import Missing, Reading
from revealbook.measures.work import Work


def full(method: Method | None = None, mass_kg: float = 148, **screw: Any) -> Work:
    opening, site = full_opening(), full_site()
    opening["window"]["mass_kg"] = mass_kg
    site["products"]["fixings"][0] |= screw
    return build(opening, site, method)


def of(work: Work, measure: str, subject: str) -> Reading:
    (found,) = [one for one in taken(work, measure) if one.subject == (subject,)]
    assert isinstance(found, Reading)
    return found


def test_the_methods_words_name_every_interaction() -> None:
    assert set(INTERACTIONS.values()) == set(Interaction)
    for word in INTERACTIONS:
        assert Method.model_validate({"interaction": word}).interaction == word


def test_tension_and_shear_are_added_in_line() -> None:
    found = of(full(), "fixing_use", "bottom")
    parts = details(found)
    assert parts["tension_n"] == values(full(), "fixing_tension")["bottom",]
    assert found.value == pytest.approx(parts["tension_n"] / 1800 + parts["shear_n"] / 2400)


def test_an_approval_may_ask_for_another_interaction() -> None:
    parts = details(of(full(), "fixing_use", "bottom"))
    tension, shear = parts["tension_n"] / 1800, parts["shear_n"] / 2400
    assert of(full(Method(interaction="power 2")), "fixing_use", "bottom").value == pytest.approx(
        max(tension, tension**2 + shear**2)
    )
    assert of(full(Method(interaction="linear to 1.2")), "fixing_use", "bottom").value == pytest.approx(
        max(tension, (tension + shear) / 1.2)
    )


def test_trials_on_the_wall_lower_what_the_data_sheet_promises() -> None:
    trials: dict[str, Any] = {"pull_out_trials_n": [2500, 2900, 2650, 2800, 2450]}
    found, promised = of(full(**trials), "fixing_use", "left"), of(full(), "fixing_use", "left")
    assert details(found)["trials"] == 5
    assert details(found)["tension_design_n"] < 1000
    assert float(found.value) > float(promised.value)
    alone = of(full(**trials, tension_design_n=None), "fixing_use", "left")
    assert alone.value == found.value


def test_a_side_without_weight_uses_tension_only() -> None:
    found = of(full(), "fixing_use", "left")
    assert found.value == pytest.approx(details(found)["tension_n"] / 1800)
    assert details(found)["shear_n"] == 0


def test_fixings_are_counted_against_those_needed() -> None:
    # left: 1.5 x 892.876 x 1.6 Pa on 0.718 m x 1.5 m = 2307.9 N: 2 fixings of 1800 N, 3 of 1000 N, 4 of 700 N
    assert of(full(), "fixing_surplus", "left").value == 1
    assert details(of(full(), "fixing_surplus", "left")) == {"fixings": 3, "fixings_needed": 2}
    assert of(full(tension_design_n=1000), "fixing_surplus", "left").value == 0
    assert of(full(tension_design_n=700), "fixing_surplus", "left").value == -1


def test_a_heavier_window_needs_more_at_the_bottom_and_no_more_at_the_head() -> None:
    light, heavy = full(mass_kg=50), full(mass_kg=600)
    surplus = [float(of(work, "fixing_surplus", "bottom").value) for work in (light, heavy)]
    assert surplus[1] < 0 < surplus[0]
    assert of(heavy, "fixing_surplus", "top").value == of(light, "fixing_surplus", "top").value
    uses = [float(of(work, "fixing_use", "support 2").value) for work in (light, heavy)]
    assert uses[1] == pytest.approx(12 * uses[0])


def test_resistances_that_lack_are_named_for_every_line() -> None:
    found = taken(full(tension_design_n=None), "fixing_use")
    assert [(one.what, one.subject[0]) for one in found if isinstance(one, Missing)] == [
        ("tension_design_n", subject)
        for subject in ("bottom", "left", "right", "top", "support 1", "support 2", "support 3")
    ]
    assert [one for one in taken(build(), "fixing_surplus") if isinstance(one, Reading)] == []
