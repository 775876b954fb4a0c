"""What openings are looked up and traced by."""

from datetime import UTC, date, datetime
from typing import Any

import pytest

from revealbook.lookup.terms import CAUSES, CLAIM, FITTER_DAY, Term, found_by, spelt, terms
from revealbook.present.facts_record import (
    Conceded,
    DatedEvent,
    Later,
    OpeningFacts,
    PersonDid,
    RuleOutcome,
    UsedFixing,
    UsedProduct,
)
from revealbook.rules.finding import Outcome

ADA = PersonDid(id="ada", name="Ada Fensterlein")
BOND = UsedProduct(use="adhesive", id="frame-bond", name="Example Frame Bond", batch="0412")
NOON = datetime(2026, 11, 20, 12, tzinfo=UTC)


def opening(**facts: Any) -> OpeningFacts:
    return OpeningFacts(site="elm", mark="W-2.07", outcome=Outcome.CONFORMS, **facts)


def of_kind(facts: OpeningFacts, kind: str) -> list[Term]:
    return [one for one in terms(facts) if one.kind == kind]


def rule(name: str, outcome: Outcome, *, weather: bool = False) -> RuleOutcome:
    return RuleOutcome(rule=name, outcome=outcome, weather=weather)


def test_a_product_is_found_by_its_name_its_id_and_each_word_of_its_name() -> None:
    [product] = of_kind(opening(products=(BOND,)), "product")
    assert product.name == "Example Frame Bond"
    assert set(product.keys) == {"example_frame_bond", "frame_bond", "example", "frame", "bond"}


def test_a_product_without_a_name_goes_by_its_id() -> None:
    [product] = of_kind(opening(products=(UsedProduct(use="foam", id="joint-foam"),)), "product")
    assert (product.name, product.key) == ("joint-foam", "joint_foam")


@pytest.mark.parametrize(
    ("use", "kind"),
    [
        ("adhesive", "adhesive batch"), ("foam", "foam batch"), ("inner tape", "tape batch"),
        ("outer tape", "tape batch"), ("seal", "batch"),
    ],
)  # fmt: skip
def test_a_batch_is_of_what_its_product_is_for(use: str, kind: str) -> None:
    [batch] = of_kind(opening(products=(UsedProduct(use=use, batch="F-2281"),)), kind)
    assert (batch.name, batch.keys) == ("batch F-2281", ("f_2281",))


def test_one_number_on_two_products_is_two_batches_found_by_the_same_number() -> None:
    other = BOND.model_copy(update={"id": "other", "name": "Other Bond"})
    first, second = of_kind(opening(products=(BOND, other)), "adhesive batch")
    assert first.key != second.key
    assert first.keys == second.keys == ("0412",)


def test_the_same_batch_on_two_sites_is_one_if_the_labels_say_the_same() -> None:
    elsewhere = BOND.model_copy(update={"id": "bond-1"})
    here = of_kind(opening(products=(BOND,)), "adhesive batch")
    assert here == of_kind(opening(products=(elsewhere,)), "adhesive batch")


def test_who_worked_on_a_day_is_a_term_once_and_who_only_looked_is_none() -> None:
    events = tuple(
        DatedEvent(step=step, at=NOON, by="ada") for step in ("bonding", "foam", "signed as installer")
    )
    assert [one.name for one in of_kind(opening(people=(ADA,), events=events), FITTER_DAY)] == [
        "Ada Fensterlein, 2026-11-20"
    ]
    looked = (DatedEvent(step="hold point frame", at=NOON, by="ada"),)
    assert of_kind(opening(people=(ADA,), events=looked), FITTER_DAY) == []


def test_a_rule_that_does_not_conform_is_also_a_cause_of_its_sort() -> None:
    breached = Outcome.DOES_NOT_CONFORM
    found = terms(opening(rules=(rule("two-beads", breached), rule("air-in-range", breached, weather=True))))
    assert [(one.kind, one.name) for one in found] == [
        ("rule does not conform", "two-beads"), ("nonconformity", "two-beads"),
        ("rule does not conform", "air-in-range"), ("weather", "air-in-range"),
    ]  # fmt: skip


@pytest.mark.parametrize("outcome", [Outcome.UNDECIDED, Outcome.NOT_SHOWN])
def test_what_is_undecided_or_not_shown_is_no_cause(outcome: Outcome) -> None:
    found = terms(opening(rules=(rule("air-in-range", outcome, weather=True),)))
    assert [one.kind for one in found] == [f"rule {outcome}"]
    assert not {one.kind for one in found} & set(CAUSES)


def test_a_claim_is_a_term_and_a_repair_is_none() -> None:
    def kinds(*later: Later) -> list[str]:
        return [one.kind for one in terms(opening(), later)]

    assert kinds(Later("claim", "c-1", "2036-02-11", "water")) == [CLAIM]
    assert kinds(Later("repair", "r-1", "2036-02-11", "tape")) == []


def test_fixings_and_people_are_terms() -> None:
    screw = UsedFixing(what="frame", id="wall-screw-160", name="Example Wall Screw 7.5 x 160")
    found = opening(fixings=(screw,), people=(ADA,))
    assert "wall_screw_160" in of_kind(found, "fixing")[0].keys
    assert set(of_kind(found, "person")[0].keys) == {"ada_fensterlein", "ada", "fensterlein"}


def test_free_words_find_everything_that_was_written() -> None:
    facts = opening(
        site_name="Elm Court", serial="LC26-0103", building="B", floor="2", room="bedroom",
        elevation="south-west",
        products=(BOND,), people=(ADA,), rules=(rule("two-beads", Outcome.NOT_SHOWN),),
        nonconformities=("Two beads run along every piece.",), texts=("gas pipe beside the reveal",),
        concessions=(Conceded(rule="frame-overlap", reason="bracket added", by="Cleo Reveal"),),
        first=date(2026, 11, 20),
    )  # fmt: skip
    found = found_by(facts, [Later("claim", "claim-1", "2036-02-11", "water on the sill board")])
    assert found >= {
        "elm", "court", "w_2_07", "lc_26_0103", "0103", "b", "2", "bedroom", "south", "west", "example",
        "0412", "fensterlein", "two_beads", "along", "pipe", "bracket", "cleo", "claim", "sill",
    }  # fmt: skip


def test_only_words_of_letters_can_be_misspelled() -> None:
    assert set(spelt({"bedroom", "w_2_07", "0412", "an", "südwest"})) == {"bedroom", "südwest"}
