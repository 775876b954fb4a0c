"""What was asked of an archive, in words, for a page of what was found."""

from collections.abc import Mapping
from datetime import date

from revealbook.present import labels
from revealbook.present.words import N_, Words
from revealbook.rules.finding import Outcome

_PARTS = {
    "words": N_("words {value}"),
    "mark": N_("mark {value}"),
    "serial": N_("serial number {value}"),
    "place": N_("place {value}"),
    "product": N_("product {value}"),
    "batch": N_("batch {value}"),
    "fixing": N_("fixing {value}"),
    "person": N_("person {value}"),
    "since": N_("worked on from {value}"),
    "until": N_("worked on until {value}"),
    "rule": N_("rule {value} not simply met"),
    "outcome": N_("outcome {value}"),
    "site": N_("site {value}"),
    "all_versions": N_("all versions"),
}


def asked(parts: Mapping[str, object], words: Words) -> str:
    """Say what openings were looked for.

    Args:
        parts: the parts of the question by name, as the fields of a question are called.
        words: the reader's language.
    """
    said = [words.say(_PARTS[name], value=_value(value, words)) for name, value in parts.items()]
    return "; ".join(said) or words.say(N_("everything"))


def _value(value: object, words: Words) -> str:
    if isinstance(value, Outcome):
        return words.say(labels.OUTCOMES[value])
    return words.day(value) if isinstance(value, date) else str(value)
