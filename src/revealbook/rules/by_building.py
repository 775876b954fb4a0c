"""Which of the rules in force hold for a building: a site may judge one by less than its whole rule set."""

from collections.abc import Iterator

from revealbook.records.record import SiteFile
from revealbook.records.site import Site
from revealbook.rules.rule_set import RuleSet
from revealbook.source.nearest import nearest
from revealbook.source.problem import Problem


def rules_of_building(rule_set: RuleSet, site: Site, building: str | None) -> RuleSet:
    """Give the rules in force as an opening of a building is judged by them.

    A building that the site file does not list, or a set that the site's own does not extend, gets all rules;
    of two entries for one building, the one that asks for more counts.

    Args:
        rule_set: the rules in force on the site.
        site: the site.
        building: the building's name, as in the opening's record.
    """
    asked = [one.rules for one in site.buildings if one.name == building]
    known = [name for name in asked if name in rule_set.chain]
    if not asked or len(known) < len(asked):
        return rule_set
    return rule_set.narrowed_to(min(known, key=rule_set.chain.index))


def unknown_sets(site: SiteFile, rule_set: RuleSet) -> Iterator[Problem]:
    """Give a problem for every building whose rule set is neither the site's nor one that this extends."""
    for number, building in enumerate(site.site.buildings):
        if building.rules is not None and building.rules not in rule_set.chain:
            facts = {
                "name": building.rules,
                "set": rule_set.id,
                "known": rule_set.chain,
                "nearest": nearest(building.rules, rule_set.chain),
            }
            yield Problem(site.sheet.place(("buildings", number, "rules")), "building_set_unknown", facts)
