from revealbook.source.place import Place


def test_a_place_is_written_as_editors_read_it() -> None:
    assert str(Place("openings/W-2.07.yaml", 41, 5)) == "openings/W-2.07.yaml:41:5"


def test_what_is_not_known_of_a_place_is_left_out() -> None:
    assert str(Place("site.yaml", 3)) == "site.yaml:3"
    assert str(Place("site.yaml")) == "site.yaml"


def test_places_sort_by_file_then_line_then_column_as_numbers() -> None:
    places = [Place("b", 1, 1), Place("a", 10, 1), Place("a", 9, 3), Place("a", 9, 1), Place("a")]
    assert sorted(places) == [
        Place("a"), Place("a", 9, 1), Place("a", 9, 3), Place("a", 10, 1), Place("b", 1, 1),
    ]  # fmt: skip
