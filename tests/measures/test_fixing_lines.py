from typing import Any

from tests.builders import build

from revealbook.measures.fixing_lines import Line, Resistance, line_of, resistance, support_fixings
from revealbook.measures.method import METHOD_OF_FORMAT_1, Method
from revealbook.measures.reading import Missing
from revealbook.measures.work import Work

PRODUCTS = {
    "fixings": [
        {"id": "long", "tension_design_n": 900, "shear_design_n": 1400},
        {"id": "short", "tension_design_n": 1100, "shear_design_n": 700},
        {"id": "silent"},
    ]
}


def piece(*sets: dict[str, Any], length_mm: float | None = 1500) -> Work:
    left = {"length_mm": length_mm, "fixings": list(sets)}
    return build({"frame": {"pieces": {"left": left}}}, {"products": PRODUCTS})


def test_sets_of_a_piece_make_one_line_in_rising_order() -> None:
    line = line_of(
        piece({"at_mm": [1300, 200], "product": "long"}, {"at_mm": [700], "product": "short"}), "left"
    )
    assert isinstance(line, Line)
    assert line.positions_mm == (200, 700, 1300)
    assert (line.number, line.length_mm, line.subject) == (3, 1500, ("left",))


def test_two_fixings_said_to_be_in_one_place_count_once() -> None:
    line = line_of(piece({"at_mm": [200, 700]}, {"at_mm": [700]}), "left")
    assert isinstance(line, Line)
    assert line.number == 2


def test_each_thing_that_a_line_lacks_is_named() -> None:
    lacking = line_of(piece({"product": "long"}, {"at_mm": [5000]}, {}, length_mm=None), "left")
    assert isinstance(lacking, tuple)
    assert not isinstance(lacking, Line)
    assert [(one.what, one.path[3:]) for one in lacking] == [
        ("length_mm", ("length_mm",)),
        ("at_mm", ("fixings", 0, "at_mm")),
        ("at_mm", ("fixings", 2, "at_mm")),
    ]
    assert line_of(piece(), "left") == (Missing(("left",), "at_mm", ("frame", "pieces", "left", "fixings")),)


def test_the_weakest_product_counts_for_each_kind_of_force() -> None:
    work = piece({"at_mm": [200], "product": "long"}, {"at_mm": [700], "product": "short"})
    line = line_of(work, "left")
    assert isinstance(line, Line)
    assert resistance(work, line) == Resistance(900, 700)


def test_resistances_that_no_data_sheet_states_are_named() -> None:
    work = piece({"at_mm": [200], "product": "silent"}, {"at_mm": [700]})
    line = line_of(work, "left")
    assert isinstance(line, Line)
    found = resistance(work, line)
    assert not isinstance(found, Resistance)
    assert [(one.what, one.path[4]) for one in found] == [
        ("tension_design_n", 0),
        ("shear_design_n", 0),
        ("product", 1),
    ]


PLACED = [
    {"fixed_to_wall": True, "holes": 2, "gap_mm": 0, "fixings": {"product": "long"}},
    {"fixed_to_wall": True},
    {"fixed_to_wall": False, "holes": 2, "gap_mm": 0},
    {"holes": 2, "gap_mm": 0},
    {"fixed_to_wall": True, "holes": 3, "gap_mm": 0},
    {"fixed_to_wall": True, "holes": 2, "gap_mm": 2},
]


def supported(*, placed: list[Any] | None = None, called_for: bool | None = None, first: bool = False) -> Any:
    supports = {"placed": placed, "called_for": called_for}
    method = Method.model_validate(dict(METHOD_OF_FORMAT_1)) if first else None
    found = list(support_fixings(build({"supports": supports}, None, method)))
    lines = [one for one in found if isinstance(one, Line)]
    return lines, [(one.subject, one.what) for one in found if isinstance(one, Missing)]


def test_only_supports_known_to_be_fixed_and_tight_bear() -> None:
    lines, missing = supported(placed=PLACED)
    assert [(line.subject[0], line.number) for line in lines] == [("support 1", 2), ("support 5", 3)]
    assert [line.products[0][0] for line in lines] == ["long", None]
    assert missing == [
        (("support 2",), "holes"),
        (("support 2",), "gap_mm"),
        (("support 4",), "fixed_to_wall"),
    ]


def test_supports_that_may_stand_there_unrecorded_are_missing() -> None:
    assert supported() == ([], [((), "placed")])
    assert supported(called_for=True) == ([], [((), "placed")])
    assert supported(called_for=False) == ([], [])
    assert supported(placed=[]) == ([], [])


def test_the_first_edition_left_unknown_supports_out_in_silence() -> None:
    lines, missing = supported(placed=PLACED, first=True)
    assert [line.subject[0] for line in lines] == ["support 1", "support 5", "support 6"]
    assert missing == []
    assert supported(first=True) == ([], [])
