"""Words for what loads, wind, movement and hinges are computed from."""

from revealbook.present.words import N_

LOAD_KEYS = {
    "opening_kind": N_("how the window opens"),
    "shared_use": N_("use if all share the weight alike"),
    "own_reaction_use": N_("use if each support carries its own reaction"),
    "worst_out_mm": N_("taken to stand out from the wall"),
    "frame_colour": N_("colour of the window's frame"),
    "movement_share_pct": N_("share of the movement"),
    "least_joint_mm": N_("least joint width"),
    "warmest_taken_c": N_("warmest frame taken"),
    "hinge_distance_mm": N_("distance of the hinges"),
    "sash_kg": N_("mass of the sash"),
    "sash_width_mm": N_("width of the sash"),
    "least_design_n": N_("least design resistance"),
    "pull_n": N_("pull at the upper hinge"),
    "wind_class": N_("declared wind class"),
    "class_pressure_pa": N_("tested to"),
    "wind_pa": N_("greatest wind on the window"),
    "wind_class_asked": N_("class asked for"),
    "shear_design_n": N_("design resistance in shear"),
    "shear_n": N_("shear"),
    "tension_design_n": N_("design resistance in tension"),
    "tension_n": N_("tension"),
    "weight_n": N_("weight"),
    "centre_from_wall_mm": N_("distance of the window's middle from the wall"),
    "fixings_needed": N_("fixings needed"),
    "follows_mm": N_("foam follows"),
    "moves_mm": N_("window moves"),
    "peak_velocity_pressure_pa": N_("peak velocity pressure"),
    "internal_coefficient": N_("internal pressure coefficient"),
}
"""Names of details and keys of the record that only these computations read, as a sentence calls them."""
