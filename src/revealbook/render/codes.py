"""QR codes as inline drawings; nothing is looked up anywhere to read one (ISO/IEC 18004, made by segno)."""

import segno
from markupsafe import Markup


def qr(text: str, title: str) -> Markup:
    """Give a QR code as inline SVG that fills the width it is given.

    Args:
        text: what a reader of the code gets; error correction M or better, as far as the size allows.
        title: what it is, for those who do not see it.
    """
    code = segno.make_qr(text, error="m", boost_error=True)
    drawn = code.svg_inline(border=2, omitsize=True, title=title, svgclass=None, lineclass=None)
    return Markup(drawn)  # noqa: S704 - segno escapes the title and draws the rest
