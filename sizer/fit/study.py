"""What else the water does to the fitted boat: worked out where it is asked for."""

from dataclasses import dataclass

import numpy as np

from sizer.fit.loading import together
from sizer.fit.sensitivity import Change, sensitivity
from sizer.fit.told import known
from sizer.hydro.drag import DragCurve, Pace, drag_curve, drag_sections, pace, wetted
from sizer.hydro.flotation import Load, float_at
from sizer.hydro.immersion import up_vectors
from sizer.hydro.stability import RightingCurve, righting_curve
from sizer.hydro.wind import WindBalance, wind_after_seat_shift, wind_balance, wind_balance_at
from sizer.hydro.wind_under_way import UnderWay, skeg_place_m, under_way
from sizer.rows import one_of

SKEG_AREA_M2 = 0.020  # let right down; our judgement
SKEG_DEEP_M = 0.15  # its centre under water; our judgement
SEAT_AFT_M = 0.05
HEELED_DEG = 10.0  # held over on one edge; our judgement
PADDLED = ((5.0, 1.0), (5.0, 1.75), (10.0, 1.0), (10.0, 1.75))  # m/s of wind and of the boat
SPEEDS_MPS = np.linspace(0.5, 3.2, 28)  # 1 to 6 knots, what a paddler does


@dataclass(frozen=True, eq=False)
class Study:
    """The fitted boat under way, and its other righting curves; None where a case does not float.
    """

    other_curves: dict[str, RightingCurve | None]  # by case
    drag: DragCurve
    pace: Pace
    wind: WindBalance
    wind_with_skeg: WindBalance
    wind_seat_aft: WindBalance | None  # seat SEAT_AFT_M farther aft, floated again
    under_way: dict[str, tuple[UnderWay, ...] | None]  # by case, for each of PADDLED
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
    curves = {name: known(righting_curve, boat.sections, carried, water, near=near)
              for name, carried, near in (
                  ("seated_high", load.cautious, rigid),
                  ("without_gear", together(own, load.paddler), rigid),
                  ("boat_alone", own, None))}
    hull = wetted(drag_sections(boat), assessed.particulars, water)
    return Study(curves, drag_curve(hull, SPEEDS_MPS), pace(hull), **_in_wind(assessed),
                 changes=sensitivity(boat.lines, boat.scaling, assessed.person).changes)


def _in_wind(assessed):
    """The fields of a Study that tell of wind."""
    boat, water, load = assessed.boat, assessed.person.water, assessed.loading
    seated = assessed.person.body, boat.seat_x_m, boat.seat_z_m
    wind = wind_balance(boat.sections, assessed.particulars, *seated)
    heeled = known(_wind_heeled, boat.sections, load.load, water, seated)
    _, seat_aft = known(wind_after_seat_shift, boat.sections, load.load, load.paddler_kg, water,
                        *seated, SEAT_AFT_M) or (None, None)
    cases = {"as_fitted": wind, "heeled_10_deg": heeled, "seat_50_mm_aft": seat_aft}
    return {"wind": wind, "wind_seat_aft": seat_aft,
            "wind_with_skeg": wind.with_skeg(SKEG_AREA_M2, skeg_place_m(wind), SKEG_DEEP_M),
            "under_way": {name: None if case is None else tuple(
                under_way(case, water.density_kgpm3, *one) for one in PADDLED)
                for name, case in cases.items()}}


def _wind_heeled(sections, load, water, seated):
    """The WindBalance of a boat held over by HEELED_DEG."""
    edged = one_of(float_at(sections, load, water, HEELED_DEG), 0)
    return wind_balance_at(sections, up_vectors(edged.heel_deg, edged.trim_deg), edged.level_m,
                           *seated)
