import hashlib
from datetime import datetime
from pathlib import Path

import pytest
from PIL import ExifTags, Image, ImageCms, ImageFile

from revealbook.render.photos import NoPhoto, Photo, derive

GPS = {1: "N", 2: (48.0, 12.0, 30.0), 3: "E", 4: (16.0, 22.0, 0.0)}


def shot(
    file: Path, size: tuple[int, int] = (400, 200), orientation: int = 1, detail: dict[str, str] | None = None
) -> Path:
    """A grey picture, its top left quarter red, with the EXIF of a phone."""
    image = Image.new("RGB", size, "grey")
    image.paste("red", (0, 0, size[0] // 2, size[1] // 2))
    exif = image.getexif()
    exif[ExifTags.Base.Orientation] = orientation
    exif[ExifTags.Base.Model] = "Camera model"
    exif.get_ifd(ExifTags.IFD.GPSInfo).update(GPS)
    exif.get_ifd(ExifTags.IFD.Exif).update(
        {ExifTags.Base[name]: value for name, value in (detail or {}).items()}
    )
    image.save(file, exif=exif, comment=b"somebody", quality=95)
    return file


def derived(original: Path, **options: int) -> Photo:
    photo = derive(original, original.parent / "cache", **options)
    assert isinstance(photo, Photo), photo
    return photo


def refused(original: Path) -> str:
    photo = derive(original, original.parent / "cache")
    assert isinstance(photo, NoPhoto)
    assert photo.original == original
    return photo.why


def test_place_camera_and_comment_are_gone_and_the_original_is_untouched(tmp_path: Path) -> None:
    original = shot(tmp_path / "a.jpg")
    before = original.read_bytes()
    photo = derived(original)
    assert original.read_bytes() == before
    content = photo.derivative.read_bytes()
    for secret in (b"Camera model", b"somebody"):
        assert secret in before
        assert secret not in content
    with Image.open(original) as old, Image.open(photo.derivative) as new:
        assert old.getexif().get_ifd(ExifTags.IFD.GPSInfo)
        assert not new.getexif()
        assert set(new.info) <= {"jfif", "jfif_version", "jfif_unit", "jfif_density"}


def test_the_position_is_told_apart_from_the_picture(tmp_path: Path) -> None:
    position = derived(shot(tmp_path / "a.jpg")).position
    assert position == (48.0 + 12 / 60 + 30 / 3600, 16.0 + 22 / 60)


def test_south_and_west_are_negative_and_no_position_is_none(tmp_path: Path) -> None:
    image = Image.new("RGB", (100, 100))
    exif = image.getexif()
    exif.get_ifd(ExifTags.IFD.GPSInfo).update({1: "S", 2: (10.0, 30.0, 0.0), 3: "W", 4: (20.0, 0.0, 36.0)})
    image.save(tmp_path / "south.jpg", exif=exif)
    image.save(tmp_path / "nowhere.jpg")
    assert derived(tmp_path / "south.jpg").position == (-10.5, -20.01)
    assert derived(tmp_path / "nowhere.jpg").position is None


def test_the_digest_is_the_original_s(tmp_path: Path) -> None:
    original = shot(tmp_path / "a.jpg")
    photo = derived(original)
    assert photo.sha256 == hashlib.sha256(original.read_bytes()).hexdigest()
    assert photo.address == photo.derivative.name
    assert photo.address.startswith(photo.sha256)


@pytest.mark.parametrize(
    ("orientation", "size", "red"),
    [(1, (400, 200), (0, 0)), (3, (400, 200), (1, 1)), (6, (200, 400), (1, 0)), (8, (200, 400), (0, 1))],
)
def test_a_picture_taken_sideways_stands_upright(
    tmp_path: Path, orientation: int, size: tuple[int, int], red: tuple[int, int]
) -> None:
    photo = derived(shot(tmp_path / "a.jpg", orientation=orientation))
    assert (photo.width_px, photo.height_px) == size
    with Image.open(photo.derivative) as image:
        x, y = (size[axis] * (1 + 2 * red[axis]) // 4 for axis in (0, 1))
        pixel = image.getpixel((x, y))
    assert isinstance(pixel, tuple)
    assert pixel[0] > 200
    assert pixel[1] < 100


def test_the_long_side_is_scaled_down_never_up(tmp_path: Path) -> None:
    original = shot(tmp_path / "a.jpg", size=(1200, 600))
    assert derived(original, long_side_px=300).width_px == 300
    assert derived(original, long_side_px=300).height_px == 150
    assert derived(original, long_side_px=2000).width_px == 1200


def test_a_derivative_is_made_once_and_for_each_size_and_quality(tmp_path: Path) -> None:
    original = shot(tmp_path / "a.jpg")
    first = derived(original).derivative
    first.write_bytes(derived(shot(tmp_path / "b.jpg", size=(100, 100))).derivative.read_bytes())
    assert derived(original).width_px == 100, "taken from the cache"
    assert derived(original, long_side_px=200).width_px == 200
    assert derived(original, quality=50).width_px == 400
    assert not list(first.parent.glob("*.part"))


def test_a_derivative_has_the_same_bytes_each_time(tmp_path: Path) -> None:
    original = shot(tmp_path / "a.jpg")
    one, two = derive(original, tmp_path / "one"), derive(original, tmp_path / "two")
    assert isinstance(one, Photo)
    assert isinstance(two, Photo)
    assert one.derivative.read_bytes() == two.derivative.read_bytes()


@pytest.mark.parametrize(
    ("detail", "taken"),
    [
        (
            {"DateTimeOriginal": "2026:11:20 10:15:00", "OffsetTimeOriginal": "+01:00"},
            "2026-11-20T10:15:00+01:00",
        ),
        (
            {"DateTimeOriginal": "2026:11:20 10:15:00", "OffsetTimeOriginal": "-03:30"},
            "2026-11-20T10:15:00-03:30",
        ),
        ({"DateTimeOriginal": "2026:11:20 10:15:00", "OffsetTimeOriginal": "   :  "}, "2026-11-20T10:15:00"),
        ({"DateTimeOriginal": "2026:11:20 10:15:00"}, "2026-11-20T10:15:00"),
        ({"DateTimeOriginal": "0000:00:00 00:00:00"}, None),
        ({"DateTime": "2026:11:20 10:15:00"}, None),
        ({}, None),
    ],
)
def test_the_time_taken_is_what_the_camera_says_and_no_more(
    tmp_path: Path, detail: dict[str, str], taken: str | None
) -> None:
    expected = None if taken is None else datetime.fromisoformat(taken)
    found = derived(shot(tmp_path / "a.jpg", detail=detail)).taken
    assert found == expected
    assert found is None or expected is None or found.utcoffset() == expected.utcoffset()


def test_a_missing_photograph_is_named(tmp_path: Path) -> None:
    assert (
        refused(tmp_path / "none.jpg")
        == f"The photograph {tmp_path / 'none.jpg'} is missing or cannot be read."
    )
    assert "missing or cannot be read" in refused(tmp_path)


@pytest.mark.parametrize("name", ["a.gif", "a.bmp", "a.tiff", "a.ppm"])
def test_other_formats_are_refused_whatever_they_are_called(tmp_path: Path, name: str) -> None:
    Image.new("RGB", (20, 20)).save(tmp_path / name)
    (tmp_path / name).rename(tmp_path / "a.jpg")
    assert refused(tmp_path / "a.jpg").endswith("is no JPEG, PNG, WebP or HEIC picture.")


@pytest.mark.parametrize("lenient", [False, True])
def test_a_damaged_photograph_is_refused(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, lenient: bool
) -> None:
    monkeypatch.setattr(ImageFile, "LOAD_TRUNCATED_IMAGES", lenient)  # the typesetter switches it on for all
    original = shot(tmp_path / "a.jpg")
    original.write_bytes(original.read_bytes()[:-900])
    assert "damaged" in refused(original)
    (tmp_path / "text.jpg").write_text("width_mm: 1230")
    assert "is no JPEG" in refused(tmp_path / "text.jpg")
    assert not list((tmp_path / "cache").glob("*"))


@pytest.mark.parametrize(("side", "words"), [(8000, "more than 60 million pixels"), (14000, "too large")])
def test_a_small_file_with_a_huge_picture_is_refused_before_it_is_unpacked(
    tmp_path: Path, side: int, words: str
) -> None:
    Image.new("1", (side, side)).save(tmp_path / "bomb.png")
    assert (tmp_path / "bomb.png").stat().st_size < 50_000
    assert words in refused(tmp_path / "bomb.png")


@pytest.mark.parametrize("mode", ["RGBA", "LA", "L", "1"])
def test_png_and_webp_of_every_kind_become_plain_pictures_on_white(tmp_path: Path, mode: str) -> None:
    image = Image.new("RGBA", (120, 120), (0, 0, 0, 0)).convert(mode)
    image.save(tmp_path / "a.png")
    with Image.open(derived(tmp_path / "a.png").derivative) as found:
        assert found.mode == "RGB"
        assert found.getpixel((60, 60)) == ((255, 255, 255) if mode in ("RGBA", "LA") else (0, 0, 0))
    Image.new("RGB", (120, 120), "red").save(tmp_path / "a.webp")
    assert derived(tmp_path / "a.webp").width_px == 120


def test_colours_of_another_colour_space_are_converted(tmp_path: Path) -> None:
    """The page knows sRGB only. The picture's own space here has red and blue changed about."""
    space = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    swapped = space.replace(b"rXYZ", b"?XYZ").replace(b"bXYZ", b"rXYZ").replace(b"?XYZ", b"bXYZ")
    Image.new("RGB", (120, 120), (200, 40, 40)).save(tmp_path / "a.jpg", icc_profile=swapped, quality=95)
    with Image.open(derived(tmp_path / "a.jpg").derivative) as found:
        pixel = found.getpixel((60, 60))
        assert "icc_profile" not in found.info
    assert isinstance(pixel, tuple)
    assert pixel[2] > 190
    assert pixel[0] < 50


def test_a_damaged_colour_space_leaves_the_colours_as_they_are(tmp_path: Path) -> None:
    Image.new("RGB", (120, 120), (200, 40, 40)).save(tmp_path / "a.jpg", icc_profile=b"none", quality=95)
    with Image.open(derived(tmp_path / "a.jpg").derivative) as found:
        pixel = found.getpixel((60, 60))
    assert isinstance(pixel, tuple)
    assert abs(pixel[0] - 200) < 6


@pytest.mark.parametrize(
    "options", [{"long_side_px": 99}, {"long_side_px": 6001}, {"quality": 39}, {"quality": 96}]
)
def test_nonsense_sizes_are_refused(tmp_path: Path, options: dict[str, int]) -> None:
    with pytest.raises(ValueError, match="100 to 6000 px"):
        derive(shot(tmp_path / "a.jpg"), tmp_path, **options)
