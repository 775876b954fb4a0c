"""Names that every file system takes."""

import pytest

from revealbook.archive.names import ContentNames, check_paths, check_site
from revealbook.archive.refusal import Refused


@pytest.mark.parametrize("site", ["larch-court", "A", "12", "Larch Court + yard_2.1", "con-crete", "nulls"])
def test_an_id_that_every_system_takes_is_a_folders_name(site: str) -> None:
    check_site(site)


@pytest.mark.parametrize(
    "site",
    ["", "a/b", "a.", "a ", ".a", "-a", "..", "a\\b", "a:b", "é", "a" * 61, "a\n", "x*", "a\x00b"],
)
def test_an_id_with_other_signs_or_at_its_end_a_point_or_blank_is_refused(site: str) -> None:
    with pytest.raises(Refused, match="cannot be a folder of the archive: it may hold letters"):
        check_site(site)


@pytest.mark.parametrize(
    "site", ["con", "NUL", "Com1", "lpt9.old", "aux .x", "extensions", "ocfl_layout.json", "OCFL_x"]
)
def test_an_id_that_windows_or_the_standard_keeps_is_refused(site: str) -> None:
    with pytest.raises(Refused, match="is kept by Windows or by the archive standard"):
        check_site(site)


def test_an_id_that_differs_by_capitals_only_is_refused_and_the_same_one_is_not() -> None:
    check_site("larch", ["larch", "alder"])
    with pytest.raises(Refused, match="holds larch, which some systems cannot tell"):
        check_site("Larch", ["larch"])


@pytest.mark.parametrize(
    "path", ["", "/a", "a/", "a//b", "../a", "a/../b", "./a", "a\\b", "a\nb", "a\x1bb", "a\x85b", "a\udc80b"]
)
def test_a_path_that_leads_elsewhere_or_cannot_be_written_is_refused(path: str) -> None:
    with pytest.raises(Refused, match="cannot be a file's path"):
        check_paths([path])


def test_a_path_that_is_a_folder_of_another_is_refused() -> None:
    check_paths(["a/b", "a/c", "ab", "a.b/c", "Screenshot 9.41\u202fAM.png", "ü"])
    with pytest.raises(Refused, match="a/b would be a file and a folder"):
        check_paths(["a/b", "a/b/c"])


def test_content_lies_under_its_own_path() -> None:
    assert ContentNames().give("v2/content", "photos/W 1.jpg") == "v2/content/photos/W 1.jpg"


@pytest.mark.parametrize(
    ("logical", "content"),
    [
        ("a:b.jpg", "a%3Ab.jpg"),
        ('what?"<>|*.jpg', "what%3F%22%3C%3E%7C%2A.jpg"),
        ("100%.jpg", "100%25.jpg"),
        ("dot./file", "dot%2E/file"),
        ("blank /file", "blank%20/file"),
        ("con.jpg", "%63on.jpg"),
        ("x/AUX", "x/%41UX"),
        ("a~2.jpg", "a%7E2.jpg"),
    ],
)
def test_what_some_system_does_not_take_is_written_otherwise(logical: str, content: str) -> None:
    assert ContentNames().give("v1/content", logical) == f"v1/content/{content}"


@pytest.mark.parametrize(
    ("first", "second", "content"),
    [
        ("a/W.jpg", "a/w.jpg", "a/w~2.jpg"),
        ("a/W", "A/w", "A/w~2"),
        ("x.y/W", "x.y/w", "x.y/w~2"),
        ("\u00fc.jpg", "u\u0308.jpg", "u\u0308~2.jpg"),
    ],
)
def test_names_that_a_system_takes_for_one_another_are_numbered(
    first: str, second: str, content: str
) -> None:
    names = ContentNames([f"v1/content/{first}"])
    assert names.give("v1/content", second) == f"v1/content/{content}"
    assert names.give("v1/content", second) == f"v1/content/{content.replace('~2', '~3')}"


def test_a_name_too_long_for_a_file_system_is_shortened_and_stays_its_own() -> None:
    names = ContentNames()
    one, other = (names.give("v1/content", "ü" * 180 + end) for end in ("a.jpg", "b.jpg"))
    assert one != other
    assert all(len(path.split("/")[-1].encode()) <= 200 for path in (one, other))
