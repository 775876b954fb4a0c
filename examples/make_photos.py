"""Draw the photographs of Larch Court: `python examples/make_photos.py` rewrites examples/larch-court/photos.

They are drawn from numbers, the same ones each time; nobody and nothing real is in them. Like photographs
from a telephone they carry EXIF: time and zone, on some a camera that was held sideways or upside down, and
on one a place (zero degrees north, zero degrees east), which a pack must not pass on.
"""

import argparse
import io
import zlib
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

import numpy as np
from pictures import scenes
from pictures.canvas import Canvas, lit, taken
from PIL import ExifTags, Image

PHOTOS = Path(__file__).parent / "larch-court" / "photos"
SIZE = (1200, 928)
HEAVIEST = 66_000
"""Bytes that a photograph may have; the best quality that stays below is taken."""
STORED_AS = {3: Image.Transpose.ROTATE_180, 6: Image.Transpose.ROTATE_90, 8: Image.Transpose.ROTATE_270}
"""How a camera stores an upright picture for each orientation tag that it then writes."""


@dataclass(frozen=True, slots=True)
class Shot:
    """One photograph: which scene, when, and how the camera was held."""

    file: str
    scene: str
    when: str
    facts: Mapping[str, object] = field(default_factory=dict)
    portrait: bool = False
    orientation: int = 1
    gps: bool = False

    @property
    def mark(self) -> str:
        """The opening's mark, as on the strip of tape in the picture."""
        return self.file.split("-and-")[0][:6]


LIME, CONCRETE = {"kind": "lime"}, {"kind": "concrete"}
WINTER = {"colour": scenes.WINTER, "words": "EXAMPLE INNER TAPE WINTER"}
SILL = {"kind": "lime", "colour": scenes.SILL, "words": "EXAMPLE SILL TAPE TIGHT"}
OLD_BATCH = {"number": "0398", "until": "2026-10-31"}

SHOTS = (
    Shot("A-0.01-beads.jpg", "beads", "2026:11:09 11:14:22"),
    Shot("A-0.01-support.jpg", "support", "2026:11:09 12:48:05"),
    Shot("A-0.01-window.jpg", "window_set", "2026:11:11 10:41:37"),
    Shot("A-0.01-foam.jpg", "foamed", "2026:11:11 12:22:10", portrait=True, orientation=6),
    Shot("A-0.02-corner.jpg", "corner", "2026:11:09 14:20:48"),
    Shot("A-0.02-trim.jpg", "trimmed_jamb", "2026:11:13 09:08:31", portrait=True),
    Shot("A-0.03-frame.jpg", "bottom_piece", "2026:11:10 12:50:19", {"screws": 2}),
    Shot("A-0.03-tape.jpg", "taped", "2026:11:13 11:35:54"),
    Shot("A-0.04-level.jpg", "level_on_piece", "2026:11:10 13:20:03", {"bubble": -0.06}),
    Shot("A-0.04-jamb.jpg", "trimmed_jamb", "2026:11:16 09:06:12", portrait=True, orientation=8),
    Shot("A-0.05-corner.jpg", "corner", "2026:11:10 12:10:40"),
    Shot("A-0.05-plinth.jpg", "plinth", "2026:11:12 15:05:26", {"kind": "clay"}),
    Shot("A-0.05-tape.jpg", "taped", "2026:11:13 11:28:09", portrait=True),
    Shot("A-1.01-joint.jpg", "lengthwise_joint", "2026:11:16 12:31:44"),
    Shot("A-1.01-window.jpg", "window_set", "2026:11:19 11:12:58", {"colour": (122, 92, 66)}),
    Shot(
        "A-1.02-climate.jpg",
        "climate",
        "2026:11:17 11:52:30",
        {"air": "5.0", "humid": "69", "surface": "4.6"},
    ),
    Shot("A-1.02-and-A-1.03.jpg", "elevation", "2026:11:19 15:34:17", {"kind": "clay"}, gps=True),
    Shot("A-1.02-tape.jpg", "taped", "2026:11:20 10:48:02", WINTER),
    Shot("A-1.03-overlap.jpg", "overlap", "2026:11:16 13:40:51", {"overlap_mm": 62}),
    Shot("A-1.03-foam.jpg", "foamed", "2026:11:20 12:14:33", portrait=True),
    Shot("B-0.01-beads.jpg", "beads", "2026:11:10 13:06:15", orientation=3),
    Shot("B-0.01-trim.jpg", "trimmed_jamb", "2026:11:13 13:36:20", CONCRETE, portrait=True),
    Shot("B-0.02-frame.jpg", "bottom_piece", "2026:11:09 13:35:42", CONCRETE),
    Shot(
        "B-0.02-climate.jpg",
        "climate",
        "2026:11:12 11:06:55",
        {"air": "8.0", "humid": "90", "surface": "7.3", **CONCRETE},
    ),
    Shot("B-0.03-frame.jpg", "level_on_piece", "2026:11:27 12:58:24", {"bubble": 0.08, **CONCRETE}),
    Shot("B-1.01-corner.jpg", "corner", "2026:11:16 13:05:11", LIME),
    Shot("B-1.01-plumb.jpg", "plumb", "2026:11:17 15:25:38", LIME),
    Shot("B-1.02-corner.jpg", "corner", "2026:11:20 12:40:06", {"sealed": False, "turned": True, **LIME}),
    Shot("B-1.02-foam.jpg", "foamed", "2026:11:23 12:22:47", LIME, portrait=True),
    Shot("B-1.03-level-before.jpg", "level_on_piece", "2026:11:23 13:08:29", {"bubble": 0.78, **LIME}),
    Shot("B-1.03-level-after.jpg", "level_on_piece", "2026:11:23 15:26:13", {"bubble": 0.0, **LIME}),
    Shot("B-1.03-tape.jpg", "taped", "2026:11:27 11:22:50", LIME, portrait=True, orientation=6),
    Shot("B-2.01-batch.jpg", "batch", "2026:11:23 16:10:04", OLD_BATCH),
    Shot("B-2.01-window.jpg", "window_set", "2026:11:25 10:58:36", LIME),
    Shot("B-2.02-frame.jpg", "bottom_piece", "2026:11:24 12:30:21", {"screws": 2, "turned": True, **LIME}),
    Shot("B-2.02-tape.jpg", "taped", "2026:11:28 12:05:45", SILL),
)


def drawn(shot: Shot) -> Image.Image:
    """Give a photograph's upright picture."""
    rng = np.random.default_rng(zlib.crc32(shot.file.encode()))
    scene = Canvas(rng)
    getattr(scenes, shot.scene)(scene, shot.mark, **shot.facts)
    sun = (float(rng.uniform(0.6, 0.9)), float(rng.uniform(0.45, 0.7)))
    picture = taken(lit(scene, sun, float(rng.uniform(0.45, 0.6))), rng, float(rng.uniform(-0.025, 0.03)))
    picture = picture.resize(SIZE, Image.Resampling.LANCZOS)
    if shot.portrait:
        left = (SIZE[0] - SIZE[1] * 3 // 4) // 2
        picture = picture.crop((left, 0, left + SIZE[1] * 3 // 4, SIZE[1]))
    return picture


def exif(shot: Shot) -> Image.Exif:
    """Give what the camera writes beside the pixels."""
    found = Image.Exif()
    found[ExifTags.Base.Make] = "Invented"
    found[ExifTags.Base.Model] = "Example Telephone 7"
    found[ExifTags.Base.Orientation] = shot.orientation
    detail = found.get_ifd(ExifTags.IFD.Exif)
    detail[ExifTags.Base.DateTimeOriginal] = shot.when
    detail[ExifTags.Base.OffsetTimeOriginal] = "+01:00"
    if shot.gps:
        nowhere = (0.0, 0.0, 0.0)
        place = found.get_ifd(ExifTags.IFD.GPSInfo)
        place[ExifTags.GPS.GPSLatitudeRef], place[ExifTags.GPS.GPSLatitude] = "N", nowhere
        place[ExifTags.GPS.GPSLongitudeRef], place[ExifTags.GPS.GPSLongitude] = "E", nowhere
    return found


def file_of(shot: Shot) -> bytes:
    """Give the photograph as a JPEG file."""
    picture = drawn(shot)
    if shot.orientation in STORED_AS:
        picture = picture.transpose(STORED_AS[shot.orientation])
    file = io.BytesIO()
    for quality in range(76, 30, -3):
        file = io.BytesIO()
        picture.save(file, "JPEG", quality=quality, optimize=True, exif=exif(shot))
        if file.tell() <= HEAVIEST:
            break
    return file.getvalue()


def main() -> None:
    """Write all photographs, or those that are named."""
    asked = argparse.ArgumentParser(description="Draw the photographs of the example site.")
    asked.add_argument("files", nargs="*", help="only these, as A-0.01-beads.jpg; all if none is named")
    asked.add_argument("--to", type=Path, default=PHOTOS, help="folder to write to")
    options = asked.parse_args()
    unknown = set(options.files) - {shot.file for shot in SHOTS}
    if unknown:
        asked.error(f"no such photograph: {', '.join(sorted(unknown))}")
    options.to.mkdir(parents=True, exist_ok=True)
    for shot in SHOTS:
        if not options.files or shot.file in options.files:
            (options.to / shot.file).write_bytes(file_of(shot))


if __name__ == "__main__":
    main()
