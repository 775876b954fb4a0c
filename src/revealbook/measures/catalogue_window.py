"""Measures of the window side of the work: window, seals, products and weather, acceptance."""

from revealbook.measures import (
    acceptance,
    left_out,
    order,
    sashes,
    seals,
    stages,
    tapes,
    weather,
    window,
    within,
)
from revealbook.measures.quantity import Function, Measure, as_recorded
from revealbook.measures.waits import load_wait


def _of_events(key: str, *steps: str, measures: str | None = None) -> Function:
    return lambda work: seals.per_event(work, key, *steps, measures=measures)


_WINDOW = (
    Measure("window_undamaged", "yes/no", "Whether undamaged.", as_recorded("window", "delivered_undamaged")),
    Measure(
        "window_plumb_slope",
        "mm/m",
        "Out of plumb per metre.",
        lambda work: window.slope(work, "out_of_plumb_mm", "height_mm"),
    ),
    Measure(
        "window_level_slope",
        "mm/m",
        "Out of level per metre.",
        lambda work: window.slope(work, "out_of_level_mm", "width_mm"),
    ),
    Measure(
        "window_plumb", "mm", "Out of plumb.", as_recorded("window", "out_of_plumb_mm", measures="deviation")
    ),
    Measure(
        "window_level", "mm", "Out of level.", as_recorded("window", "out_of_level_mm", measures="deviation")
    ),
    Measure(
        "window_place",
        "mm",
        "Out of its place.",
        as_recorded("window", "out_of_place_mm", measures="length"),
    ),
    Measure(
        "window_bow", "mm", "Bow of a frame member.", as_recorded("window", "bow_mm", measures="deviation")
    ),
    Measure("window_rack", "mm", "Out of square as set, from its diagonals.", window.rack),
    Measure(
        "window_checked", "yes/no", "Checked before fixing.", as_recorded("window", "checked_before_fixing")
    ),
    Measure("window_through_frame", "yes/no", "Whether screwed through its frame.", window.through_frame),
    Measure(
        "window_predrilled",
        "yes/no",
        "Whether pre-drilled.",
        lambda work: window.per_fixing_set(work, "predrilled"),
    ),
    Measure(
        "window_fixing_length_margin", "mm", "Length against the supplier's.", window.fixing_length_margin
    ),
    Measure("window_fixing_centres", "mm", "Distance between fixings of the window.", window.fixing_centres),
    Measure("window_side_length", "mm", "Length of each side of the window.", window.side_lengths),
    Measure("window_fixing_corner", "mm", "Corner to first and last fixing.", window.fixing_corner_distances),
    Measure("window_packed", "yes/no", "Packers at fixings.", as_recorded("window", "packed_at_fixings")),
    Measure("glass_share", "-", "Area of the glass by that of the window.", within.glass_share),
    Measure("securing_after_setting", "h", "From setting to securing the window.", order.secured_after_set),
    Measure(
        "window_tried",
        "yes/no",
        "Whether its function was tried.",
        sashes.tried,
    ),
    Measure("joint_margin", "mm", "Joint width inside what the foam may fill.", window.joint_margin),
    Measure("load_wait_margin", "h", "Wait of the adhesive before loading.", load_wait),
)
_SEALS = (
    Measure("sealing_after_securing", "h", "From securing to sealing.", seals.secured_before_sealing),
    Measure("foam_after_tape", "h", "From the first tape to the foam.", seals.first_tape_before_foam),
    Measure("trim_wait_margin", "h", "Wait of the foam before trimming.", seals.trim_wait),
    Measure("tape_after_trim", "h", "From the trim to the second tape.", seals.second_tape_after_trim),
    Measure("sides_closed", "number", "Faces on which the joint is closed.", tapes.sides_closed),
    Measure("sd_ratio", "-", "How many times tighter the inner seal is.", tapes.sd_ratio),
    Measure("foam_without_voids", "yes/no", "Filled without voids.", _of_events("without_voids", "foam")),
    Measure("surfaces_dampened", "yes/no", "Dampened where asked for.", seals.dampening),
    Measure(
        "tape_corner_overlap",
        "mm",
        "Overlap of tape at corners.",
        _of_events("corner_overlap_mm", *tapes.TAPES, measures="length"),
    ),
    Measure(
        "tape_bonded_width",
        "mm",
        "Width of tape stuck to the frame.",
        _of_events("bonded_width_mm", *tapes.TAPES, measures="length"),
    ),
    Measure(
        "foam_depth_shortfall",
        "mm",
        "Depth of the window's frame less that of the foam.",
        within.foam_depth_shortfall,
        below_zero=True,
    ),
    Measure("expiry_margin", "d", "From use to the use-by date.", weather.days_before_expiry),
    Measure(
        "opened_margin", "d", "From use to the last day once opened, of adhesives.", weather.days_before_stale
    ),
    Measure("air_margin", "K", "Air temperature inside the product's range.", weather.air_margin),
    Measure("surface_margin", "K", "Surface temperature inside the range.", weather.surface_margin),
    Measure("humidity_margin", "%", "Humidity inside the product's range.", weather.humidity_margin),
    Measure("dew_point_margin", "K", "Surface above the dew point.", weather.dew_point_margin),
    Measure(
        "products_dew_point_margin",
        "K",
        "Surface above the dew point, beyond what the product's data sheet asks for.",
        weather.products_dew_point_margin,
    ),
)
_ACCEPTANCE = (
    Measure("stage_closed", "yes/no", "Whether each stage of the work is closed.", stages.closed),
    Measure("photographs", "number", "Photographs of each section.", acceptance.photographs),
    Measure(
        "hold_point_passed", "yes/no", "Whether each hold point was passed.", acceptance.hold_points_passed
    ),
    Measure("correction_checked", "yes/no", "Corrected and checked.", acceptance.corrections_checked),
    Measure(
        "concession_entitled", "yes/no", "Accepted by somebody entitled.", acceptance.concessions_entitled
    ),
    Measure("signed", "yes/no", "Signed in each role.", acceptance.signed),
    Measure(
        "work_after_hold_point", "h", "Hold point to the work that it releases.", order.work_after_hold_points
    ),
    Measure("signing_after_work", "h", "From the last step of the work to signing.", order.signed_after_work),
    Measure("work_covered", "yes/no", "Whether the work has been covered.", acceptance.covered),
    Measure(
        "covering_after_hold_point", "h", "Hold point to covering.", acceptance.hold_point_before_covering
    ),
    Measure("cover_wait_margin", "h", "Wait of each product before covering.", acceptance.covering_waits),
)
_LEFT_OUT = (
    Measure("left_out_entitled", "yes/no", "Left out by somebody entitled.", left_out.entitled),
    Measure("without_bottom_piece", "yes/no", "No bottom piece.", left_out.without_pieces("bottom")),
    Measure("without_top_piece", "yes/no", "No top piece.", left_out.without_pieces("top")),
    Measure("without_side_pieces", "yes/no", "No side pieces.", left_out.without_pieces("left", "right")),
    Measure("without_frame", "yes/no", "No mounting frame.", left_out.without_pieces(*left_out.PIECES)),
    Measure("without_bonding", "yes/no", "Nothing bonded.", left_out.without("bonding")),
    Measure("without_opening_function", "yes/no", "Nothing to open.", left_out.without("opening function")),
)
WINDOW_SIDE = (*_WINDOW, *_SEALS, *_ACCEPTANCE, *_LEFT_OUT)
"""Measures of the window side, in the order of the work."""
