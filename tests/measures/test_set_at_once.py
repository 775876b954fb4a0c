import pytest
from tests.builders import build, value

from revealbook.measures.work import Work


def bonded(*, chosen: bool | None, allowed: bool | None, screwed: str | None = None) -> Work:
    site = {"products": {"adhesives": [{"id": "bond", "load_at_once_on_screws": allowed}]}}
    window = {"set_on_screws": chosen, "set_at": "2026-11-20T12:00+01:00"}
    return build({"frame": {"bonding": [{"product": "bond"}], "screwed_at": screwed}, "window": window}, site)


@pytest.mark.parametrize(
    ("chosen", "allowed", "counts"),
    [
        (True, True, True),
        (True, False, False),
        (True, None, False),
        (None, True, False),
        (False, True, False),
    ],
)
def test_the_screws_carry_only_where_that_was_chosen_and_the_supplier_allows_it(
    chosen: bool | None, allowed: bool | None, counts: bool
) -> None:
    assert value(bonded(chosen=chosen, allowed=allowed), "load_on_screws") is counts


def test_the_frame_is_screwed_before_the_window_is_set_on_it() -> None:
    work = bonded(chosen=True, allowed=True, screwed="2026-11-20T11:30+01:00")
    assert value(work, "screwed_before_load") == 0.5
    unknown = bonded(chosen=True, allowed=True)
    assert value(unknown, "screwed_before_load") == "missing screwed_at at frame.screwed_at"
