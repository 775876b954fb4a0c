"""What the keys of ways of working, and of what not every opening has, are called in a sentence."""

from revealbook.present.words import N_

WAY_KEYS = {
    "sides": N_("the sides that it closes"),
    "stuck_to_window_at": N_("when it was stuck to the window"),
    "may_be_stuck_first": N_("whether it may be stuck to the window first"),
    "screwed_at": N_("when the frame's last fixing was set"),
    "tried": N_("whether it was tried"),
    "joined": N_("whether they are joined"),
    "rise_mm": N_("rise of the arch"),
    "arc_mm": N_("length of the arch"),
    "kind": N_("kind"),
    "thickness_mm": N_("thickness of the finish"),
    "removed": N_("whether the finish was taken off"),
    "adhesion_tested": N_("whether the finish was tried"),
    "sealed_to_window": N_("whether it is sealed to the window"),
    "sealed_to_wall": N_("whether it is sealed to the wall"),
    "past_left_mm": N_("how far it runs past on the left"),
    "past_right_mm": N_("how far it runs past on the right"),
    "bonded_over_whole_area": N_("whether it is bonded over its whole area"),
    "inner_pane": N_("kind of the inner pane"),
    "outer_pane": N_("kind of the outer pane"),
    "sill_above_floor_mm": N_("height of the sill above the floor"),
    "drop_m": N_("drop outside"),
    "proved": N_("whether it is proved in writing"),
}
"""Keys of records and products, as a sentence calls them; `keys.KEYS` holds them with all others."""
