"""What the steps of the work are called, as the facts of an opening name them."""

from revealbook.present import labels
from revealbook.present.words import N_, Words

STEPS = {
    "survey": N_("opening surveyed"),
    "bonding": N_("first bead laid"),
    "pressed on": N_("last frame piece pressed on"),
    "frame": N_("mounting frame measured"),
    "supports": N_("supports placed"),
    "plinth": N_("plinth profile measured"),
    "plinth fitted": N_("plinth profile fitted to the window"),
    "window set": N_("window set"),
    "window secured": N_("window secured"),
    "window": N_("window measured"),
    "seals": N_("seals recorded"),
    "seal": N_("seal"),
    "air leakage": N_("air leakage tested"),
    "water spray": N_("sprayed with water"),
    "thermometry": N_("surface temperature taken"),
    "covered": N_("work covered"),
}
WORK = frozenset({
    "frame", "bonding", "pressed on", "supports", "plinth", "plinth fitted", "window", "window set",
    "window secured", "inner tape", "outer tape", "foam", "trim",
})  # fmt: skip
"""Steps that are work on the opening, not looking at it."""
_ABOUT = {
    "hold point": N_("hold point {name}"),
    "found": N_("nonconformity {id} found"),
    "corrected": N_("nonconformity {id} corrected"),
    "checked": N_("correction of {id} checked"),
    "concession": N_("concession on {rule}"),
    "signed as": N_("signed as {role}"),
}
"""Steps that name what they are about."""


def step(name: str, words: Words) -> str:
    """Say what happened; a name that is not known, as of a later version of this program, stands for itself.

    Args:
        name: the step as facts name it.
        words: the reader's language.
    """
    if name in STEPS:
        return words.say(STEPS[name])
    for about, said in _ABOUT.items():
        if name.startswith(f"{about} "):
            what = labels.key(name.removeprefix(f"{about} "), words)
            return words.say(said, name=what, id=what, rule=what, role=what)
    return labels.key(name, words)
