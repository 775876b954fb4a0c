from pathlib import Path

import pytest
from PIL import Image

from revealbook.source.picture import fault_of, opened

HEIC = Path(__file__).parent / "phone.heic"
"""Drawn, 320 x 240; with the time and place that a phone writes into such a file."""


def drawn(file: Path, size: tuple[int, int] = (400, 300)) -> Path:
    image = Image.new("RGB", size, "grey")
    image.paste("red", (0, 0, size[0] // 2, size[1] // 2))
    image.save(file)
    return file


@pytest.mark.parametrize("name", ["a.jpg", "a.png", "a.webp"])
def test_a_whole_picture_is_right_under_any_name(tmp_path: Path, name: str) -> None:
    assert fault_of(drawn(tmp_path / name)) is None
    assert fault_of((tmp_path / name).rename(tmp_path / "IMG_0001.HEIC")) is None


def test_the_picture_of_a_phone_is_read_with_its_time() -> None:
    assert fault_of(HEIC) is None
    with HEIC.open("rb") as stream, opened(stream) as image:
        assert (image.format, image.size) == ("HEIF", (320, 240))
        assert image.getexif().get_ifd(0x8769)[0x9003] == "2026:11:20 09:31:07"
        red, green, _ = image.convert("RGB").getpixel((60, 45))  # type: ignore[misc]
        assert red > 150
        assert green < 100


@pytest.mark.parametrize("content", [b"", b"width_mm: 1230\n", b"\0\0\0\x1cftypheic", b"%PDF-1.7\n"])
def test_what_is_no_picture_is_told(tmp_path: Path, content: bytes) -> None:
    (tmp_path / "IMG_0001.HEIC").write_bytes(content)
    assert fault_of(tmp_path / "IMG_0001.HEIC") == "photo_not_a_picture"


@pytest.mark.parametrize("name", ["a.gif", "a.bmp", "a.tiff"])
def test_a_picture_of_another_format_is_none(tmp_path: Path, name: str) -> None:
    assert fault_of(drawn(tmp_path / name)) == "photo_not_a_picture"


@pytest.mark.parametrize("name", ["a.jpg", "a.png", "a.webp"])
def test_half_a_picture_is_told(tmp_path: Path, name: str) -> None:
    whole = drawn(tmp_path / name).read_bytes()
    (tmp_path / name).write_bytes(whole[: len(whole) * 2 // 3])
    assert fault_of(tmp_path / name) == "photo_cut_short"


def test_half_a_picture_of_a_phone_is_told(tmp_path: Path) -> None:
    (tmp_path / "a.heic").write_bytes(HEIC.read_bytes()[:-40])
    assert fault_of(tmp_path / "a.heic") in {"photo_not_a_picture", "photo_cut_short"}


def test_what_a_phone_appends_to_a_picture_does_no_harm(tmp_path: Path) -> None:
    file = drawn(tmp_path / "a.jpg")
    file.write_bytes(file.read_bytes() + b"\0" * 200_000)
    assert fault_of(file) is None


@pytest.mark.parametrize("side", [8000, 14000])
def test_a_picture_of_too_many_pixels_is_told(tmp_path: Path, side: int) -> None:
    Image.new("1", (side, side)).save(tmp_path / "a.png")
    assert fault_of(tmp_path / "a.png") == "photo_too_large"


def test_a_sound_picture_is_not_decoded(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def decoded(_: object) -> None:
        raise AssertionError

    file = drawn(tmp_path / "a.jpg")
    monkeypatch.setattr("PIL.ImageFile.ImageFile.load", decoded)
    assert fault_of(file) is None
