from typing import Any

import pytest
from tests.present.judging import ENGLISH, Changes, opening, site

from revealbook.present.sheet import Sheet, pictures_of, sheet
from revealbook.rules.finding import Outcome

BREACH = {"frame.pieces.bottom.overlap_left_mm": 62, "frame.pieces.bottom.overlap_right_mm": 102}


def made(changes: Changes | None = None, **site_changes: Any) -> Sheet:
    judged = site({"W-1.01": changes or {}}, **site_changes)
    return sheet(judged.openings[0], judged.site.site, ENGLISH)


def test_a_sheet_says_which_opening_it_is() -> None:
    page = made()
    assert (page.mark, page.file) == ("W-1.01", "openings/W-1.01.yaml")
    assert page.place == "building A, floor 1, workshop kitchen, south-west"
    assert page.size == "2400 × 1500\u00a0mm"
    assert page.verdict.outcome is Outcome.CONFORMS


def test_facts_are_told_as_far_as_recorded() -> None:
    facts = dict(made().facts)
    assert facts["Serial of the window"] == "260911-04"
    assert facts["Drawing"] == "A-301 rev B"
    assert facts["Substrate"] == "solid masonry"
    assert facts["Window frame"] == "PVC-U, white"
    assert facts["Mass with glass"] == "148\u00a0kg"
    assert facts["Panes"] == "4 / 4 / 4 mm"
    less = dict(made({"window.mass_kg": None, "window.glass_panes_mm": None, "survey": None}).facts)
    assert not {"Mass with glass", "Panes", "Substrate"} & set(less)


def test_a_window_that_was_never_recorded_leaves_its_facts_out() -> None:
    assert "Window frame" not in dict(made({"window": None}).facts)


def test_products_stand_with_batch_and_use_by_date() -> None:
    products = made().products
    assert ("adhesive", "Example Frame Bond", "0412", "2027-03-31") in products
    assert ("foam", "Example Joint Foam", "F-2281", "2027-06-30") in products
    assert ("inner tape", "Example Inner Tape", "T-118", "2027-09-30") in products
    assert ("fixing", "Example Frame Screw 7.5 x 182", "", "") in products
    assert not [use for use, *_ in products if use == "trim"]
    assert len([product for _, product, *_ in products if "Frame Screw" in product]) == 1


def test_a_product_without_name_batch_or_date_is_not_made_up() -> None:
    changes = {
        "frame.bonding[0].product": None,
        "frame.bonding[0].batches[0].number": None,
        "frame.bonding[0].batches[0].expires": None,
    }
    assert made(changes).products[0] == ("adhesive", "not recorded", "not recorded", "not recorded")
    assert [use for use, *_ in made({"frame": None, "seals": None, "supports": None, "plinth": None,
                                     "window": None}).products] == []  # fmt: skip


def test_a_tape_and_a_foam_of_one_id_keep_their_own_names() -> None:
    products = {
        "tapes": [{"id": "joint", "name": "The tape"}, {"id": "inner-tape"}],
        "foams": [{"id": "joint", "name": "The foam"}],
    }
    changes = {"seals.events[1].product": "joint", "seals.events[3].product": "joint"}
    told = made(changes, products=products).products
    assert [(use, name) for use, name, *_ in told if use in {"foam", "outer tape", "inner tape"}] == [
        ("inner tape", "inner-tape"), ("foam", "The foam"), ("outer tape", "The tape"),
    ]  # fmt: skip


def test_photographs_stand_once_each_with_what_they_show() -> None:
    page = made({"window.photos": [{"file": "W-1.01-wall.jpg"}, {"file": "new.jpg"}]})
    files = [picture.file for picture in page.pictures]
    assert len(files) == len(set(files))
    captions = {picture.file: picture.caption for picture in page.pictures}
    assert captions["W-1.01-wall.jpg"] == "bonding area brushed and primed"
    assert captions["new.jpg"] == "new.jpg"


def test_a_photograph_is_found_at_its_place_in_the_record() -> None:
    places = {photo.file: path for path, photo in pictures_of(opening().record.opening).items()}
    assert places["W-1.01-joint.jpg"] == ("frame", "photos", 1)
    assert places["W-1.01-wall.jpg"] == ("survey", "photos", 0)


@pytest.mark.parametrize(
    ("signed", "row"),
    [
        ({"role": "installer", "by": "ada", "at": "2026-11-20T16:20+01:00"},
         ("installer", "Ada Laibung", "2026-11-20 16:20")),
        ({"role": "client", "by": "zoe"}, ("client", "zoe", "")),
        ({"role": "designer"}, ("designer", "", "")),
    ],
)  # fmt: skip
def test_a_signature_is_shown_as_far_as_it_goes(signed: dict[str, str], row: tuple[str, str, str]) -> None:
    assert made({"sign_offs": [signed]}).sign_offs == (row,)


def test_notes_of_the_sections_are_kept_under_their_stage() -> None:
    notes = made({"opening.note": "stair side", "seals.note": "rain at noon"}).notes
    assert ("Opening", "stair side") in notes
    assert ("Seals", "rain at noon") in notes


def test_a_blank_opening_still_has_its_sheet() -> None:
    before = ("survey", "frame", "supports", "plinth", "window")
    after = ("seals", "tests", "hold_points", "sign_offs", "covering")
    page = made({**dict.fromkeys(before + after), "nonconformities": [], "concessions": [], "climate": []})
    assert page.events == ()
    assert page.pictures == ()
    assert page.sign_offs == ()
    assert page.verdict.outcome is Outcome.NOT_SHOWN
    assert sum(len(stage.open) for stage in page.stages) > 50
