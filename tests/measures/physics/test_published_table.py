import pytest

from revealbook.measures.physics.published_table import CERTAINTIES, row, rows

TABLES = [
    "wind_terrain",
    "wall_pressure_coefficients",
    "thermal_expansion",
    "din_18202_flatness",
]


@pytest.mark.parametrize("name", TABLES)
def test_every_row_names_its_source_and_how_sure_it_is(name: str) -> None:
    assert rows(name)
    for cells in rows(name):
        assert cells["source"]
        assert cells["tag"] in CERTAINTIES


@pytest.mark.parametrize("name", TABLES)
def test_no_row_is_printed_twice(name: str) -> None:
    printed = [tuple(cells.values()) for cells in rows(name)]
    assert len(set(printed)) == len(printed)


def test_a_table_is_read_once() -> None:
    assert rows("wind_terrain") is rows("wind_terrain")


def test_a_row_cannot_be_changed() -> None:
    with pytest.raises(TypeError):
        rows("wind_terrain")[0]["z0_m"] = "7"  # type: ignore[index]


def test_a_row_is_found_by_its_key() -> None:
    assert row("wind_terrain", "category", "III")["z0_m"] == "0.3"


def test_an_unknown_key_is_refused_and_the_known_ones_are_named() -> None:
    with pytest.raises(ValueError, match="no category 'V'; it has 0, I, II, III, IV"):
        row("wind_terrain", "category", "V")


def test_an_unknown_table_is_refused() -> None:
    with pytest.raises(ValueError, match="no published table is called 'wind'"):
        rows("wind")


def test_what_is_remembered_only_says_so() -> None:
    tags = {cells["material"]: cells["tag"] for cells in rows("thermal_expansion")}
    assert tags["GRP pultruded"] == "from memory"
