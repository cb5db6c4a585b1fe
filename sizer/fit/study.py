"""What else the water does to the fitted boat: worked out where it is asked for."""

from dataclasses import dataclass, replace

import numpy as np

from sizer.fit.loading import loading, together
from sizer.fit.sensitivity import Change, sensitivity
from sizer.hydro.drag import DragCurve, Pace, drag_curve, drag_sections, pace, wetted
from sizer.hydro.flotation import Load, float_at
from sizer.hydro.particulars import particulars_of
from sizer.hydro.stability import RightingCurve, righting_curve
from sizer.hydro.wind import Side, WindBalance, paddler_sides, wind_balance

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
    return Study(curves, drag_curve(hull, SPEEDS_MPS), pace(hull),
                 _wind(assessed, boat, assessed.particulars),
                 _wind(assessed, boat, assessed.particulars, _skeg(assessed)),
                 _wind_seat_aft(assessed), sensitivity(assessed))


def _wind(assessed, boat, particulars, skeg=None):
    rim = float(boat.opening.rim_height_m(boat.seat_x_m))
    sides = paddler_sides(assessed.person.body, boat.seat_x_m, boat.seat_z_m, rim,
                          particulars.sinkage_m)
    return wind_balance(boat.sections, particulars, sides, skeg)


def _skeg(assessed):
    """A skeg of SKEG_AREA_M2, let down at SKEG_SHARE of the hull's length."""
    return Side(SKEG_AREA_M2, SKEG_SHARE * assessed.boat.length_m, -SKEG_DEEP_M)


def _wind_seat_aft(assessed):
    boat = replace(assessed.boat, seat_x_m=assessed.boat.seat_x_m + SEAT_AFT_M)
    person = assessed.person
    load = loading(boat, assessed.weight, person.body, person.centre, person.use,
                   person.gear_kg).load
    afloat = float_at(boat.sections, load, person.water)
    return _wind(assessed, boat, particulars_of(boat.sections, load, person.water, afloat))
