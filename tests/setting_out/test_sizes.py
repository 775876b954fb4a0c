from typing import Any

import pytest
from tests.setting_out.followed import SITE, around, before_work, work_on
from tests.setting_out.rules import PRACTICE

from revealbook.measures.work import Work
from revealbook.records.products import Profile
from revealbook.setting_out.refusal import NotPossible, Reason
from revealbook.setting_out.sizes import (
    Size,
    Sizes,
    WindowSize,
    frame_profiles,
    is_whole,
    plinth_profile,
    sizes_of,
    window_of,
)

FRAME = {"id": "frame-profile", "kind": "frame", "width_mm": 80, "stock_mm": 3000}
WIDER = {"id": "wide-profile", "kind": "frame", "width_mm": 100, "stock_mm": 3000}
PLINTH = {"id": "plinth-profile", "kind": "plinth", "width_mm": 60, "stock_mm": 2500}


def work(record: dict[str, Any] | None = None, profiles: list[dict[str, Any]] | None = None) -> Work:
    site = {**SITE, "products": {"profiles": [FRAME, PLINTH] if profiles is None else profiles}}
    return work_on({**before_work(1230, 1480), **(record or {})}, around(PRACTICE, site))


def test_a_surveyed_size_goes_before_the_nominal_one_place_by_place() -> None:
    survey = {"widths_mm": {"bottom": 1232, "middle": 1300}, "heights_mm": {"left": 1481.5}}
    found = sizes_of(work({"survey": survey}))
    assert found == Sizes(Size(1232, True), Size(1230, False), Size(1481.5, True), Size(1480, False))
    assert not found.surveyed


def test_an_opening_without_any_size_is_refused_by_the_missing_key() -> None:
    assert sizes_of(work({"opening": {"mark": "W-1", "width_mm": 1230}})) == NotPossible(
        Reason.SIZE_NOT_RECORDED, (), ("height_mm",)
    )


def test_a_window_counts_once_both_its_sizes_are_recorded() -> None:
    assert window_of(work()) == WindowSize(1206, 1456)
    assert window_of(work({"window": {"width_mm": 1206}})) is None
    assert WindowSize(1206, 1456).along("left") == 1456
    assert WindowSize(1206, 1456).along("top") == 1206


def named(**pieces: str) -> dict[str, Any]:
    return {"frame": {"pieces": {piece: {"profile": profile} for piece, profile in pieces.items()}}}


def profiles_of(found: dict[str, Profile] | NotPossible) -> set[str]:
    assert isinstance(found, dict), found
    return {profile.id for profile in found.values()}


def test_the_sites_only_frame_profile_is_taken_for_every_piece() -> None:
    assert profiles_of(frame_profiles(work())) == {"frame-profile"}


def test_a_profile_that_the_record_names_for_one_piece_is_taken_for_all() -> None:
    found = frame_profiles(work(named(bottom="wide-profile"), [FRAME, WIDER]))
    assert profiles_of(found) == {"wide-profile"}


def test_pieces_may_be_of_different_profiles_if_the_record_names_each() -> None:
    pieces = {
        "bottom": "wide-profile",
        "left": "frame-profile",
        "right": "frame-profile",
        "top": "wide-profile",
    }
    found = frame_profiles(work(named(**pieces), [FRAME, WIDER]))
    assert isinstance(found, dict)
    assert {piece: profile.id for piece, profile in found.items()} == pieces


def test_between_two_profiles_nobody_guesses() -> None:
    unnamed = NotPossible(Reason.PROFILE_NOT_NAMED, (), ("frame",))
    assert frame_profiles(work(profiles=[FRAME, WIDER])) == unnamed
    assert frame_profiles(work(profiles=[PLINTH])) == unnamed
    two = named(bottom="wide-profile", left="frame-profile")
    assert frame_profiles(work(two, [FRAME, WIDER])) == unnamed


@pytest.mark.parametrize("key", ["width_mm", "stock_mm"])
def test_a_frame_profile_without_a_figure_is_refused_by_that_figure(key: str) -> None:
    lacking = {name: value for name, value in FRAME.items() if name != key}
    refused = NotPossible(Reason.PRODUCT_FIGURE_MISSING, (), ("frame-profile", key))
    assert frame_profiles(work(profiles=[lacking])) == refused


def test_the_plinths_profile_is_the_one_named_or_the_only_one() -> None:
    other = {**PLINTH, "id": "sill-profile"}
    found = plinth_profile(work())
    assert isinstance(found, Profile)
    assert found.id == "plinth-profile"
    chosen = plinth_profile(work({"plinth": {"used": True, "product": "sill-profile"}}, [PLINTH, other]))
    assert isinstance(chosen, Profile)
    assert chosen.id == "sill-profile"
    assert plinth_profile(work(profiles=[PLINTH, other])) == NotPossible(
        Reason.PROFILE_NOT_NAMED, (), ("plinth",)
    )
    shapeless = {"id": "plinth-profile", "kind": "plinth"}
    assert plinth_profile(work(profiles=[shapeless])) == NotPossible(
        Reason.PRODUCT_FIGURE_MISSING, (), ("plinth-profile", "stock_mm")
    )


def test_binary_rounding_does_not_make_a_size_broken() -> None:
    assert is_whole(1230.0000000001)
    assert not is_whole(1230.5)
