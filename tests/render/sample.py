"""Make the sample PDF that uses every part: `python sample.py out.pdf [A4|Letter]` prints what it is."""

import json
import sys
import tempfile
from datetime import datetime
from pathlib import Path

from PIL import Image, ImageDraw

from revealbook.render.embed import Attachment
from revealbook.render.look import Look, Paper
from revealbook.render.photos import Photo, derive
from revealbook.render.render import render_pdf

MADE = datetime.fromisoformat("2026-11-20T10:00:00+01:00")
RECORD = b"mark: W-1.01\nwidth_mm: 1230\n"


def picture(file: Path, width: int, height: int) -> None:
    image = Image.linear_gradient("L").resize((width, height)).convert("RGB")
    ImageDraw.Draw(image).rectangle(
        (width * 0.2, height * 0.2, width * 0.8, height * 0.8), outline="#204060", width=40
    )
    image.save(file, "JPEG")


def main(target: Path, paper: Paper) -> None:
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        shown = []
        for number, size in enumerate(((1600, 1200), (1200, 1600)), 1):
            picture(folder / f"{number}.jpg", *size)
            photo = derive(folder / f"{number}.jpg", folder / "cache", long_side_px=600)
            assert isinstance(photo, Photo)
            shown.append((photo.address, "A frame", f"Photo {number}", "Bottom piece, left end"))
        shown.append(("", "Photograph photos/3.jpg is missing.", "Photo 3", "Right end"))
        rendered = render_pdf(
            "sample.html",
            {"rows": 31, "pictures": shown},
            look=Look(
                paper=paper, override=Path(__file__).parent / "templates", photo_roots=(folder / "cache",)
            ),
            made=MADE,
            attachments=[
                Attachment("W-1.01.yaml", RECORD, "Record of W-1.01", "application/yaml", "Source", MADE),
                Attachment("copy.json", RECORD, "The same bytes", "application/json", "Data", MADE),
            ],
        )
    target.write_bytes(rendered.pdf)
    sys.stdout.write(json.dumps({"pages": rendered.pages, "warnings": rendered.warnings}))


if __name__ == "__main__":
    main(Path(sys.argv[1]), "Letter" if sys.argv[2:] == ["Letter"] else "A4")
