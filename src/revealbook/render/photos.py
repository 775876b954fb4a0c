"""Photographs made ready for a page: upright, small, and stripped of what they tell about their maker."""

import hashlib
import io
import os
import tempfile
from dataclasses import dataclass
from datetime import datetime, timedelta, timezone
from pathlib import Path

from PIL import ExifTags, Image, ImageCms, ImageOps, UnidentifiedImageError

from revealbook.source.picture import MAX_PIXELS, WRONG, opened, whole_only


@dataclass(frozen=True, slots=True)
class Photo:
    """A photograph that can stand on a page.

    Attributes:
        original: the file as it was handed in, unchanged.
        sha256: digest of the original's bytes.
        taken: when the camera says it was taken; without zone where the camera names none, None where it
            says nothing. A camera's clock is evidence only as far as somebody vouches for it.
        position: where the camera says it was, latitude and longitude in degrees, or None. It never stands in
            the derivative; whether a page prints it is for the site to say.
        derivative: the JPEG for the page, without any metadata (no place, no camera, no names).
        width_px, height_px: size of the derivative, upright.
    """

    original: Path
    sha256: str
    taken: datetime | None
    position: tuple[float, float] | None
    derivative: Path
    width_px: int
    height_px: int

    @property
    def address(self) -> str:
        """What a page's `src` says; found where the cache folder is one of the look's photo roots."""
        return self.derivative.name


@dataclass(frozen=True, slots=True)
class NoPhoto:
    """A photograph that cannot be shown, and why, in one plain sentence."""

    original: Path
    why: str


def derive(original: Path, cache: Path, *, long_side_px: int = 1600, quality: int = 82) -> Photo | NoPhoto:
    """Read a photograph and keep a derivative of it in the cache folder, named by digest and size.

    Args:
        original: a JPEG, PNG, WebP or HEIC file of at most 60 million pixels; it is only read.
        cache: folder for derivatives; made if it is not there, may be deleted at any time.
        long_side_px: the derivative's longer side, 100 to 6000; a smaller picture is not enlarged.
        quality: JPEG quality, 40 to 95.

    Raises:
        ValueError: size or quality out of range.
    """
    if not (100 <= long_side_px <= 6000 and 40 <= quality <= 95):  # noqa: PLR2004 - the ranges stated above
        raise ValueError("A derivative is 100 to 6000 px long and of quality 40 to 95.")
    try:
        content = original.read_bytes()
    except OSError:
        return NoPhoto(original, f"The photograph {original} is missing or cannot be read.")
    digest = hashlib.sha256(content).hexdigest()
    derivative = cache / f"{digest}-{long_side_px}-{quality}.jpg"
    try:
        with whole_only(), opened(io.BytesIO(content)) as image:
            if image.width * image.height > MAX_PIXELS:
                return NoPhoto(original, f"The photograph {original} has more than 60 million pixels.")
            exif = image.getexif()
            taken, position = _taken(exif), _position(exif)
            if not derivative.exists():
                _keep(_small(image, long_side_px), derivative, quality)
        with Image.open(derivative) as kept:
            return Photo(original, digest, taken, position, derivative, *kept.size)
    except UnidentifiedImageError:
        return NoPhoto(original, f"{original} is no JPEG, PNG, WebP or HEIC picture.")
    except WRONG:
        return NoPhoto(original, f"The photograph {original} is damaged or too large to be opened.")


def _small(image: Image.Image, long_side_px: int) -> Image.Image:
    """Upright, scaled, in sRGB, on white where it was see-through."""
    profile = image.info.get("icc_profile")
    image.thumbnail((long_side_px, long_side_px), Image.Resampling.LANCZOS)
    upright = ImageOps.exif_transpose(image)
    if upright.has_transparency_data:
        ground = Image.new("RGBA", upright.size, "white")
        upright = Image.alpha_composite(ground, upright.convert("RGBA"))
    return _in_srgb(upright, profile).convert("RGB")


def _in_srgb(image: Image.Image, profile: bytes | None) -> Image.Image:
    """Phones record wider colours than the page knows; without this, reds and greens would fade."""
    if not profile or image.mode not in ("RGB", "CMYK", "L"):
        return image
    try:
        source = ImageCms.ImageCmsProfile(io.BytesIO(profile))
        return (
            ImageCms.profileToProfile(image, source, ImageCms.createProfile("sRGB"), outputMode="RGB")
            or image
        )
    except (ImageCms.PyCMSError, OSError):
        return image


def _keep(image: Image.Image, derivative: Path, quality: int) -> None:
    """Write all of it or none, with pixels only: a copy of the pixels carries no EXIF, comment or profile."""
    bare = Image.new("RGB", image.size)
    bare.paste(image)
    derivative.parent.mkdir(parents=True, exist_ok=True)
    handle, name = tempfile.mkstemp(dir=derivative.parent, suffix=".part")
    with os.fdopen(handle, "wb") as file:
        bare.save(file, "JPEG", quality=quality, optimize=True)
    Path(name).replace(derivative)


def _taken(exif: Image.Exif) -> datetime | None:
    """DateTimeOriginal with OffsetTimeOriginal (Exif 2.31, 4.6.5)."""
    detail = exif.get_ifd(ExifTags.IFD.Exif)
    stamp = str(detail.get(ExifTags.Base.DateTimeOriginal, "")).strip("\0 ")
    offset = str(detail.get(ExifTags.Base.OffsetTimeOriginal, "")).strip("\0 ")
    try:
        moment = datetime.strptime(stamp, "%Y:%m:%d %H:%M:%S")  # noqa: DTZ007 - the camera may name no zone
    except ValueError:
        return None
    zone = _zone(offset)
    return moment.replace(tzinfo=zone)


def _position(exif: Image.Exif) -> tuple[float, float] | None:
    """GPSLatitude and GPSLongitude (Exif 2.31, 4.6.6) in degrees, north and east positive."""
    gps = exif.get_ifd(ExifTags.IFD.GPSInfo)
    try:
        latitude = _degrees(gps[ExifTags.GPS.GPSLatitude], negative=gps[ExifTags.GPS.GPSLatitudeRef] == "S")
        longitude = _degrees(
            gps[ExifTags.GPS.GPSLongitude], negative=gps[ExifTags.GPS.GPSLongitudeRef] == "W"
        )
    except (KeyError, TypeError, ValueError, ZeroDivisionError):
        return None
    return latitude, longitude


def _degrees(parts: tuple[float, float, float], *, negative: bool) -> float:
    degrees, minutes, seconds = (float(part) for part in parts)
    size = degrees + minutes / 60 + seconds / 3600
    return -size if negative else size


def _zone(offset: str) -> timezone | None:
    try:
        moved = datetime.strptime(offset, "%z").utcoffset()
    except ValueError:
        return None
    return timezone(moved if moved is not None else timedelta())
