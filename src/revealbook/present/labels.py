"""What keys, parts and choices are called in a sentence."""

import re

from revealbook.measures.reading import Subject
from revealbook.present.keys import KEYS
from revealbook.present.words import N_, Words
from revealbook.rules.finding import Outcome

OUTCOMES = {
    Outcome.CONFORMS: N_("conforms"),
    Outcome.DOES_NOT_CONFORM: N_("does not conform"),
    Outcome.UNDECIDED: N_("undecided"),
    Outcome.NOT_SHOWN: N_("not shown"),
    Outcome.DOES_NOT_APPLY: N_("does not apply"),
}
NOT_YET_DUE = N_("not yet due")
"""What is not shown and has still to come: its stage is not closed."""
STAGES = {
    "survey": N_("Survey"),
    "frame": N_("Mounting frame"),
    "supports": N_("Supports"),
    "plinth": N_("Plinth profile"),
    "window": N_("Window"),
    "seals": N_("Seals"),
    "materials": N_("Products and weather"),
    "tests": N_("Tests"),
    "acceptance": N_("Acceptance"),
}
GRADES = {"critical": N_("critical"), "major": N_("major"), "minor": N_("minor")}
ROLES = {
    "installer": N_("installer"),
    "foreman": N_("foreman"),
    "clerk of works": N_("clerk of works"),
    "client": N_("client"),
    "designer": N_("designer"),
    "supplier": N_("supplier"),
}
BASES = {
    "published": N_("published"),
    "supplier": N_("supplier's instructions"),
    "common practice": N_("common practice, no source"),
    "from memory": N_("from memory, to be checked against the standard"),
}
METHODS = {
    "guard band": N_("guard band"),
    "simple acceptance": N_("simple acceptance"),
    "linear": N_("linear"),
    "linear to 1.2": N_("linear to 1.2"),
    "power 1.5": N_("power 1.5"),
    "power 2": N_("power 2"),
    "bolt": N_("bolt"),
    "worse of both": N_("worse of both"),
    "shared alike": N_("shared alike"),
    "covering": N_("covering"),
}
PARTS = {
    "left": N_("left"),
    "right": N_("right"),
    "top": N_("top"),
    "bottom": N_("bottom"),
    "middle": N_("middle"),
    "first_end": N_("first end"),
    "last_end": N_("last end"),
    "before": N_("side before it"),
    "after": N_("side after it"),
    "bottom_left": N_("bottom left"),
    "bottom_right": N_("bottom right"),
    "top_left": N_("top left"),
    "top_right": N_("top right"),
    "bonding": N_("adhesive"),
    "joints": N_("joints"),
    "inner tape": N_("inner tape"),
    "outer tape": N_("outer tape"),
    "foam": N_("foam"),
    "trim": N_("trim"),
    "joint tape": N_("joint tape"),
    "wall": N_("wall"),
    "width": N_("width"),
    "height": N_("height"),
    "joint_start": N_("joint at the start"),
    "joint_middle": N_("joint in the middle"),
    "joint_end": N_("joint at the end"),
    "frame": N_("mounting frame"),
    "window": N_("window"),
    "seals": N_("seals"),
    "survey": N_("survey"),
    "supports": N_("supports"),
    "plinth": N_("plinth profile"),
    "materials": N_("products and weather"),
    "acceptance": N_("acceptance"),
    "support": N_("support"),
    "bracket": N_("bracket"),
    "substrate": N_("substrate"),
    "before covering": N_("before covering"),
    "overpressure": N_("overpressure"),
    "suction": N_("suction"),
    **ROLES,
}
NUMBERED = {
    "hole": N_("hole"),
    "joint": N_("joint"),
    "set": N_("fixings, set"),
    "support": N_("support"),
    "load point": N_("load point"),
    "bracket": N_("bracket"),
    "fixing": N_("fixing"),
    "hold point": N_("hold point"),
    "event": N_("sealing event"),
    "sash": N_("sash"),
    "coupling": N_("coupling"),
    "concession": N_("concession"),
    "batch": N_("batch"),
    "left out": N_("left out:"),
}
CHOICES = {
    "pressed and shifted": N_("pressed and shifted"),
    "pressed": N_("pressed"),
    "set without moving": N_("set without moving"),
    "one end first": N_("one end first"),
    "all at once": N_("all at once"),
    "from the middle": N_("from the middle"),
    "self-drilling metal screws": N_("self-drilling metal screws"),
    "wood screws": N_("wood screws"),
    "screws through the frame": N_("screws through the frame"),
    "brackets": N_("brackets"),
    "concrete": N_("concrete"),
    "solid masonry": N_("solid masonry"),
    "hollow masonry": N_("hollow masonry"),
    "aerated concrete": N_("aerated concrete"),
    "timber": N_("timber"),
    "steel": N_("steel"),
    "PVC-U": N_("PVC-U"),
    "aluminium": N_("aluminium"),
    "timber-aluminium": N_("timber-aluminium"),
    "white": N_("white"),
    "light": N_("light"),
    "dark": N_("dark"),
    "fixed": N_("fixed"),
    "side hung": N_("side hung"),
    "tilt and turn": N_("tilt and turn"),
    "top hung": N_("top hung"),
    "bottom hung": N_("bottom hung"),
    "sliding": N_("sliding"),
    "lift and slide": N_("lift and slide"),
    "segmental arch": N_("segmental arch"),
    "semicircular arch": N_("semicircular arch"),
    "plaster": N_("plaster"),
    "paint": N_("paint"),
    "cladding": N_("cladding"),
    "insulation": N_("insulation"),
    "annealed": N_("annealed"),
    "toughened": N_("toughened"),
    "heat strengthened": N_("heat strengthened"),
    "laminated": N_("laminated"),
    "laminated safety": N_("laminated safety"),
    "mineral wool": N_("mineral wool"),
    "wood fibre": N_("wood fibre"),
    "EPS": N_("EPS"),
    "XPS": N_("XPS"),
    "PUR or PIR": N_("PUR or PIR"),
    "mineral foam": N_("mineral foam"),
    "cellular glass": N_("cellular glass"),
    "other": N_("other"),
    "none": N_("none"),
}
_RANGE = re.compile(r"(?<=\d)-(?=\d)")


def outcome(of: Outcome, words: Words, *, due: bool = True) -> str:
    """Give the word for an outcome; what is not shown is told apart from what was missed."""
    return words.say(NOT_YET_DUE if of is Outcome.NOT_SHOWN and not due else OUTCOMES[of])


def subject(parts: Subject, words: Words) -> str:
    """Say which part of the opening a reading is of; empty for the opening as a whole."""
    return ", ".join(_part(part, words) for part in parts)


def _part(part: str, words: Words) -> str:
    if part in PARTS:
        return words.say(PARTS[part])
    for prefix, label in NUMBERED.items():
        if part.startswith(prefix + " "):
            rest = part[len(prefix) + 1 :]
            return f"{words.say(label)} {words.say(PARTS[rest]) if rest in PARTS else _RANGE.sub('–', rest)}"
    return part


def key(name: str, words: Words) -> str:
    """Say what a key stands for."""
    if name in KEYS:
        return words.say(KEYS[name])
    if name in PARTS:
        return words.say(PARTS[name])
    return name


def choice(word: str, words: Words) -> str:
    """Say one of a closed choice."""
    return words.say(CHOICES.get(word, word))
