"""Side wind on an upright boat: what the wind sees, what the water holds, and how far apart.

Flat silhouettes from abeam. The lead says how far the wind's centre stands ahead of the water's, as
a share of the waterline. Positive: left to drift, the wind pushes the bow away downwind.
Negative: it pushes the stern away, so the bow turns up into the wind. Under way the water holds
mostly near the bow, so every kayak turns further up into the wind than its lead says; a skeg, or
weight moved aft, holds the stern. Geometry only: no wind force, no waves.
"""

from dataclasses import dataclass, replace

import numpy as np

from sizer.errors import BadInput, Fault
from sizer.hydro.flotation import Load
from sizer.hydro.immersion import up_vectors
from sizer.hydro.particulars import float_upright
from sizer.units import MM_PER_M

# The torso from abeam is a rectangle from seat to shoulders with a smaller one, the head and neck,
# on top. All shares are our judgement; PFD and arms are within the first.
TORSO_DEPTH_SHARE = 0.65  # front to back, of the shoulders' breadth
SHOULDER_SHARE = 0.66  # height of the shoulders over the seat, of the sitting height
HEAD_DEPTH_M = 0.17  # front to back, of head and neck together
MOST_SKEG_X_M, MOST_SKEG_DEPTH_M = 20.0, 2.0  # beyond is a slip of the unit; our judgement
BALANCED = 0.01  # share of the waterline under which the lead says nothing; our judgement


@dataclass(frozen=True)
class Side:
    """A silhouette seen from abeam."""

    area_m2: float
    x_m: float  # of its centre, aft of the foremost point
    height_m: float  # of its centre, over the water


@dataclass(frozen=True)
class WindBalance:
    """What stands above the water and what lies below it, from abeam."""

    hull_above: Side
    torso: Side  # what shows over deck and rim
    above: Side  # both
    below: Side
    waterline_length_m: float

    @property
    def lead(self):
        """Wind's centre ahead of the water's, as a share of the waterline."""
        return float((self.below.x_m - self.above.x_m) / self.waterline_length_m)

    @property
    def meaning(self):
        """What the lead does to this boat, in a sentence."""
        ahead_mm = abs(self.lead) * self.waterline_length_m * MM_PER_M
        if not abs(self.lead) > BALANCED:
            return ("Left to drift it lies about beam on to the wind; under way it turns up into "
                    "the wind.")
        if self.lead > 0.0:
            return (f"The wind pushes {ahead_mm:.0f} mm ahead of where the water holds: left to "
                    "drift, the bow falls away downwind; under way this works against the usual "
                    "turn up into the wind.")
        return (f"The wind pushes {ahead_mm:.0f} mm behind where the water holds: left to drift, "
                "the bow turns up into the wind, and more so under way; a skeg helps.")

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
        return replace(self, below=_together(self.below, Side(area_m2, x_m, -depth_m)))


def wind_balance(sections, particulars, body, seat_x_m, seat_z_m):
    """Side areas and their centres above and below water, the paddler's torso included.

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
    x = sections.x_m
    bottom, top = sections.z_m.min(axis=1), sections.z_m.max(axis=1)
    x, bottom, top, water = _with_crossings(x, bottom, top, (level - up[0] * x) / up[2])
    hull = _side(x, np.maximum(bottom, water), np.maximum(top, water), up, level)
    below = _side(x, np.minimum(bottom, water), np.minimum(top, water), up, level)
    torso = _torso(x, np.maximum(top, water), body, seat_x_m, seat_z_m, up, level)
    return WindBalance(hull, torso, _together(hull, torso), below, particulars.waterline_length_m)


def wind_after_seat_shift(sections, load, paddler_kg, water, body, seat_x_m, seat_z_m, shift_m):
    """Particulars and WindBalance with the paddler's seat `shift_m` aft of where it is.

    The boat is floated again: it trims, which moves the water's centre too. Parameters otherwise as
    `wind_balance`; `load` is with the seat where it is, and `paddler_kg` the part that moves.

    Raises
    ------
    BadInput at "seat_shift_m" beyond half the hull; else as `float_upright`.
    """
    reach = 0.5 * sections.length_m
    _refuse(("seat_shift_m", shift_m, -reach, reach, "m"))
    moved = Load(load.mass_kg, load.lcg_m + paddler_kg * shift_m / load.mass_kg, load.vcg_m,
                 load.tcg_m)
    particulars = float_upright(sections, moved, water)
    return particulars, wind_balance(sections, particulars, body, seat_x_m + shift_m, seat_z_m)


def _refuse(*values):
    """BadInput with every (place, value, low, high, unit) out of its range, NaN included."""
    faults = [Fault(place, f"{value:g} {unit}", f"{low:.3g} to {high:.3g} {unit}")
              for place, value, low, high, unit in values if not low <= value <= high]
    if faults:
        raise BadInput(faults)


def _with_crossings(x, bottom, top, water):
    """The same straight lines with a place more wherever bottom or top meets the water."""
    extra = []
    for line in (bottom, top):
        depth = line - water
        at = np.flatnonzero(depth[:-1] * depth[1:] < 0.0)
        extra.append(x[at] + (x[at + 1] - x[at]) * depth[at] / (depth[at] - depth[at + 1]))
    places = np.sort(np.concatenate([x, *extra]))
    return places, *(np.interp(places, x, line) for line in (bottom, top, water))


def _side(x, low, high, up, level):
    """Area between two lines that run straight between the places; Simpson's rule is exact."""
    step = np.diff(x)

    def whole(value):
        middle = value(0.5 * (x[1:] + x[:-1]), 0.5 * (low[1:] + low[:-1]),
                       0.5 * (high[1:] + high[:-1]))
        ends = value(x, low, high)
        return float(np.sum(step * (ends[1:] + 4.0 * middle + ends[:-1]))) / 6.0

    area = whole(lambda _, a, b: b - a)
    if area <= 0.0:
        return Side(0.0, float(x.mean()), 0.0)
    centre_x = whole(lambda at, a, b: at * (b - a)) / area
    centre_z = whole(lambda _, a, b: 0.5 * (b * b - a * a)) / area
    return Side(area, centre_x, float(up[0] * centre_x + up[2] * centre_z - level))


def _torso(x, top, body, seat_x_m, seat_z_m, up, level):
    """Torso and head over the boat's top at their middle, upright on the seat."""
    depth = TORSO_DEPTH_SHARE * body.shoulder_width.value_m
    middle = seat_x_m - 0.5 * depth
    sitting = body.sitting_height.value_m
    deck = float(np.interp(middle, x, top))
    shoulder = max(seat_z_m + SHOULDER_SHARE * sitting, deck)
    crown = max(seat_z_m + sitting, shoulder)
    parts = [Side(width * (high - low), middle,
                  float(up[0] * middle + up[2] * 0.5 * (low + high) - level))
             for width, low, high in ((depth, deck, shoulder), (HEAD_DEPTH_M, shoulder, crown))]
    return _together(*parts)


def _together(one, other):
    """Two silhouettes as one; they do not overlap."""
    area = one.area_m2 + other.area_m2
    if area <= 0.0:
        return one
    return Side(area, (one.area_m2 * one.x_m + other.area_m2 * other.x_m) / area,
                (one.area_m2 * one.height_m + other.area_m2 * other.height_m) / area)
