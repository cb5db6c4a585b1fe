"""What else the water does to the fitted boat: worked out where it is asked for."""

from dataclasses import dataclass

import numpy as np

from sizer.fit.loading import together
from sizer.fit.sensitivity import Change, sensitivity
from sizer.hydro.drag import DragCurve, Pace, drag_curve, drag_sections, pace, wetted
from sizer.hydro.flotation import Load
from sizer.hydro.stability import RightingCurve, righting_curve
from sizer.hydro.wind import WindBalance, wind_after_seat_shift, wind_balance

SKEG_AREA_M2 = 0.020  # let right down; our judgement
SKEG_SHARE = 0.86  # of hull length from the bow, where a skeg stands; our judgement
SKEG_DEEP_M = 0.15  # its centre under water; our judgement
SEAT_AFT_M = 0.05
SPEEDS_MPS = np.linspace(0.5, 3.2, 28)  # 1 to 6 knots, what a paddler does


@dataclass(frozen=True, eq=False)
class Study:
    """The fitted boat under way, and its other righting curves."""

    other_curves: dict[str, RightingCurve]  # by case
    drag: DragCurve
    pace: Pace
    wind: WindBalance
    wind_with_skeg: WindBalance
    wind_seat_aft: WindBalance  # seat SEAT_AFT_M farther aft, floated again
    changes: tuple[Change, ...]


def study(assessed, rigid):
    """The Study of an assessed boat.

    Parameters
    ----------
    assessed : Assessed
    rigid : RightingCurve of the nominal load, to start the others from
    """
    boat, water, load = assessed.boat, assessed.person.water, assessed.loading
    own = Load(assessed.weight.mass_kg, assessed.weight.lcg_m, assessed.weight.vcg_m)
    curves = {
        "seated_high": righting_curve(boat.sections, load.cautious, water, near=rigid),
        "without_gear": righting_curve(boat.sections, together(own, load.paddler), water,
                                       near=rigid),
        "boat_alone": righting_curve(boat.sections, own, water),
    }
    hull = wetted(drag_sections(boat), assessed.particulars, water)
    wind = wind_balance(boat.sections, assessed.particulars, assessed.person.body,
                        boat.seat_x_m, boat.seat_z_m)
    _, seat_aft = wind_after_seat_shift(
        boat.sections, load.load, load.paddler_kg, water, assessed.person.body, boat.seat_x_m,
        boat.seat_z_m, SEAT_AFT_M)
    return Study(
        curves, drag_curve(hull, SPEEDS_MPS), pace(hull), wind,
        wind.with_skeg(SKEG_AREA_M2, SKEG_SHARE * boat.length_m, SKEG_DEEP_M), seat_aft,
        sensitivity(boat.lines, boat.scaling, assessed.person).changes)
