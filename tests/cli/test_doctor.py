from collections.abc import Sequence

import pytest
from tests.cli.terminal import run

import revealbook.cli.doctor
from revealbook.render.doctor import Finding, examine


def test_every_part_that_was_looked_at_is_told_on_a_line() -> None:
    told = run("doctor")
    lines = told.out.splitlines()
    assert [line.split("  ", 1)[1].strip().split(":")[0] for line in lines] == [
        one.subject for one in examine()
    ]
    assert told.status == 0
    assert told.err == ""


@pytest.mark.parametrize(
    ("well", "needed", "sign", "status"),
    [(True, True, "well   ", 0), (False, True, "MISSING", 2), (False, False, "better ", 0)],
)
def test_only_what_is_needed_and_missing_gives_status_2(
    monkeypatch: pytest.MonkeyPatch,
    well: bool,
    needed: bool,
    sign: str,
    status: int,
) -> None:
    def found() -> Sequence[Finding]:
        return (Finding(subject="ink", well=well, needed=needed, words="Some."),)

    monkeypatch.setattr(revealbook.cli.doctor, "examine", found)
    told = run("doctor")
    assert (told.status, told.out) == (status, f"{sign}  ink: Some.\n")
