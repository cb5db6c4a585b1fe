"""What else the water does to the fitted boat: worked out where it is asked for."""

from dataclasses import dataclass

import numpy as np

from sizer.fit.loading import together
from sizer.hydro.drag import DragCurve, Pace, drag_curve, drag_sections, pace, wetted
from sizer.hydro.flotation import Load
from sizer.hydro.stability import RightingCurve, righting_curve

SPEEDS_MPS = np.linspace(0.5, 3.2, 28)  # 1 to 6 knots, what a paddler does


@dataclass(frozen=True, eq=False)
class Study:
    """The fitted boat under way, and its other righting curves."""

    other_curves: dict[str, RightingCurve]  # by case
    drag: DragCurve
    pace: Pace


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
    return Study(curves, drag_curve(hull, SPEEDS_MPS), pace(hull))
