import pytest

from revealbook.present.refusals import refusal
from revealbook.present.words import words_in
from revealbook.setting_out.refusal import NotPossible, Reason, not_possible

EN = words_in("en")
FIGURES = {
    "length_mm": 300, "shortest_mm": 350, "end_mm": 0, "distance_max_mm": 200, "joint_mm": 1500,
    "reached_mm": 900,
    "centres_max_mm": 700, "margin_mm": 60, "widest_mm": 25, "load_point_mm": 400, "support_mm": 150,
    "taken_to_mm": 390, "stock_mm": 3000, "side_mm": 100, "overlap_mm": 80,
}  # fmt: skip


@pytest.mark.parametrize("reason", Reason)
def test_every_reason_has_its_sentence(reason: Reason) -> None:
    refused = NotPossible(reason, not_possible(reason, **FIGURES).figures, ("left", "stock_mm"))
    said = refusal(refused, EN)
    assert said.endswith(".")
    assert "{" not in said
    assert str(reason) not in said


def test_a_refusal_names_the_piece_and_its_figures() -> None:
    refused = NotPossible(
        Reason.PIECE_TOO_SHORT,
        not_possible(Reason.PIECE_TOO_SHORT, length_mm=300, shortest_mm=354).figures,
        ("left",),
    )
    assert refusal(refused, EN).replace("\u00a0", " ") == (
        "Left piece. At 300 mm it is too short for two holes with their end distances; "
        "the shortest is 354 mm."
    )


def test_a_window_names_its_side() -> None:
    refused = NotPossible(Reason.END_BLOCKED, not_possible(Reason.END_BLOCKED, **FIGURES).figures)
    assert refusal(refused, EN).startswith("There is no free place")
    sided = NotPossible(refused.reason, refused.figures, ("window", "right"))
    assert refusal(sided, EN).startswith("Window, right. There is no free place")


@pytest.mark.parametrize(
    ("refused", "said"),
    [
        (
            NotPossible(Reason.NO_RULE, (), ("fixing-centres",)),
            (
                "A rule that setting out needs is not in force, or gives no such limit: fixing-centres. "
                "No value is put in its place."
            ),
        ),
        (
            NotPossible(Reason.RULES_DISAGREE, (), ("frame-overlap", "bottom-length")),
            (
                "The limits in force, with what is kept for the tape's uncertainty, cannot all be met: "
                "frame-overlap, bottom-length."
            ),
        ),
        (
            NotPossible(Reason.PRODUCT_FIGURE_MISSING, (), ("frame-profile", "stock_mm")),
            "The figure “stock_mm” of frame-profile is not in site.yaml.",
        ),
        (
            NotPossible(Reason.LIMIT_BY_UNKNOWN_SIZE, (), ("fixing-centres", "bottom_surplus")),
            "The limit of fixing-centres depends on “bottom_surplus”, which is not recorded before the work.",
        ),
        (
            NotPossible(Reason.SIZE_NOT_RECORDED, (), ("width_mm",)),
            "The record has neither a surveyed nor a nominal size: “width_mm” is missing.",
        ),
        (
            NotPossible(Reason.PROFILE_NOT_NAMED, (), ("plinth",)),
            (
                "It is not known which profile is used: name it in the record, or list a single one of kind "
                "“plinth” in site.yaml."
            ),
        ),
    ],
)
def test_what_is_missing_is_named(refused: NotPossible, said: str) -> None:
    assert refusal(refused, EN) == said
