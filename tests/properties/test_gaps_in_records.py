"""Whatever is left out of a record, it is measured without an error, and what is missing has its place."""

from copy import deepcopy
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic import ValidationError
from tests.builders import build, full_opening, full_site

from revealbook.measures.catalogue import CATALOGUE
from revealbook.measures.measure import measure
from revealbook.measures.reading import Missing
from revealbook.measures.work import Work

Changes = dict[tuple[Any, ...], Any]
OPENING, SITE = full_opening(), full_site()


def parts_of(data: Any, path: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    """Give the paths of all keys and list items."""
    inner = data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
    return [found for key, value in inner for found in ((*path, key), *parts_of(value, (*path, key)))]


def without(data: Any, paths: list[tuple[Any, ...]]) -> Any:
    """Leave parts out, those that stand last first, so that positions stay what they were."""
    data = deepcopy(data)
    for path in sorted(paths, key=lambda one: [(isinstance(part, int), part) for part in one], reverse=True):
        holder = data
        for part in path[:-1]:
            holder = holder[part]
        del holder[path[-1]]
    return data


def changed(data: Any, changes: Changes) -> Any:
    data = deepcopy(data)
    for path, value in changes.items():
        holder = data
        for part in path[:-1]:
            holder = holder[part]
        holder[path[-1]] = value
    return data


def outer(paths: list[tuple[Any, ...]]) -> list[tuple[Any, ...]]:
    """Keep the paths that do not lie within another."""
    return [
        path for path in paths if not any(path[: len(other)] == other for other in paths if other != path)
    ]


def valid(opening: Any, site: Any) -> Work | None:
    try:
        return build(opening, site)
    except ValidationError:
        return None


def measure_all(work: Work) -> None:
    for outcomes in measure(work, CATALOGUE).values():
        for outcome in outcomes:
            assert all(isinstance(part, str) for part in outcome.subject)
            assert outcome.path
            if isinstance(outcome, Missing):
                assert outcome.what


RECORD_PATHS = [path for path in parts_of(OPENING) if path[0] != "opening" or len(path) > 1]
# an instrument that is named and not known is refused before anything is measured
SITE_PATHS = [path for path in parts_of(SITE) if path[0] != "instruments"]
UNITS = ("_mm", "_c", "_pct", "_m")
LEAVES = [path for path in RECORD_PATHS if not any(other[:-1] == path for other in RECORD_PATHS)]
NUMBERS = [
    path
    for path in LEAVES
    if "instruments" not in path and (isinstance(path[-1], int) or path[-1].endswith(UNITS))
]
MOMENTS = [
    path for path in RECORD_PATHS if path[-1] in {"at", "set_at", "secured_at", "pressed_at", "fitted_at"}
]


@given(
    st.lists(st.sampled_from(RECORD_PATHS), max_size=12, unique=True).map(outer),
    st.lists(st.sampled_from(SITE_PATHS), max_size=6, unique=True).map(outer),
)
@settings(max_examples=120, deadline=None)
def test_a_record_with_gaps_is_measured_without_an_error(
    gaps: list[tuple[Any, ...]], site_gaps: list[tuple[Any, ...]]
) -> None:
    work = valid(without(OPENING, gaps), without(SITE, site_gaps))
    if work is not None:
        measure_all(work)


@given(st.dictionaries(st.sampled_from(RECORD_PATHS), st.sampled_from([None, [], {}]), max_size=6))
@settings(max_examples=80, deadline=None)
def test_a_record_with_empty_lists_and_sections_is_measured_without_an_error(changes: Changes) -> None:
    kept = {path: changes[path] for path in outer(list(changes))}
    work = valid(changed(OPENING, kept), SITE)
    if work is not None:
        measure_all(work)


ODD = st.sampled_from([0, 1, 5, 10, 20, 100, 500, 5000, 12_000, -40, 80, 0.5])
ANY_MOMENT = st.datetimes().map(lambda at: at.isoformat(timespec="minutes") + "Z")


@given(
    st.dictionaries(st.sampled_from(NUMBERS), ODD, min_size=1, max_size=8),
    st.dictionaries(st.sampled_from(MOMENTS), ANY_MOMENT, max_size=8),
)
@settings(max_examples=80, deadline=None)
def test_odd_numbers_and_moments_are_measured_without_an_error(numbers: Changes, moments: Changes) -> None:
    work = valid(changed(OPENING, numbers | moments), SITE)
    if work is not None:
        measure_all(work)
