"""How often honest sites are asked about, and how often what was planted is found.

Few sites by default, to be quick; REVEALBOOK_FULL=1 takes 200 honest sites, and 100 for each kind of plant.
"""

import os
from collections import Counter
from random import Random

import pytest
from tests.inspection.planted import PLANTS
from tests.inspection.simulated import Simulated, honest

from revealbook.inspection.questions import ASKED, questions

FULL = bool(os.environ.get("REVEALBOOK_FULL"))
HONEST, PLANTED = (200, 100) if FULL else (8, 3)


def _site(random: Random) -> Simulated:
    return honest(random, random.randint(12, 40 if FULL else 20))


@pytest.mark.slow
def test_honest_sites_are_seldom_asked_about() -> None:
    asked: Counter[str] = Counter()
    for seed in range(HONEST):
        asked.update({question.kind for question in questions(_site(Random(seed)).evidence())})
    print(f"of {HONEST} honest sites a question was raised on: {dict.fromkeys(ASKED, 0) | asked}")
    assert all(number <= 0.05 * HONEST for number in asked.values())


@pytest.mark.slow
@pytest.mark.parametrize("plant", PLANTS)
def test_what_was_planted_is_found(plant: str) -> None:
    kind, put_in = PLANTS[plant]
    found = 0
    for seed in range(PLANTED):
        random = Random(1000 + seed)
        site = _site(random)
        put_in(random, site)
        found += any(question.kind == kind for question in questions(site.evidence()))
    print(f"{plant}: found on {found} of {PLANTED} sites")
    assert found >= 0.95 * PLANTED


def test_a_question_changes_no_outcome() -> None:
    random = Random(7)
    site = honest(random, 12)
    PLANTS["signed before"][1](random, site)
    evidence = site.evidence()
    before = [one.outcome for one in evidence.site.openings]
    assert questions(evidence)
    assert [one.outcome for one in evidence.site.openings] == before


def test_the_same_records_give_rise_to_the_same_questions() -> None:
    random = Random(7)
    site = honest(random, 12)
    for _, put_in in PLANTS.values():
        put_in(random, site)
    assert questions(site.evidence()) == questions(site.evidence())
