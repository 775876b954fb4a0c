from tests.rules.sets import rule

from revealbook.rules.rule_set import RuleInForce, RuleSet


def test_every_measure_that_the_rules_need_is_named_once() -> None:
    by_width = {"at_most_by": "nominal_width", "steps": [{"up_to": 1, "limit": 1}]}
    rules = (
        rule(),
        rule(id="opening-width", measure="width_deviation", **by_width),
        rule(id="again", **by_width, applies_when=["plinth_used"]),
    )
    in_force = RuleSet("trial", "1", "trial", tuple(map(RuleInForce, rules)))
    assert in_force.measures == (
        "frame_overlap",
        "width_deviation",
        "nominal_width",
        "plinth_used",
        "stage_closed",
    )


def test_a_rule_in_force_goes_by_its_rules_name() -> None:
    assert RuleInForce(rule(id="two-beads")).id == "two-beads"


def test_rules_are_guarded_unless_the_set_says_otherwise() -> None:
    assert RuleSet("trial", "1", "trial", ()).method.decision == "guard band"
