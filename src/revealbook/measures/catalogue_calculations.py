"""Measures that calculate: tests on the finished work, loads and fixings, movement, sums, balance."""

from revealbook.measures import (
    balance,
    bead_cure,
    fixing_use,
    hinges,
    loads,
    movement,
    sums,
    survey,
    thermometry,
    trials,
    wind,
)
from revealbook.measures.quantity import Function, Measure, as_recorded


def _made(test: str) -> Function:
    return lambda work: trials.made(work, test)


def _flow(size_key: str) -> Function:
    return lambda work: trials.flow_at_100_pa(work, size_key)


_TRIALS = (
    Measure("thermometry_made", "yes/no", "Whether thermometry was done.", _made("thermometry")),
    Measure("leakage_tested", "yes/no", "Whether air leakage was tested.", _made("air_leakage")),
    Measure("spray_tested", "yes/no", "Whether water was sprayed.", _made("water_spray")),
    Measure(
        "inside_outside_difference",
        "K",
        "Inside air warmer than outside air.",
        thermometry.inside_outside_difference,
    ),
    Measure(
        "temperature_factor",
        "-",
        "Temperature factor of the coldest surface.",
        thermometry.factor,
        below_zero=True,
    ),
    Measure(
        "room_climate_stated",
        "yes/no",
        "Whether the climate that the room is meant for is stated.",
        thermometry.room_climate_stated,
    ),
    Measure(
        "temperature_factor_reserve",
        "-",
        "Temperature factor beyond what the room's climate asks for.",
        thermometry.factor_reserve,
        below_zero=True,
    ),
    Measure("leakage_points", "number", "Pressures at which leakage was read.", trials.points_read),
    Measure("leakage_exponent", "-", "Exponent of the power law.", trials.exponent, below_zero=True),
    Measure("leakage_r2", "-", "How well the readings follow a power law (r2).", trials.r_squared),
    Measure("leakage_by_area", "m3/(h m2)", "Flow at 100 Pa by the window's area.", _flow("area_m2")),
    Measure(
        "leakage_by_joint", "m3/(h m)", "Flow at 100 Pa by the length of joint.", _flow("joint_length_m")
    ),
    Measure(
        "leakage_reaches_a_class",
        "yes/no",
        "Whether the readings reach any class's pressure.",
        trials.reaches_a_class,
    ),
    Measure("permeability_class", "number", "Air permeability class by area.", trials.permeability_class),
    Measure(
        "water_inside",
        "yes/no",
        "Whether water came in.",
        as_recorded("tests", "water_spray", "water_inside"),
    ),
    Measure(
        "spray_minutes", "min", "How long water was sprayed.", as_recorded("tests", "water_spray", "minutes")
    ),
)
_LOADS = (
    Measure(
        "mass_beyond_glass",
        "kg",
        "Window's mass less that of its glass.",
        loads.mass_beyond_glass,
        below_zero=True,
    ),
    Measure("support_load", "N", "Load on each support.", loads.support_loads, below_zero=True),
    Measure("eccentric_moment", "Nm", "Moment of the weight about the wall's face.", loads.eccentric_moment),
    Measure("wind_suction", "Pa", "Worst wind suction on the opening.", wind.wind_suction),
    Measure(
        "wind_class_reserve",
        "Pa",
        "Test pressure of the window's declared class beyond the greatest wind on it.",
        wind.wind_class_reserve,
        below_zero=True,
    ),
    Measure(
        "hangs_at_its_side",
        "yes/no",
        "Whether a sash opens on hinges at its side.",
        hinges.hangs_at_its_side,
    ),
    Measure("hinge_pull", "N", "Pull on the upper hinge of the open sash.", hinges.hinge_pull),
    Measure(
        "hinge_corner_use",
        "-",
        "Use of the fixing beside the upper hinge by the open sash.",
        hinges.hinge_corner_use,
    ),
    Measure("fixing_tension", "N", "Design tension on the worst fixing.", loads.fixing_tension),
    Measure("fixing_shear", "N", "Design shear on each fixing.", loads.fixing_shear),
    Measure("fixing_use", "-", "Use of the worst fixing's design resistance.", fixing_use.fixing_use),
    Measure(
        "fixing_surplus",
        "number",
        "Fixings beyond those needed.",
        fixing_use.fixing_surplus,
        below_zero=True,
    ),
    Measure(
        "movement_reserve",
        "mm",
        "What the foam follows beyond the movement.",
        movement.movement_reserve,
        below_zero=True,
    ),
)
_BEYOND_PRACTICE = (
    Measure(
        "flatness_reserve",
        "mm",
        "What the substrate's gap leaves of its tolerance.",
        survey.flatness_reserve,
        below_zero=True,
    ),
    Measure(
        "cure_depth_stated", "yes/no", "Whether the data sheet states a cure depth.", bead_cure.depth_stated
    ),
    Measure(
        "bead_cure_reserve",
        "mm",
        "How far the bead had set beyond its middle.",
        bead_cure.cure_reserve,
        below_zero=True,
    ),
)
_SUMS = (
    Measure("width_sum_error", "mm", "Closing error of the widths.", sums.width_sum_error),
    Measure("height_sum_error", "mm", "Closing error of the heights.", sums.height_sum_error),
    Measure("adhesive_ratio", "-", "Adhesive used by what the beads need.", balance.adhesive_ratio),
    Measure("cartridge_share", "-", "Adhesive used by what its cartridges held.", balance.cartridge_share),
    Measure("foam_ratio", "-", "Foam used by what the joint needs.", balance.foam_ratio),
    Measure("tape_ratio", "-", "Tape used by what its runs need.", balance.tape_ratio),
)
CALCULATIONS = (*_TRIALS, *_LOADS, *_BEYOND_PRACTICE, *_SUMS)
"""Measures that calculate."""
