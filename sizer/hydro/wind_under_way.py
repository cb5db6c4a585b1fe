"""Under way in a beam wind: which way the boat turns, and what skeg would keep it straight.

The boat goes at a speed U along itself and sideways at what the water allows, v, so that the wind's
side force is the water's, F = a U v + c v^2, the two parts of `side_hold.py`, each at its centre.
Fast in a light wind lift holds and the boat turns up into the wind; slow or blown hard, the areas
decide. The wind's force is rho/2 C A V^2, on the hull moved ahead as the wind felt comes from ahead
of abeam (W. Blendermann's 0.18 of the length a radian, ships, 1994). A skeg is a fin with lift and
cross-flow drag of its own. All sources and coefficients are from memory.

An estimate: no waves, no bow wave, no lean's own turning, no paddle in the wind, no strokes.
"""

from dataclasses import dataclass

import numpy as np

from sizer.errors import BadInput, Fault
from sizer.hydro.side_hold import CROSS_FLOW, drift_mps, hold
from sizer.units import CM2_PER_M2, KN_PER_MPS, M2_PER_SQ_IN

AIR_KGPM3 = 1.225  # at 15 C at sea level (standard atmosphere)
# Of silhouettes, at the boat's own height. S. F. Hoerner, Fluid-Dynamic Drag, 1965, has about 1.0
# to 1.3 for a person; ships broadside have 0.7 to 1.0 (Blendermann). Our choice, from memory.
HULL_IN_WIND, TORSO_IN_WIND = 0.8, 1.1
AHEAD_PER_RADIAN = 0.18  # of the waterline; see above
# Lift slope of a square fin under a hull, twice its own height against its chord for the mirror,
# 1.8 pi AR / (1.8 + sqrt(AR^2 + 4)) (L. F. Whicker and L. F. Fehlner, DTMB Report 933, 1958), times
# the half of the drift that the hull leaves at its stern: rudders of ships 0.4 to 0.64.
SKEG_ASPECT, SKEG_DRIFT = 2.0, 0.5
SKEG_LIFT = SKEG_DRIFT * 1.8 * np.pi * SKEG_ASPECT / (1.8 + np.hypot(SKEG_ASPECT, 2.0))
# Of the waterline, each way; our judgement. The coefficients' own ranges, with lift and its centre
# between slender-body theory and D. Clarke, P. Gedling and G. Hine's fit to ships, 1983, move 95 in
# 100 leads less (tested); what is left out comes on top.
LEAD_ERROR = 0.07
SKEG_ERROR = 1.5  # a skeg holds so much more or less than said; our judgement
SKEG_DEPTH_SHARE = 0.5  # a skeg stands where this share of the draft is left; our judgement
LEAST_ARM_M = 0.01  # see _skeg_m2
MOST_WIND_MPS, MOST_SPEED_MPS = 25.0, 4.0  # beyond is a slip of the unit; our judgement
CAUTION = (f"An estimate, not a trial: the lead may be off by {100.0 * LEAD_ERROR:.0f} % of the "
           "waterline either way, and a skeg's hold by half. Waves and strokes turn a boat too. "
           "Try it in wind near shore, with company, before you rely on it.")
SOURCE = (f"Lift of a slender body well ahead, cross-flow drag on the side area, wind drag of "
          f"{HULL_IN_WIND:g} on the hull and {TORSO_IN_WIND:g} on the body; coefficients from "
          "memory, most of them ships', and no kayak was measured.")


@dataclass(frozen=True)
class UnderWay:
    """A boat under way in a beam wind; arrays (...) over boats, winds and speeds."""

    wind_mps: float  # true, from abeam, at the boat's height
    speed_mps: float  # ahead, through the water
    side_force_N: float
    drift_deg: float  # leeway
    wind_x_m: float
    water_x_m: float
    lead: float  # wind's centre ahead of the water's, as a share of the waterline
    skeg_x_m: float
    skeg_m2: float  # area of one side that takes the lead away; 0 where none is needed
    skeg_low_m2: float  # the same at the ends of the stated error
    skeg_high_m2: float

    @property
    def turns(self):
        """What it does, beyond what the estimate may be off: "windward", "leeward", "either"."""
        return np.select([self.lead < -LEAD_ERROR, self.lead > LEAD_ERROR],
                         ["windward", "leeward"], "either")[()]

    @property
    def says(self):
        """What one boat does in one wind at one speed, and the skeg for it, in two sentences."""
        side = "ahead of" if self.lead > 0.0 else "behind"
        turns = {"windward": "it weathercocks, up into the wind",
                 "either": "it may turn either way",
                 "leeward": "its bow falls away downwind"}[str(self.turns)]
        likely, low, high = (f"{area * CM2_PER_M2:.0f}" for area in (
            self.skeg_m2, self.skeg_low_m2, self.skeg_high_m2))
        skeg = (f"A skeg of about {likely} cm² ({low} to {high}; {self.skeg_m2 / M2_PER_SQ_IN:.0f} "
                "sq in) near the stern would keep it "
                "straight." if self.skeg_high_m2 > 0.0
                else "No skeg helps; weight farther forward would.")
        return (f"Paddled at {self.speed_mps:g} m/s ({self.speed_mps * KN_PER_MPS:.1f} knots) "
                f"across a wind of {self.wind_mps:g} m/s ({self.wind_mps * KN_PER_MPS:.0f} knots), "
                f"{turns}: the wind pushes {abs(100.0 * self.lead):.0f} ± "
                f"{100.0 * LEAD_ERROR:.0f} % of the waterline {side} where the water holds. {skeg}")


def skeg_place_m(balance):
    """x of a skeg's centre: the aftmost place with half the draft left."""
    x, draft = balance.outline.x_m, -balance.outline.low_m
    left = draft - SKEG_DEPTH_SHARE * draft.max(axis=-1, keepdims=True)
    last = np.minimum(x.shape[-1] - 1 - np.argmax(left[..., ::-1] >= 0.0, axis=-1),
                      x.shape[-1] - 2)[..., None]
    (x0, x1), (d0, d1) = (tuple(np.take_along_axis(one, last + step, -1)[..., 0]
                                for step in (0, 1)) for one in (x, left))
    return (x0 + (x1 - x0) * np.where(d1 < 0.0, d0 / np.where(d1 < 0.0, d0 - d1, 1.0), 1.0))[()]


def under_way(balance, density_kgpm3, wind_mps, speed_mps):
    """The UnderWay of boats in beam winds at speeds.

    Parameters
    ----------
    balance : WindBalance of one or of many
    density_kgpm3 : of the water
    wind_mps : above 0 to 25; numbers or arrays that go with each other and the boats
    speed_mps : 0 to 4

    Raises
    ------
    BadInput at "wind_mps", "speed_mps".
    """
    _refuse_odd(wind_mps, speed_mps)
    hull, length = hold(balance, density_kgpm3), balance.waterline_length_m
    force, wind_x = _wind(balance, wind_mps, speed_mps)
    drift = drift_mps(hull.cross_kgpm, hull.lift_kgpm * speed_mps, force)
    lift = hull.lift_kgpm * speed_mps * drift / force  # its share of the hold
    water_x = lift * hull.lift_x_m + (1.0 - lift) * hull.cross_x_m
    place, off = skeg_place_m(balance), LEAD_ERROR * length
    likely, low, high = (
        _skeg_m2(hull, force, wind_x - ahead, place, speed_mps, density_kgpm3) / strength
        for ahead, strength in ((0.0, 1.0), (off, SKEG_ERROR), (-off, 1.0 / SKEG_ERROR)))
    return UnderWay(*(each[()] for each in np.broadcast_arrays(
        wind_mps, speed_mps, force, np.degrees(np.arctan2(drift, speed_mps)), wind_x, water_x,
        (water_x - wind_x) / length, place, likely, low, high)))


def _wind(balance, wind_mps, speed_mps):
    """The wind's side force and its centre."""
    pressure = 0.5 * AIR_KGPM3 * np.square(wind_mps)
    hull = HULL_IN_WIND * balance.hull_above.area_m2
    torso = TORSO_IN_WIND * balance.torso.area_m2
    ahead = AHEAD_PER_RADIAN * balance.waterline_length_m * np.arctan2(speed_mps, wind_mps)
    centre = (hull * (balance.hull_above.x_m - ahead) + torso * balance.torso.x_m) / (hull + torso)
    return pressure * (hull + torso), centre


def _skeg_m2(hull, force_N, wind_x_m, place_m, speed_mps, density_kgpm3):
    """The skeg's area at which nothing turns about the wind's centre; 0 where none is needed.

    With the hull holding H(v) and the skeg the rest, F - H(v), moments about the skeg say
    a U v (xs - xl) + c v^2 (xs - xc) = F (xs - xw), which gives v. Where the hull holds behind the
    skeg none is needed, where the wind pushes behind it none is enough: arms end short of nothing.
    """
    lift_arm, cross_arm, wind_arm = (np.maximum(place_m - x, LEAST_ARM_M) for x in (
        hull.lift_x_m, hull.cross_x_m, wind_x_m))
    drift = drift_mps(hull.cross_kgpm * cross_arm, hull.lift_kgpm * speed_mps * lift_arm,
                   force_N * wind_arm)
    rest = np.maximum(force_N - hull.force_N(speed_mps, drift), 0.0)
    return rest / (0.5 * density_kgpm3 * (SKEG_LIFT * speed_mps * drift + CROSS_FLOW * drift**2))


def _refuse_odd(wind_mps, speed_mps):
    """BadInput with winds and speeds that are none, NaN included."""
    wind, speed = np.asarray(wind_mps, float), np.asarray(speed_mps, float)
    faults = [Fault(place, f"{values[~fits].flat[0]:g} m/s", f"{allowed} m/s")
              for place, values, fits, allowed in (
                  ("wind_mps", wind, (wind > 0.0) & (wind <= MOST_WIND_MPS),
                   f"above 0 to {MOST_WIND_MPS:g}"),
                  ("speed_mps", speed, (speed >= 0.0) & (speed <= MOST_SPEED_MPS),
                   f"0 to {MOST_SPEED_MPS:g}")) if not np.all(fits)]
    if faults:
        raise BadInput(faults)
