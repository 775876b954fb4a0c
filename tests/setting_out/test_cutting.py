import sys

import pytest

from revealbook.setting_out.cutting import Cut, CuttingList, _attainable, _material_bound, cutting_list
from revealbook.setting_out.refusal import NotPossible, Reason
from revealbook.setting_out.stock import Demand, Size


def made(
    lengths_mm: list[int], stock_mm: tuple[int, ...] = (6000,), kerf_mm: int = 4, **more: object
) -> CuttingList:
    cuts = [Cut(length, f"piece {number}") for number, length in enumerate(lengths_mm, start=1)]
    usable = more.pop("usable_offcut_mm", 500)
    found = cutting_list(cuts, stock_mm, kerf_mm=kerf_mm, usable_offcut_mm=usable, **more)  # type: ignore[arg-type]
    assert isinstance(found, CuttingList), found
    return found


def test_nothing_to_cut_takes_no_stock() -> None:
    empty = made([])
    assert (empty.bars, empty.bought_mm, empty.bound_mm, empty.waste_pct, empty.gap_pct) == (
        (),
        0,
        0,
        0.0,
        0.0,
    )


def test_one_bar_is_written_out_to_the_millimetre() -> None:
    (bar,) = made([2000, 1390]).bars
    assert [cut.length_mm for cut in bar.cuts] == [2000, 1390]
    assert (bar.kerf_mm, bar.offcut_mm, bar.from_store) == (8, 2602, False)


def test_the_last_piece_of_a_full_bar_needs_no_cut() -> None:
    (bar,) = made([2998, 2998]).bars
    assert (bar.kerf_mm, bar.offcut_mm) == (4, 0)


def test_a_rest_narrower_than_the_kerf_goes_with_the_saw() -> None:
    (bar,) = made([2997, 2997]).bars
    assert (bar.kerf_mm, bar.offcut_mm) == (6, 0)


def test_the_kerf_decides_whether_pieces_share_a_bar() -> None:
    assert len(made([3000, 3000], kerf_mm=0).bars) == 1
    assert len(made([3000, 3000], kerf_mm=1).bars) == 2


def test_labels_stay_with_their_lengths() -> None:
    cuts = [Cut(1390, "W-1 top"), Cut(1480, "W-1 left"), Cut(1390, "W-1 bottom"), Cut(1480, "W-1 right")]
    found = cutting_list(cuts, [6000], kerf_mm=4, usable_offcut_mm=500)
    assert isinstance(found, CuttingList)
    assert sorted(cut for bar in found.bars for cut in bar.cuts) == sorted(cuts)


def test_the_order_of_the_pieces_changes_nothing() -> None:
    cuts = [Cut(700 + 37 * k % 1900, f"{k:02}") for k in range(40)]
    found = cutting_list(cuts, [6000], kerf_mm=4, usable_offcut_mm=500)
    assert found == cutting_list(cuts[::-1], [6000], kerf_mm=4, usable_offcut_mm=500)


def test_usable_offcuts_go_back_to_the_store_and_are_no_waste() -> None:
    kept, lost = made([2000, 1390], usable_offcut_mm=2602), made([2000, 1390], usable_offcut_mm=2603)
    assert (kept.returned_mm, lost.returned_mm) == ((2602,), ())
    assert kept.waste_pct == pytest.approx(100 * 8 / 6000)
    assert lost.waste_pct == pytest.approx(100 * 2610 / 6000)


def test_an_offcut_from_the_store_saves_new_stock() -> None:
    found = made([1390], offcuts_mm=(1200, 1400, 2900))
    assert (found.bought_mm, found.bound_mm) == (0, 0)
    assert [(bar.stock_mm, bar.from_store) for bar in found.bars] == [(1400, True)]


def test_an_offcut_is_used_once_only() -> None:
    found = made([1390, 1390, 1390], offcuts_mm=(1390, 1390))
    assert sorted((bar.stock_mm, bar.from_store) for bar in found.bars) == [
        (1390, True),
        (1390, True),
        (6000, False),
    ]


def test_an_offcut_that_quick_rules_waste_is_put_to_its_best_use() -> None:
    # Both pieces of 900 fit the offcut of 1804 and leave one bar for the rest; anything else takes two.
    found = made([2900, 2900, 900, 900, 180], offcuts_mm=(1804,))
    assert found.bought_mm == found.bound_mm == 6000


def test_the_shortest_stock_that_holds_the_pieces_is_bought() -> None:
    assert [bar.stock_mm for bar in made([1390, 1390], stock_mm=(6000, 2500, 4000)).bars] == [4000]


def test_stock_lengths_are_mixed_where_that_saves() -> None:
    found = made([2990, 2990, 2990, 2400], stock_mm=(6000, 3000))
    assert found.bought_mm == found.bound_mm == 12000


def test_patterns_beat_the_quick_rules(monkeypatch: pytest.MonkeyPatch) -> None:
    lengths = [635, 635, 1010, 1300, 1300, 1390, 1390, 1390, 1480, 1996, 2260, 2998]
    found = made(lengths)
    assert (found.bought_mm, found.bound_mm) == (18000, 18000)
    assert found.method.startswith("column generation")
    monkeypatch.setitem(sys.modules, "revealbook.setting_out.patterns", None)
    assert made(lengths).bought_mm == 24000


def test_a_piece_longer_than_the_stock_is_refused() -> None:
    found = cutting_list([Cut(6001, "top")], [4000, 6000], kerf_mm=4, usable_offcut_mm=500, offcuts_mm=[9000])
    assert isinstance(found, NotPossible)
    assert (found.reason, found.mm("length"), found.mm("stock")) == (
        Reason.PIECE_LONGER_THAN_STOCK,
        6001,
        6000,
    )


# Two bars' worth of material that no two bars can hold: 3 x 3500 from 6000.
HARD = [3500, 3500, 3500]


def test_the_bound_knows_more_than_the_material() -> None:
    found = made(HARD)
    assert found.bought_mm == found.bound_mm == 18000


def test_without_scipy_a_quick_rule_answers_and_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "revealbook.setting_out.patterns", None)
    found = made(HARD)
    assert "scipy is not installed" in found.method
    assert (found.bought_mm, found.bound_mm) == (18000, 12000)
    assert found.gap_pct == pytest.approx(50.0)


@pytest.mark.parametrize(
    ("changed", "words"),
    [
        ({"stock_mm": ()}, "at least one length of stock"),
        ({"stock_mm": (0,)}, "stock_mm"),
        ({"kerf_mm": -1}, "kerf_mm"),
        ({"usable_offcut_mm": -1}, "usable_offcut_mm"),
        ({"offcuts_mm": (0,)}, "offcuts_mm"),
        ({"lengths_mm": [0]}, "length_mm"),
    ],
)
def test_nonsense_is_an_error(changed: dict[str, object], words: str) -> None:
    with pytest.raises(ValueError, match=words):
        made(**{"lengths_mm": [1390], **changed})  # type: ignore[arg-type]


def test_worked_example_of_the_documentation() -> None:
    pieces = [
        Cut(length, f"W-{number} {name}")
        for number, width, height in (
            (1, 1230, 1480),
            (2, 1230, 1480),
            (3, 1230, 1480),
            (4, 885, 2135),
            (5, 885, 2135),
        )
        for name, length in (
            ("bottom", width + 160),
            ("left", height),
            ("right", height),
            ("top", width + 160),
        )
    ]
    found = cutting_list(pieces, [6000], kerf_mm=4, usable_offcut_mm=500)
    assert isinstance(found, CuttingList)
    assert sum(cut.length_mm for cut in pieces) == 29940
    assert (len(found.bars), found.bought_mm, found.bound_mm, found.gap_pct) == (6, 36000, 36000, 0.0)
    assert found.returned_mm == (4951,)
    assert found.waste_pct == pytest.approx(3.08, abs=0.005)


@pytest.mark.parametrize(
    ("mm", "stock_mm", "total"),
    [
        (0, (6000,), 0), (-5, (6000,), 0), (1, (6000,), 6000), (6000, (6000,), 6000),
        (6000.00009, (6000,), 6000), (6000.0002, (6000,), 12000), (6001, (6000, 4000), 8000),
        (7999, (6000, 4000), 8000), (8001, (6000, 4000), 10000),
    ],
)  # fmt: skip
def test_a_bound_is_rounded_up_to_whole_steps_of_the_stock(
    mm: float, stock_mm: tuple[int, ...], total: int
) -> None:
    assert _attainable(mm, stock_mm) == total


@pytest.mark.parametrize(
    ("counts", "sizes", "bound"),
    [
        ((2,), (Size(6000, None),), 6004 * 6000 / 6004),
        ((3,), (Size(6000, None),), 9006 * 6000 / 6004),
        ((3,), (Size(1000, 2), Size(6000, None)), (9006 - 2 * 1004) * 6000 / 6004),
        ((3,), (Size(6000, None), Size(3000, None)), 9006 * 3000 / 3004),
        ((1,), (Size(4000, 1), Size(6000, None)), 0),
    ],
)
def test_the_material_alone_bounds_what_is_bought(
    counts: tuple[int, ...], sizes: tuple[Size, ...], bound: float
) -> None:
    """A piece takes its length and a kerf of 4 mm, a bar holds its length and one kerf more."""
    assert _material_bound(Demand((2998,), counts, 4), sizes) == pytest.approx(bound)


def test_an_offcut_of_nothing_never_goes_back_to_the_store() -> None:
    assert made([2998, 2998], usable_offcut_mm=0).returned_mm == ()
    assert made([2998, 2997], usable_offcut_mm=0).returned_mm == ()
    assert made([2998, 2993], usable_offcut_mm=0).returned_mm == (1,)


def test_offcuts_go_back_longest_first_and_one_that_saves_nothing_stays_in_the_store() -> None:
    found = made([5000, 1300, 4000], offcuts_mm=(2000,), usable_offcut_mm=500)
    assert found.returned_mm == (996, 692)
    assert (found.bought_mm, [bar.from_store for bar in found.bars]) == (12000, [False, False])
    assert found.waste_pct == pytest.approx(100 * 12 / 12000)
