"""What a file of an archive holds, said in English and German."""

import pytest

from revealbook.present.faults import Held, say_held
from revealbook.present.words import words_in

RECORD = "record of opening {name}"


@pytest.mark.parametrize(
    ("versions", "english", "german"),
    [
        ((), "record of opening W 1", "Protokoll der Öffnung W 1"),
        ((2,), "record of opening W 1, version 2", "Protokoll der Öffnung W 1, Fassung 2"),
        ((2, 3, 4), "record of opening W 1, versions 2 to 4", "Protokoll der Öffnung W 1, Fassungen 2 bis 4"),
        ((1, 3), "record of opening W 1, versions 1, 3", "Protokoll der Öffnung W 1, Fassungen 1, 3"),
    ],
)
def test_what_a_file_holds_is_said_with_its_versions(
    versions: tuple[int, ...], english: str, german: str
) -> None:
    held = Held(RECORD, "W 1", versions)
    assert say_held([held], words_in("en")) == english
    assert say_held([held], words_in("de")) == german


def test_several_things_are_set_apart_and_nothing_is_nothing() -> None:
    two = [Held("the site file", versions=(1,)), Held("{name}", "other/{file}", (1,))]
    assert say_held(two, words_in("en")) == "the site file, version 1; other/{file}, version 1"
    assert say_held((), words_in("en")) == ""
