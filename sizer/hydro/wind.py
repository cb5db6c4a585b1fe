"""Side wind on a boat: what the wind sees, what the water holds, and how far apart.

Flat silhouettes from abeam, at any heel and trim. The lead says how far the wind's centre stands
ahead of the water's, as a share of the waterline. Positive: left to drift, the wind pushes the bow
away downwind. Negative: it pushes the stern away, so the bow turns up into the wind. Under way the
water holds mostly near the bow, so every kayak turns further up into the wind than its lead says
(`wind_under_way.py`); a skeg, or weight moved aft, holds the stern. Geometry only, no waves.
"""

from dataclasses import dataclass, replace

import numpy as np

from sizer.errors import BadInput, Fault
from sizer.hydro.abeam import Outline, Side, outline_abeam, side_between, together
from sizer.hydro.flotation import Load, float_and_wet
from sizer.hydro.immersion import up_vectors
from sizer.hydro.particulars import particulars_of
from sizer.rows import interp
from sizer.units import MM_PER_M, both_text

# The torso from abeam is a rectangle from seat to shoulders with a smaller one, the head and neck,
# on top. All shares are our judgement; PFD and arms are within the first.
TORSO_DEPTH_SHARE = 0.65  # front to back, of the shoulders' breadth
SHOULDER_SHARE = 0.66  # height of the shoulders over the seat, of the sitting height
HEAD_DEPTH_M = 0.17  # front to back, of head and neck together
MOST_SKEG_X_M, MOST_SKEG_DEPTH_M = 20.0, 2.0  # beyond is a slip of the unit; our judgement
BALANCED = 0.01  # share of the waterline under which the lead says nothing; our judgement


@dataclass(frozen=True, eq=False)
class WindBalance:
    """What stands above the water and what lies below it, from abeam; of many, arrays (...)."""

    outline: Outline
    hull_above: Side
    torso: Side  # what shows over deck and rim
    above: Side  # both
    below: Side
    waterline_length_m: float

    @property
    def lead(self):
        """Wind's centre ahead of the water's, as a share of the waterline."""
        return (self.below.x_m - self.above.x_m) / self.waterline_length_m

    @property
    def meaning(self):
        """What the lead does to this boat, in a sentence."""
        ahead_mm = abs(self.lead) * self.waterline_length_m * MM_PER_M
        if not abs(self.lead) > BALANCED:
            return ("Left to drift it lies about beam on to the wind; under way it turns up into "
                    "the wind.")
        if self.lead > 0.0:
            return (f"The wind pushes {both_text(ahead_mm)} ahead of where the water holds: left "
                    "to drift, the bow falls away downwind; under way this works against the usual "
                    "turn up into the wind.")
        return (f"The wind pushes {both_text(ahead_mm)} behind where the water holds: left to "
                "drift, the bow turns up into the wind, and more so under way; a skeg helps.")

    def with_skeg(self, area_m2, x_m, depth_m):
        """The same boat with a skeg down.

        Only its silhouette counts, at its centre; under way a skeg holds more than its area says.

        Parameters
        ----------
        area_m2 : of one side, below the hull; 0 or more
        x_m : of its centre
        depth_m : of its centre, under water

        Raises
        ------
        BadInput at "skeg.area_m2", "skeg.x_m", "skeg.depth_m".
        """
        _refuse(("skeg.area_m2", area_m2, 0.0, self.below.area_m2, "m2"),
                ("skeg.x_m", x_m, 0.0, MOST_SKEG_X_M, "m"),
                ("skeg.depth_m", depth_m, 0.0, MOST_SKEG_DEPTH_M, "m"))
        return replace(self, below=together(self.below, Side(area_m2, x_m, -depth_m)))


def wind_balance(sections, particulars, body, seat_x_m, seat_z_m):
    """Side areas and their centres above and below water of a boat afloat upright.

    Parameters
    ----------
    sections : Sections
    particulars : Particulars
    body : Body
    seat_x_m, seat_z_m : back of the buttocks, top of the seat

    Returns
    -------
    WindBalance
    """
    up = up_vectors(0.0, particulars.trim_deg)
    level = up[2] * particulars.sinkage_m + up[0] * sections.mid_x_m
    return wind_balance_at(sections, up, level, body, seat_x_m, seat_z_m)


def wind_balance_at(sections, up, level_m, body, seat_x_m, seat_z_m):
    """As `wind_balance`, of one boat or many at any heel and trim; the torso is kept upright.

    Parameters
    ----------
    sections : Sections of one boat, or of as many as there are planes of water
    up, level_m : (..., 3) and (...), the plane of water as in `sizer.hydro.immersion`
    body : Body, of one or of as many
    seat_x_m, seat_z_m : as in `wind_balance`, numbers or (...)
    """
    outline = outline_abeam(sections, up, np.asarray(level_m))
    x, low, high = outline.x_m, outline.low_m, outline.high_m
    slant = np.hypot(up[..., 1], up[..., 2])
    hull = side_between(x, np.maximum(low, 0.0), np.maximum(high, 0.0), slant)
    below = side_between(x, np.minimum(low, 0.0), np.minimum(high, 0.0), slant)
    seat_m = up[..., 0] * seat_x_m + up[..., 2] * seat_z_m - level_m
    torso = _torso(x, np.maximum(high, 0.0), body, seat_x_m, seat_m)
    wet = low[..., 1:] + low[..., :-1] < 0.0
    return WindBalance(outline, hull, torso, together(hull, torso), below,
                       np.sum(np.diff(x) * wet, axis=-1))


def wind_after_seat_shift(sections, load, paddler_kg, water, body, seat_x_m, seat_z_m, shift_m):
    """Particulars and WindBalance with the paddler's seat `shift_m` aft of where it is.

    The boat is floated again: it trims, which moves the water's centre too. Parameters otherwise as
    `wind_balance`; `load` is with the seat where it is, and `paddler_kg` the part that moves.

    Raises
    ------
    BadInput at "seat_shift_m" beyond half the hull; else as `float_and_wet`: a rim that the seat
    puts under water is no reason to tell nothing of the wind.
    """
    reach = 0.5 * sections.length_m
    _refuse(("seat_shift_m", shift_m, -reach, reach, "m"))
    moved = Load(load.mass_kg, load.lcg_m + paddler_kg * shift_m / load.mass_kg, load.vcg_m,
                 load.tcg_m)
    particulars = particulars_of(sections, moved, water,
                                 *float_and_wet(sections, moved, water, 0.0, None))
    return particulars, wind_balance(sections, particulars, body, seat_x_m + shift_m, seat_z_m)


def _refuse(*values):
    """BadInput with every (place, value, low, high, unit) out of its range, NaN included."""
    faults = [Fault(place, f"{value:g} {unit}", f"{low:.3g} to {high:.3g} {unit}")
              for place, value, low, high, unit in values if not low <= value <= high]
    if faults:
        raise BadInput(faults)


def _torso(x, top, body, seat_x_m, seat_m):
    """Torso and head over the boat's top at their middle, upright; heights are over the water."""
    depth = TORSO_DEPTH_SHARE * body.shoulder_width.value_m
    middle = seat_x_m - 0.5 * depth
    sitting = body.sitting_height.value_m
    deck = interp(np.asarray(middle)[..., None], x, top)[..., 0]
    shoulder = np.maximum(seat_m + SHOULDER_SHARE * sitting, deck)
    crown = np.maximum(seat_m + sitting, shoulder)
    parts = [Side(width * (high - low), middle, 0.5 * (low + high))
             for width, low, high in ((depth, deck, shoulder), (HEAD_DEPTH_M, shoulder, crown))]
    return together(*parts)
