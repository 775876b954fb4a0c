"""What a site changed about its rule set, counted in one line for the first page and the terminal."""

from collections.abc import Iterable, Iterator, Sequence

from revealbook.present.words import N_, Words
from revealbook.records.site import Person
from revealbook.rules.effect import Effect
from revealbook.rules.rule_set import Change, MethodChanged, RuleSet
from revealbook.rules.site_changes import SiteChange, site_changes

_RULES: tuple[tuple[Effect, str, str], ...] = (
    ("tightened", N_("1 of {total} rules tightened"), N_("{number} of {total} rules tightened")),
    ("relaxed", N_("1 of {total} rules relaxed"), N_("{number} of {total} rules relaxed")),
    ("retired", N_("1 of {total} rules retired"), N_("{number} of {total} rules retired")),
    ("added", N_("1 rule added"), N_("{number} rules added")),
)
_METHOD: tuple[tuple[Effect, str, str], ...] = (
    ("tightened", N_("1 method parameter tightened"), N_("{number} method parameters tightened")),
    ("relaxed", N_("1 method parameter relaxed"), N_("{number} method parameters relaxed")),
)
_MOST_NAMED = 6


def changed_by_site(rule_set: RuleSet, people: Iterable[Person], words: Words) -> str:
    """Count what the site changed, with what asks for less of something critical and who accepted it.

    Args:
        rule_set: the rules in force.
        people: people of the site.
        words: the reader's language.

    Returns:
        One line; empty if the site changed nothing.
    """
    changes = site_changes(rule_set)
    added = sum(one.effect == "added" for one in changes)
    total = len(rule_set.rules) + len(rule_set.retired) - added
    counted = [
        *_counted([one for one in changes if not one.of_method], _RULES, total, words),
        *_counted([one for one in changes if one.of_method], _METHOD, total, words),
    ]
    accepted = dict.fromkeys(acceptance(one.made, people, words) for one in changes if one.made.accepted_by)
    return "; ".join(filter(None, (", ".join(counted), *accepted)))


def acceptance(made: Change | MethodChanged, people: Iterable[Person], words: Words) -> str:
    """Say who accepted a change and on which day; empty if nobody did."""
    if made.accepted_by is None or made.accepted_on is None:
        return ""
    names = {person.id: person.name for person in people}
    said = N_("accepted by {name} on {day}")
    return words.say(
        said, name=names.get(made.accepted_by, made.accepted_by), day=words.day(made.accepted_on)
    )


def _counted(
    changes: Sequence[SiteChange], effects: Iterable[tuple[Effect, str, str]], total: int, words: Words
) -> Iterator[str]:
    for effect, one, many in effects:
        of_kind = [change for change in changes if change.effect == effect]
        if of_kind:
            said = words.count(len(of_kind), one, many, total=total)
            named = [change.name for change in of_kind if change.to_accept]
            yield f"{said}{_critical(named, words, of_method=of_kind[0].of_method)}"


def _critical(named: Sequence[str], words: Words, *, of_method: bool) -> str:
    """Name what asks for less of something critical, or how many they are where a line cannot hold them."""
    if not named:
        return ""
    if len(named) > _MOST_NAMED:
        return " (" + words.say(N_("{number} of them critical"), number=len(named)) + ")"
    shown = ", ".join(named)
    return f" ({shown})" if of_method else " (" + words.say(N_("critical: {rules}"), rules=shown) + ")"
