"""Versions tell in which of them an opening's outcomes changed; claims and repairs tell what came after."""

from datetime import datetime

from tests.present.judging import ENGLISH

from revealbook.present.agreement import Difference
from revealbook.present.story_filed import Filing, tell_filings, tell_later
from revealbook.records.afterwards import Claim, ProductUsed, Repair

FILED = datetime.fromisoformat("2026-12-01T09:00+01:00")
CLAIMED = datetime.fromisoformat("2036-02-11T10:30+01:00")
CLAIM = Claim(
    id="claim-1", site="s", mark="W-1.01", at=CLAIMED, by="Edda Blendrahmen", kind="claim", found="wet sill."
)
REPAIR = Repair(
    id="repair-1", site="s", mark="W-1.01", at=CLAIMED.replace(day=20), by="Ada Laibung", kind="repair",
    done="tape renewed", cause="tape loose", refers_to=("claim-1",),
    products=(ProductUsed(name="Example Tape", batch="0931"), ProductUsed(name="Example Primer")),
)  # fmt: skip


def test_every_version_says_whether_it_holds_the_opening_and_what_changed_on_it() -> None:
    change = Difference("W-1.01", "frame-overlap", "does not conform", "conforms: 82 mm")
    filings = [
        Filing(1, FILED, "ada", "filed", holds=False),
        Filing(2, FILED, "ada", "more", holds=True),
        Filing(3, FILED, "ben", "corrected", holds=True, changes=(change,)),
        Filing(4, FILED, "ben", "again", holds=True),
    ]
    said = tell_filings(filings, ENGLISH).sentences
    assert said[0] == "Version 1, filed 2026-12-01 09:00 by ada: filed. It does not hold this opening."
    assert said[1].endswith("more. It is the first to hold this opening.")
    assert said[2].endswith("corrected. Outcomes changed on this opening.")
    assert said[3] == ("Changed in version 3: frame-overlap: does not conform before, conforms: 82 mm since.")
    assert said[4].endswith("again. No outcome changed on this opening.")


def test_claims_and_repairs_are_told_in_order_of_time() -> None:
    said = tell_later([REPAIR, CLAIM], [], ENGLISH).sentences
    assert said == (
        "Claim claim-1, 2036-02-11 10:30, Edda Blendrahmen: wet sill. Cause: not shown.",
        (
            "Repair repair-1, 2036-02-20 10:30, Ada Laibung: tape renewed. Cause: tape loose. "
            "Products: Example Tape batch 0931 and Example Primer. About: claim-1."
        ),
    )


def test_without_claims_and_repairs_that_is_said() -> None:
    assert tell_later([], [], ENGLISH).sentences == ("No claim or repair has joined this opening.",)


def test_a_later_record_of_another_kind_is_named_and_not_passed_over() -> None:
    said = tell_later([CLAIM], ["afterwards/again.yaml"], ENGLISH).sentences
    assert said[-1] == "afterwards/again.yaml: no claim or repair; read it itself."
