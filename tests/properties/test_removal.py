"""Taking evidence away never helps: no rule that failed or was open is met, and none falls away, by it."""

import re
from collections.abc import Iterator, Mapping

from tests.properties.whole_records import (
    Keys,
    Whole,
    failing,
    judged,
    only,
    outcomes,
    parts,
    records,
    shipped,
    some,
    without,
)

from revealbook.rules.finding import Outcome

EXCEPTIONS: Mapping[str, str] = {
    r"nonconformities(\.#)?": "a fault nobody wrote down is one nobody can hold against its correction",
    r"concessions(\.#)?": "without a concession nobody need be entitled; the fault itself stays",
    r"tests(\.\w+)?": "a test that is not recorded was not made",
    r"seals\.events(\.#)?": "a step that nobody recorded cannot be known; each kind is asked for",
    r"left_out(\.#)?": "a statement that nobody made rules nothing out and needs nobody entitled",
    r"window\.sashes(\.#)?": "sashes that are not listed are tried as one window",
    r"window\.shutter_box": "a shutter box that is not told is none; the sum of the heights asks for it",
    r"hold_points\.#": "the latest look counts: without it the one before it stands",
    r"sign_offs\.#": "the latest signature counts: without it the one before it stands",
    r".*\.lengthwise_joints\.#": "pieces are told with their joints; one in a single length has none",
    r".*\.(holes_mm|at_mm|load_points_mm|screw_positions_mm)\.#": "a hole that is not told is none",
    r".*\.(fixings|placed|brackets)\.#": "a part that is not listed is none; holes and loads ask for it",
    r".*\.instruments\.#": "the record then says that the finer instrument beside it was used",
    r".*\.glass_panes_mm\.#": "a pane that is not told is none; the mass on the delivery note asks for it",
    r".*\.readings\.#": "a point of a test that is not told cannot be known; a least number is asked for",
    r"window\.(assembly_length_mm|couplings(\.#)?)": "a window of which no coupling is told stands by itself",
    r"plinth\.brackets\.#\.(fixed_to_wall|screwed_to_profile)": "a bracket that names its place is held",
    r".*\.photos\.#": "photographs are counted, not weighed",
}
"""Entries that stand for a thing or an act, by place, and why their absence cannot be told from its own."""


def shape(path: Keys) -> str:
    return ".".join("#" if isinstance(part, int) else part for part in path)


def excepted(path: Keys) -> bool:
    return any(re.fullmatch(place, shape(path)) for place in EXCEPTIONS)


def helped(before: Outcome, after: Outcome) -> bool:
    """Whether taking something away made a rule conform, or fall away."""
    if before is Outcome.DOES_NOT_APPLY or after is before:
        return False
    return after in {Outcome.CONFORMS, Outcome.DOES_NOT_APPLY}


def tried(wholes: tuple[Whole, ...], most: int) -> Iterator[tuple[Whole, Keys]]:
    pairs = [(whole, path) for whole in wholes for path in parts(whole.opening) if not excepted(path)]
    return iter(some(pairs, most))


def test_no_rule_is_helped_by_what_is_taken_out_of_a_record() -> None:
    found = []
    for whole, path in (*tried(shipped(), 300), *tried(records()[len(shipped()) :], 400)):
        after = outcomes(without(whole.opening, path), whole.around, whole.rules)
        before = judged(whole.name)
        found += [
            (whole.name, rule, shape(path))
            for rule, outcome in (after or {}).items()
            if helped(before[rule], outcome)
        ]
    assert found == []


def test_a_rule_that_is_broken_is_not_met_by_taking_something_away() -> None:
    """Each of the changes by which the rules' own cases break them, judged by that rule alone.

    A rule of another way of working falls away with the statement of that way: unstated, it is the ordinary
    way, whose rules apply. Whole sections stay, as one can state a way; the law above takes them out.
    """
    ordinary = judged(shipped()[0].name)
    found = []
    pairs = [
        (whole, rule, path)
        for whole, rule in failing()
        for path in parts(whole.opening)
        # what is recorded of something left out is all that this rule objects to
        if rule != "left-out-entitled" and len(path) > 1 and path[0] != "opening" and not excepted(path)
    ]
    for whole, rule, path in some(pairs, 5000):
        rules = only(whole.rules, rule)
        before = outcomes(whole.opening, whole.around, rules)
        after = outcomes(without(whole.opening, path), whole.around, rules)
        fallen = after and after[rule] is ordinary[rule] is Outcome.DOES_NOT_APPLY
        if before and after and helped(before[rule], after[rule]) and not fallen:
            found.append((whole.name, shape(path)))
    assert found == []
