"""The block in which the roles that sign put their names to a pack."""

from collections.abc import Iterator

from revealbook.present import labels
from revealbook.present.words import Words
from revealbook.rules.judged import JudgedSite


def signing_block(judged: JudgedSite, words: Words) -> tuple[tuple[str, str, str], ...]:
    """Give a row for each role that signs, as (role, name, date).

    The name stands there if one and the same person signed every record in that role; otherwise it is left
    to be written. The date is that of signing the pack, so it is always left to be written.
    """
    return tuple(
        (words.say(labels.ROLES[role]), _who(judged, role), "")
        for role in judged.rule_set.method.signing_roles
    )


def _who(judged: JudgedSite, role: str) -> str:
    signed = [set(_signers(judged, number, role)) for number in range(len(judged.openings))]
    if not signed or any(one != signed[0] or len(one) != 1 for one in signed):
        return ""
    (person,) = signed[0]
    names = {one.id: one.name for one in judged.site.site.people}
    return names.get(person, person)


def _signers(judged: JudgedSite, number: int, role: str) -> Iterator[str]:
    for sign in judged.openings[number].record.opening.sign_offs or ():
        if sign.role == role:
            yield sign.by or ""
