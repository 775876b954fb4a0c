"""What keys, parts and choices are called in a sentence."""

import re

from revealbook.measures.reading import Subject
from revealbook.present.words import N_, Words
from revealbook.rules.finding import Outcome

OUTCOMES = {
    Outcome.CONFORMS: N_("conforms"),
    Outcome.DOES_NOT_CONFORM: N_("does not conform"),
    Outcome.UNDECIDED: N_("undecided"),
    Outcome.NOT_SHOWN: N_("not shown"),
    Outcome.DOES_NOT_APPLY: N_("does not apply"),
}
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
    "common practice": N_("common practice"),
    "from memory": N_("from memory, to be checked against the standard"),
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
    "inner tape": N_("inner tape"),
    "outer tape": N_("outer tape"),
    "foam": N_("foam"),
    "trim": N_("trim"),
    "joint_start": N_("joint at the start"),
    "joint_middle": N_("joint in the middle"),
    "joint_end": N_("joint at the end"),
    "frame": N_("mounting frame"),
    "window": N_("window"),
    "seals": N_("seals"),
    "survey": N_("survey"),
    "supports": N_("supports"),
    "plinth": N_("plinth profile"),
    "substrate": N_("substrate"),
    "before covering": N_("before covering"),
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
    "concession": N_("concession"),
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
    "other": N_("other"),
    "none": N_("none"),
}
KEYS = {
    "air_c": N_("air temperature"),
    "rh_pct": N_("relative humidity"),
    "surface_c": N_("surface temperature"),
    "dew_point_c": N_("dew point"),
    "air_min_c": N_("lowest air temperature allowed"),
    "air_max_c": N_("highest air temperature allowed"),
    "surface_min_c": N_("lowest surface temperature allowed"),
    "surface_max_c": N_("highest surface temperature allowed"),
    "rh_min_pct": N_("lowest humidity allowed"),
    "rh_max_pct": N_("highest humidity allowed"),
    "measured_mm": N_("measured"),
    "nominal_mm": N_("nominal"),
    "left_mm": N_("left"),
    "right_mm": N_("right"),
    "rising_mm": N_("rising diagonal"),
    "falling_mm": N_("falling diagonal"),
    "length_mm": N_("length"),
    "width_mm": N_("width"),
    "height_mm": N_("height"),
    "clear_size_mm": N_("clear size"),
    "side_pieces_mm": N_("both side pieces"),
    "hole_mm": N_("hole at"),
    "fixing_mm": N_("fixing at"),
    "from_mm": N_("from"),
    "to_mm": N_("to"),
    "load_point_mm": N_("load point at"),
    "out_of_line_mm": N_("deviation"),
    "out_of_plumb_mm": N_("deviation"),
    "out_of_level_mm": N_("deviation"),
    "embedment_mm": N_("embedment"),
    "embedment_min_mm": N_("least embedment of the data sheet"),
    "edge_distance_mm": N_("edge distance"),
    "edge_distance_min_mm": N_("least edge distance of the data sheet"),
    "torque_nm": N_("torque"),
    "data_sheet_torque_nm": N_("torque of the data sheet"),
    "data_sheet_length_mm": N_("length of the data sheet"),
    "joint_width_mm": N_("joint width"),
    "joint_min_mm": N_("narrowest joint for the foam"),
    "joint_max_mm": N_("widest joint for the foam"),
    "inner_sd_m": N_("sd-value of the inner seal"),
    "outer_sd_m": N_("sd-value of the outer seal"),
    "sd_m": N_("sd-value"),
    "height_needed_mm": N_("height needed"),
    "moisture_pct": N_("substrate moisture"),
    "moisture_max_pct": N_("highest moisture of the data sheet"),
    "waited_h": N_("waited"),
    "needed_h": N_("needed"),
    "taken_min": N_("taken"),
    "open_minutes": N_("open time"),
    "used": N_("used on"),
    "expires": N_("use-by date"),
    "from": N_("from"),
    "to": N_("until"),
    "by": N_("by"),
    "checked_by": N_("checked by"),
    "needs_primer": N_("whether a primer is asked for"),
    "needs_dampening": N_("whether dampening is asked for"),
    "load_after": N_("table of waits before loading"),
    "trim_after": N_("table of waits before trimming"),
    "cover_after": N_("table of waits before covering"),
    "profile_width_mm": N_("width of the profile"),
    "lowest": N_("lowest of the table"),
    "highest": N_("highest of the table"),
    "read": N_("read"),
    "accepted_by": N_("who accepts it"),
    "at": N_("the time"),
    "at_mm": N_("positions of the fixings"),
    "bead": N_("bead between the pieces"),
    "beside_fixings": N_("packers beside the fixings"),
    "bonded": N_("whether it is bonded"),
    "bonded_airtight": N_("whether it is bonded airtight"),
    "bow_mm": N_("bow"),
    "brackets": N_("brackets"),
    "called_for": N_("whether supports are called for"),
    "centre_mm": N_("position of the middle"),
    "checked_at": N_("when it was checked"),
    "checked_before_fixing": N_("whether it was checked before the rest was fixed"),
    "clean": N_("whether it is clean"),
    "continuous": N_("whether the beads run through"),
    "corner_overlap_mm": N_("overlap at corners"),
    "cut_out_of_square_mm": N_("deviation of the cut from square"),
    "dampened": N_("whether surfaces were dampened"),
    "delivered_undamaged": N_("whether it came undamaged"),
    "dry": N_("whether it is dry"),
    "end": N_("width at the end"),
    "events": N_("tapes, foam and trim"),
    "falling": N_("falling diagonal"),
    "fitted_at": N_("when it was fitted"),
    "fixed_by": N_("how the window is fixed"),
    "fixed_to_wall": N_("whether it is fixed to the wall"),
    "fixing_order": N_("order of fixing"),
    "fixings": N_("fixings"),
    "free_of_dust": N_("whether it is free of dust"),
    "gap_mm": N_("gap"),
    "hold_points": N_("hold point"),
    "hole_diameter_mm": N_("diameter of the holes"),
    "holes": N_("number of holes"),
    "holes_cleaned": N_("whether holes were cleaned"),
    "holes_mm": N_("positions of the holes"),
    "insulation_follows_at_once": N_("whether insulation follows at once"),
    "lengthwise_joints": N_("lengthwise joints"),
    "load_points_mm": N_("positions of the load points"),
    "number": N_("number of beads"),
    "opening_function_tried": N_("whether opening and closing was tried"),
    "out_of_flat_mm": N_("gap under the straightedge"),
    "out_of_place_mm": N_("deviation from its place"),
    "overlap_left_mm": N_("overlap on the left"),
    "overlap_right_mm": N_("overlap on the right"),
    "packed_at_fixings": N_("whether it is packed at the fixings"),
    "passed": N_("whether it was passed"),
    "photos": N_("photographs"),
    "placed": N_("supports as placed"),
    "predrilled": N_("whether holes were pre-drilled"),
    "pressed_at": N_("when the last piece was pressed on"),
    "primed": N_("whether it is primed"),
    "protected_until_covered": N_("whether it was protected until covered"),
    "reason": N_("the reason"),
    "rising": N_("rising diagonal"),
    "screwed": N_("whether it is screwed"),
    "screwed_to_profile": N_("whether it is screwed to the profile"),
    "screws": N_("kind of screws"),
    "sealed": N_("whether it is sealed"),
    "seating": N_("how it was brought into full contact"),
    "secured_at": N_("when the window was secured"),
    "set_at": N_("when the window was set"),
    "side": N_("the side"),
    "sign_offs": N_("sign-off"),
    "sound": N_("whether it is sound"),
    "start": N_("width at the start"),
    "step": N_("what was done"),
    "straightedge_mm": N_("length of the straightedge"),
    "top_edge_sealed": N_("whether the upper edge is sealed"),
    "what": N_("what was done"),
    "without_voids": N_("whether it is filled without voids"),
}
"""Keys of records and products, as a sentence calls them; a key that is not here is written as it is."""


_RANGE = re.compile(r"(?<=\d)-(?=\d)")


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
