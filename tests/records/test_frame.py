from tests.builders import full_opening

from revealbook.records.frame import Frame, Pieces


def test_a_frame_has_four_pieces_seen_from_outside() -> None:
    assert list(Pieces.model_fields) == ["bottom", "left", "right", "top"]


def test_holes_keep_the_order_in_which_they_were_entered() -> None:
    frame = Frame.model_validate({"pieces": {"left": {"holes_mm": [815, 180, 180]}}})
    assert frame.pieces is not None
    assert frame.pieces.left is not None
    assert frame.pieces.left.holes_mm == (815, 180, 180)


def test_no_joint_is_not_the_same_as_no_word_of_joints() -> None:
    frame = Frame.model_validate({"pieces": {"left": {"lengthwise_joints": []}, "right": {}}})
    assert frame.pieces is not None
    assert frame.pieces.left is not None
    assert frame.pieces.right is not None
    assert frame.pieces.left.lengthwise_joints == ()
    assert frame.pieces.right.lengthwise_joints is None


def test_a_piece_may_end_short_of_the_opening() -> None:
    frame = Frame.model_validate({"pieces": {"bottom": {"overlap_left_mm": -12}}})
    assert frame.pieces is not None
    assert frame.pieces.bottom is not None
    assert frame.pieces.bottom.overlap_left_mm == -12


def test_a_batch_keeps_its_leading_nought() -> None:
    frame = Frame.model_validate(full_opening()["frame"])
    assert frame.bonding
    assert frame.bonding[0].batches
    assert frame.bonding[0].batches[0].number == "0412"
