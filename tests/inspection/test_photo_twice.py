from tests.inspection.asking import ask

from revealbook.inspection.photo_twice import photo_twice

BEADS = "frame.photos"
OTHERS = {"survey.photos": None, "window.photos": None, "seals.photos": None}


def beads(file: str, shows: str = "beads") -> dict[str, object]:
    return {**OTHERS, BEADS: [{"file": file, "shows": shows}]}


def test_the_same_bytes_under_two_names_are_asked_about() -> None:
    photos = {"a.jpg": ("1", None), "b.jpg": ("1", None)}
    (found,) = ask(photo_twice, {"W-1": beads("a.jpg"), "W-2": beads("b.jpg")}, photos)
    assert (found.code, found.openings, found.facts["files"]) == (
        "same_picture",
        ("W-1", "W-2"),
        ("a.jpg", "b.jpg"),
    )
    assert found.spots[0].path == ("frame", "photos", 0)


def test_other_bytes_are_not() -> None:
    photos = {"a.jpg": ("1", None), "b.jpg": ("2", None)}
    assert ask(photo_twice, {"W-1": beads("a.jpg"), "W-2": beads("b.jpg")}, photos) == []


def test_one_file_in_two_records_is_asked_about() -> None:
    (found,) = ask(photo_twice, {"W-1": beads("a.jpg"), "W-2": beads("a.jpg")})
    assert (found.code, found.openings) == ("same_file", ("W-1", "W-2"))


def test_a_picture_that_says_that_it_shows_both_is_not() -> None:
    assert ask(photo_twice, {"W-1": beads("W-1-and-W-2.jpg"), "W-2": beads("W-1-and-W-2.jpg")}) == []
    said = "W-1 on the left, W-2 on the right"
    assert ask(photo_twice, {"W-1": beads("a.jpg", said), "W-2": beads("a.jpg", said)}) == []


def test_a_picture_of_which_only_one_record_says_so_is() -> None:
    found = ask(photo_twice, {"W-1": beads("a.jpg", "W-1 and W-2"), "W-2": beads("a.jpg")})
    assert [one.code for one in found] == ["same_file"]


def test_one_file_twice_in_one_record_is_not() -> None:
    twice = {**beads("a.jpg"), "window.photos": [{"file": "a.jpg"}]}
    assert ask(photo_twice, {"W-1": twice}) == []
