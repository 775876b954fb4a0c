"""QR codes say what they were given, and can be read aloud."""

import segno

from revealbook.render.codes import qr


def test_a_code_is_a_drawing_with_its_title_first() -> None:
    drawn = qr("revealbook:larch-court/W-2.07", "Identity of W-2.07")
    assert drawn.startswith("<svg")
    assert drawn.index("<title>Identity of W-2.07</title>") < drawn.index("<path")


def test_a_title_cannot_break_out_of_the_drawing() -> None:
    assert "<script>" not in qr("x", "<script>alert(1)</script>")


def test_another_text_gives_another_code_and_the_same_text_the_same() -> None:
    assert qr("one", "t") == qr("one", "t") != qr("two", "t")


def test_the_modules_drawn_are_those_of_the_code() -> None:
    text = "revealbook:larch-court/W-2.07"
    code = segno.make_qr(text, error="m")
    side = code.symbol_size(border=2)[0]
    assert f'viewBox="0 0 {side} {side}"' in qr(text, "t")
