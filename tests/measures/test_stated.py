from tests.builders import build

from revealbook.measures.stated import is_stated

BOX = ("window", "shutter_box")


def test_a_blank_part_says_as_little_as_none_and_a_no_is_said() -> None:
    assert not is_stated(build(), BOX)
    assert not is_stated(build({"window": {"shutter_box": {"height_mm": None}}}), BOX)
    assert is_stated(build({"window": {"shutter_box": {"sealed_to_wall": False}}}), BOX)
