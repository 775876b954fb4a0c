"""Measures of the wall side of the work: survey, mounting frame, fixings, supports, plinth profile."""

from typing import get_args

from revealbook.measures import (
    fixing_sizes,
    fixings,
    frame,
    order,
    piece_order,
    sums,
    supports,
    survey,
    weather,
    within,
)
from revealbook.measures.left_out import PIECES
from revealbook.measures.quantity import Function, Measure, as_recorded
from revealbook.records.frame import FixingOrder, Seating
from revealbook.records.supports import Screws

SEATING: tuple[str, ...] = get_args(Seating)
FIXING_ORDER: tuple[str, ...] = get_args(FixingOrder)
SCREWS: tuple[str, ...] = get_args(Screws)


def _of_pieces(*rest: str, of: tuple[str, ...] = PIECES, measures: str | None = None) -> Function:
    return lambda work: frame.per_piece(work, *rest, of=of, measures=measures)


def _of_corners(where: str, key: str, measures: str | None = None) -> Function:
    return lambda work: frame.per_corner(work, where, key, measures)


def _of_joints(key: str) -> Function:
    return lambda work: frame.per_joint(work, key)


def _of_supports(*rest: str) -> Function:
    return lambda work: supports.per_support(work, *rest)


_SURVEY = (
    Measure("substrate_sound", "yes/no", "Whether the substrate is sound.", as_recorded("survey", "sound")),
    Measure("substrate_clean", "yes/no", "Whether the substrate is clean.", as_recorded("survey", "clean")),
    Measure("substrate_dry", "yes/no", "Whether the substrate is dry.", as_recorded("survey", "dry")),
    Measure(
        "substrate_dust_free", "yes/no", "Whether it is free of dust.", as_recorded("survey", "free_of_dust")
    ),
    Measure(
        "substrate_flatness", "mm", "Gap under the straightedge along the bonding area.", survey.flatness
    ),
    Measure("straightedge_length", "mm", "Length of that straightedge.", survey.straightedge),
    Measure("wall_plumb", "mm", "Deviation of the wall face from plumb.", survey.wall_plumb),
    Measure(
        "width_deviation",
        "mm",
        "Deviation of the width from nominal at three heights.",
        survey.width_deviation,
    ),
    Measure(
        "height_deviation",
        "mm",
        "Deviation of the height from nominal, three times.",
        survey.height_deviation,
    ),
    Measure(
        "height_difference", "mm", "Height at the left against the right side.", survey.height_difference
    ),
    Measure("opening_rack", "mm", "Out of square of the opening, from its diagonals.", survey.opening_rack),
    Measure("nominal_width", "mm", "Nominal clear width.", survey.nominal_width),
    Measure("nominal_height", "mm", "Nominal clear height.", survey.nominal_height),
    Measure(
        "moisture_margin", "%", "How much drier the substrate is than asked for.", survey.moisture_margin
    ),
    Measure(
        "brushed_as_asked",
        "yes/no",
        "Whether it was brushed dry, where that is asked for.",
        survey.brushed_as_asked,
    ),
    Measure(
        "primer_asked_for", "yes/no", "Whether the adhesive's maker asks for primer.", survey.primer_asked_for
    ),
    Measure("primed", "yes/no", "Whether a primer was used.", as_recorded("survey", "primed")),
)
_FRAME = (
    Measure("frame_after_survey", "h", "From the survey to the first bead.", order.survey_before_frame),
    Measure("frame_overlap", "mm", "How far the bottom piece runs past the opening.", frame.overlaps),
    Measure(
        "bottom_surplus",
        "mm",
        "Bottom piece's length less the opening's width.",
        frame.bottom_surplus,
        below_zero=True,
    ),
    Measure(
        "pieces_in_order",
        "yes/no",
        "Whether a piece went on after those below it.",
        piece_order.pieces_in_order,
    ),
    Measure(
        "top_reach",
        "mm",
        "Top piece's length less the span over the side pieces.",
        frame.top_reach,
        below_zero=True,
    ),
    Measure(
        "side_length_difference",
        "mm",
        "Side piece's length less the height.",
        frame.side_length_difference,
        below_zero=True,
    ),
    Measure(
        "overlap_sum_error", "mm", "Bottom piece less opening and both overlaps.", sums.overlap_sum_error
    ),
    Measure("cut_squareness", "mm", "Gap between cut and try square.", _of_pieces("cut_out_of_square_mm")),
    Measure("hole_diameter", "mm", "Diameter of the holes in the pieces.", _of_pieces("hole_diameter_mm")),
    Measure("piece_length", "mm", "Length of each piece.", frame.piece_lengths),
    Measure("hole_number", "number", "Holes of each piece.", frame.hole_numbers),
    Measure("hole_end_distance", "mm", "First and last hole from the ends.", frame.hole_end_distances),
    Measure("hole_centres", "mm", "Distance between neighbouring holes.", frame.hole_centres),
    Measure("joint_fixing_distance", "mm", "Joint to the holes beside it.", frame.joint_fixing_distances),
    Measure("joint_bonded", "yes/no", "Whether each lengthwise joint is bonded.", _of_joints("bonded")),
    Measure("joint_screwed", "yes/no", "Whether each lengthwise joint is screwed.", _of_joints("screwed")),
    Measure("joint_sealed", "yes/no", "Whether each lengthwise joint is sealed.", _of_joints("sealed")),
    Measure("bead_number", "number", "Beads on the back of each piece.", _of_pieces("beads", "number")),
    Measure(
        "beads_continuous", "yes/no", "Whether the beads run through.", _of_pieces("beads", "continuous")
    ),
    Measure(
        "corner_bead", "yes/no", "Whether there is a bead between the pieces.", _of_corners("corners", "bead")
    ),
    Measure("corner_gap", "mm", "Gap left between the pieces.", _of_corners("corners", "gap_mm", "length")),
    Measure("corner_sealed", "yes/no", "Whether corner joints are sealed.", _of_corners("corners", "sealed")),
    Measure("end_sealed", "yes/no", "Whether end joints are sealed.", _of_corners("ends", "sealed")),
    Measure("seating", "choice", "How each piece was brought into contact.", _of_pieces("seating"), SEATING),
    Measure(
        "fixing_order",
        "choice",
        "In which order each piece was fixed.",
        _of_pieces("fixing_order"),
        FIXING_ORDER,
    ),
    Measure(
        "piece_checked", "yes/no", "Checked before the rest was fixed.", _of_pieces("checked_before_fixing")
    ),
    Measure(
        "frame_level",
        "mm/m",
        "Slope of bottom and top piece.",
        lambda work: frame.slopes(work, frame.HORIZONTAL),
    ),
    Measure("frame_plumb", "mm/m", "Slope of the side pieces.", lambda work: frame.slopes(work, frame.SIDES)),
    Measure(
        "frame_out_of_line",
        "mm",
        "Out of level or plumb of each piece.",
        _of_pieces("out_of_line_mm", measures="deviation"),
    ),
    Measure(
        "insulation_follows",
        "yes/no",
        "Whether insulation follows at once above the top piece.",
        as_recorded("frame", "insulation_follows_at_once"),
    ),
    Measure(
        "top_edge_sealed",
        "yes/no",
        "Whether the upper edge is sealed.",
        as_recorded("frame", "top_edge_sealed"),
    ),
    Measure(
        "frame_protected",
        "yes/no",
        "Whether it is protected.",
        as_recorded("frame", "protected_until_covered"),
    ),
    Measure(
        "open_time_left", "min", "Open time left when the last piece was pressed on.", weather.open_time_left
    ),
)
_FIXINGS = (
    Measure("embedment_margin", "mm", "Embedment beyond the data sheet's least.", fixings.embedment_margin),
    Measure("edge_distance_margin", "mm", "Edge distance beyond the least.", fixings.edge_distance_margin),
    Measure("drilled_holes_cleaned", "yes/no", "Whether drilled holes were cleaned.", fixings.holes_cleaned),
    Measure("torque_deviation", "Nm", "Torque against the data sheet.", fixings.torque_deviation),
    Measure(
        "fixing_length_margin",
        "mm",
        "Length of the frame's fixings beyond the data sheet's.",
        fixing_sizes.length_margin,
    ),
    Measure(
        "fixing_diameter_deviation",
        "mm",
        "Diameter of fixings against the data sheet's.",
        fixing_sizes.diameter_deviation,
    ),
    Measure(
        "fixing_length_left_over",
        "mm",
        "Length of fixings less their embedment.",
        fixing_sizes.length_left_over,
        below_zero=True,
    ),
    Measure(
        "hole_play",
        "mm",
        "Diameter of holes less that of their fixings.",
        fixing_sizes.hole_play,
        below_zero=True,
    ),
    Measure("empty_holes", "number", "Holes without a fixing.", fixings.empty_holes),
)
_SUPPORTS = (
    Measure("supports_called_for", "yes/no", "Whether the drawing calls for supports.", supports.called_for),
    Measure("load_point_distance", "mm", "Load point to nearest support.", supports.distance_to_load_points),
    Measure("support_end_margin", "mm", "Support to the bottom piece's ends.", within.support_end_margin),
    Measure("support_length", "mm", "Length of each support.", supports.support_lengths),
    Measure("support_holes", "number", "Holes of each support.", _of_supports("holes")),
    Measure("support_hole_diameter", "mm", "Diameter of its holes.", _of_supports("hole_diameter_mm")),
    Measure("support_beads", "number", "Beads on its back.", _of_supports("beads", "number")),
    Measure(
        "support_beads_continuous", "yes/no", "Whether they run through.", _of_supports("beads", "continuous")
    ),
    Measure("support_gap", "mm", "Gap to the bottom piece.", _of_supports("gap_mm")),
    Measure("support_fixed", "yes/no", "Whether it is fixed to the wall.", _of_supports("fixed_to_wall")),
    Measure("plinth_used", "yes/no", "Whether there is a plinth profile.", supports.plinth_used),
    Measure(
        "plinth_lead",
        "h",
        "From fitting the plinth profile to setting the window.",
        supports.plinth_before_window,
    ),
    Measure(
        "plinth_bonded", "yes/no", "Whether it is bonded airtight.", as_recorded("plinth", "bonded_airtight")
    ),
    Measure("plinth_screws", "choice", "What it is screwed with.", as_recorded("plinth", "screws"), SCREWS),
    Measure("plinth_joint_bonded", "yes/no", "Whether its joints are bonded.", supports.per_plinth_joint),
    Measure("bracket_number", "number", "Brackets to the wall.", supports.bracket_count),
    Measure(
        "bracket_screwed",
        "yes/no",
        "Whether each bracket is screwed on.",
        supports.bracket_screwed,
    ),
    Measure(
        "bracket_fixed",
        "yes/no",
        "Whether each bracket is fixed.",
        supports.bracket_fixed,
    ),
    Measure("height_made_up", "yes/no", "Whether height must be made up.", supports.height_is_made_up),
    Measure("packer_shortfall", "mm", "Height not made up.", supports.packer_shortfall),
    Measure(
        "packers_at_fixings",
        "yes/no",
        "Packer at each fixing.",
        as_recorded("plinth", "packers", "beside_fixings"),
    ),
)
WALL_SIDE = (*_SURVEY, *_FRAME, *_FIXINGS, *_SUPPORTS)
"""Measures of the wall side, in the order of the work."""
