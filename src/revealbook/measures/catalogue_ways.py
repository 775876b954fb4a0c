"""Measures of ways of working and of what stands round a window: what not every opening has."""

from revealbook.measures import arch, facade, glass_safety, joint_tape, sashes, seals, set_at_once, tapes
from revealbook.measures.quantity import Function, Measure, as_recorded


def _of_joint_tape(key: str, measures: str | None = None) -> Function:
    return lambda work: seals.per_event(work, key, "joint tape", measures=measures)


def _of_couplings(key: str) -> Function:
    return lambda work: sashes.per_coupling(work, key)


_SASHES = (
    Measure("fixed_light", "yes/no", "Whether nothing of the window opens.", sashes.fixed_light),
    Measure("has_sashes", "yes/no", "Whether the sashes are listed one by one.", sashes.has_sashes),
    Measure(
        "sash_reserve", "mm", "Window's size less that of each sash.", sashes.sash_reserve, below_zero=True
    ),
    Measure("coupled", "yes/no", "Whether the window is coupled to others.", sashes.coupled),
    Measure(
        "coupled_in_line", "yes/no", "Whether it is coupled elsewhere than at a building's corner.",
        sashes.coupled_in_line,
    ),
    Measure("coupling_joined", "yes/no", "Joined as the supplier shows.", _of_couplings("joined")),
    Measure("coupling_sealed", "yes/no", "Sealed inside and outside.", _of_couplings("sealed")),
    Measure(
        "coupling_fixing_distance", "mm", "Coupling to the fixings beside it.",
        sashes.coupling_fixing_distance,
    ),
)  # fmt: skip
_SEALS = (
    Measure("tape_stuck_first", "yes/no", "Whether a tape was stuck on first.", tapes.tape_stuck_first),
    Measure("stuck_first_allowed", "yes/no", "Whether its maker allows it.", tapes.stuck_first_allowed),
    Measure("stuck_before_setting", "h", "From sticking it on to setting.", tapes.stuck_before_setting),
    Measure("joint_taped", "yes/no", "Whether joint tape replaces foam.", joint_tape.joint_taped),
    Measure(
        "joint_tape_closes", "yes/no", "Whether joint tape seals inside and outside by itself.",
        joint_tape.closes_both_sides,
    ),
    Measure("joint_tape_margin", "mm", "Joint width inside the joint tape's range.", joint_tape.joint_margin),
    Measure("joint_tape_continuous", "yes/no", "Whether it runs through.", _of_joint_tape("continuous")),
    Measure("joint_tape_surplus", "mm", "How much longer its lengths were cut.",
            _of_joint_tape("corner_overlap_mm", "length")),
    Measure("load_on_screws", "yes/no", "Whether set on the screws alone.", set_at_once.load_on_screws),
    Measure("screwed_before_load", "h", "From the last fixing to setting.", set_at_once.screwed_before_load),
)  # fmt: skip
_FACADE = (
    Measure("arched_head", "yes/no", "Whether the opening's head is an arch.", arch.arched_head),
    Measure("arch_reach", "mm", "Top piece less the arch.", arch.arch_reach, below_zero=True),
    Measure("existing_finish", "yes/no", "Whether a finish was on the wall.", facade.existing_finish),
    Measure("finish_stays", "yes/no", "Whether it was left under the frame.", facade.finish_stays),
    Measure("finish_bears", "yes/no", "Whether it is off, or holds firmly.", facade.finish_bears),
    Measure(
        "embedment_beyond_finish", "mm", "Fixing's length less finish and embedment.",
        facade.embedment_beyond_finish, below_zero=True,
    ),
    Measure("shutter_box", "yes/no", "Whether there is a shutter box.", facade.shutter_box),
    Measure("shutter_box_sealed", "yes/no", "Whether it is sealed.", facade.shutter_box_sealed),
    Measure(
        "fire_barrier_called_for", "yes/no", "Whether a fire barrier is called for.",
        facade.fire_barrier_called_for,
    ),
    Measure(
        "fire_barrier_material", "choice", "What the fire barrier is made of.",
        as_recorded("covering", "fire_barrier", "kind"), facade.INSULATION,
    ),
    Measure(
        "fire_barrier_height", "mm", "Its height.",
        as_recorded("covering", "fire_barrier", "height_mm"),
    ),
    Measure("fire_barrier_past", "mm", "How far it runs past the opening.", facade.fire_barrier_past),
    Measure(
        "fire_barrier_bonded", "yes/no", "Whether it is bonded over its whole area.",
        as_recorded("covering", "fire_barrier", "bonded_over_whole_area"),
    ),
)  # fmt: skip
_GLASS = (
    Measure("fall_looked_at", "yes/no", "Whether glass is recorded.", glass_safety.fall_looked_at),
    Measure(
        "fall_protection", "yes/no", "Whether glass keeps people from falling.", glass_safety.fall_protection
    ),
    Measure("guard_height", "mm", "Sill or guard above the floor inside.", glass_safety.guard_height),
    Measure("drop", "m", "From the floor inside down to the ground outside.", glass_safety.drop),
    Measure("laminated_panes", "number", "Panes of laminated safety glass.", glass_safety.laminated_panes),
    Measure(
        "glass_proved", "yes/no", "Proved in writing.", as_recorded("window", "glass_safety", "proved")
    ),
)  # fmt: skip
WAYS = (*_SASHES, *_SEALS, *_FACADE, *_GLASS)
"""Measures of what not every opening has."""
