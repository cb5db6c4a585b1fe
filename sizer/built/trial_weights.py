"""The weights of the steadiness trial: enough to read, and never enough to turn the boat over.

A weight w at a distance d off the centre heels the boat to where w d cos(heel) = W GZ(heel), W GZ
the stiffly held paddler's own curve. Where the paddler sits is not known beforehand, so what is
safe goes by the curve less the spread of GM: GZ + (least GM - GM) sin(heel). After each reading
the spread is narrower, and more may be safe. Where the boat lies over without a weight, the whole
moment that holds it there is taken off what is safe, so that both together are no more.

The weight lies where a frame is under the deck and no rim: ahead of the opening or behind it,
wherever the deck falls less to the side.
"""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from sizer.built.trial import heel_of_gm_deg
from sizer.hull.sections import half_section_at
from sizer.hydro.stability import righting_curve

WANTED_DEG = (2.0, 3.0, 4.0)  # of heel: a level reads them well, and a boat bears them; ours
SAFE_SHARE = 0.5  # of what turns the careful boat over; our judgement
CURVE_DEG = np.linspace(0.0, 15.0, 16)
OUT_SHARE = 0.8  # of the half-breadth there at which a weight lies safely; our judgement
STEP_KG, STEP_M = 0.1, 0.01  # of what is told; rounded down


@dataclass(frozen=True)
class TrialPlace:
    """Where a trial's weight lies on the deck, to one side or to the other."""

    frame: str  # under it
    x_m: float
    off_centre_m: float
    height_m: float  # of the deck over the baseline there
    slope_deg: float  # how steeply the deck falls to the side there
    wide_m: float  # the most that a weight may be wide there, so that it does not hang over


@dataclass(frozen=True)
class TrialWeights:
    """What to put where; all to one side, then to the other."""

    place: TrialPlace
    steps: tuple[tuple[float, float], ...]  # heel expected, deg, and kg; may be over the safest
    safest_kg: float  # the most that is put aboard; 0: no trial
    safest_deg: float  # of heel that it is expected to bring
    turns_over_kg: float  # expected to turn this boat over; 0: it does not stand by itself
    high_over_kg: float  # that turns it over with the paddler as high as he may sit; 0 as before
    still_deg: float  # that it may lie over without a weight

    @property
    def first(self):
        """Heel expected, deg, and kg of the weight that a trial begins with: the least of `steps`,
        and never more than is safe."""
        return min(self.steps[0], (self.safest_deg, self.safest_kg), key=lambda one: one[1])

    @property
    def off_centre_m(self):
        return self.place.off_centre_m


def trial_place(boat):
    """The TrialPlace of a boat: at the frame next ahead of its opening or next behind it; where a
    design has neither, at any."""
    opening = boat.opening
    frames = tuple(zip(boat.design.frames, boat.frame_x_m, strict=True))
    beside = [*[one for one in frames if one[1] <= opening.front_x_m][-1:],
              *[one for one in frames if one[1] >= opening.back_x_m][:1]]
    return min((_on_deck(boat, frame.name, float(x)) for frame, x in beside or frames),
               key=lambda one: one.slope_deg)


def _on_deck(boat, name, x_m):
    sheer = boat.sections.sheer
    y, z = (one[0, sheer:][::-1] for one in half_section_at(boat.sections, np.array([x_m])))
    out = float(np.floor(OUT_SHARE * y[-1] / STEP_M) * STEP_M)
    end = int(np.searchsorted(y, out, side="right"))  # of the deck's step that it lies on
    falls = np.arctan2(z[end - 1] - z[end], y[end] - y[end - 1])
    return TrialPlace(name, x_m, out, float(np.interp(out, y, z)), float(np.degrees(falls)),
                      float(np.floor(2.0 * (y[-1] - out) / STEP_M + 1e-9) * STEP_M))


def trial_weights(assessed, gm_m, plus_minus_m, still_deg=0.0):
    """The TrialWeights of an Assessed boat by what GM is taken as, the band that holds nine in ten,
    and how the boat lies without a weight. Raises WillNotFloat, NotSolved: see
    `sizer.hydro.stability.righting_curve`."""
    moments = _moments_of(assessed)
    place = trial_place(assessed.boat)
    out = place.off_centre_m
    expected, careful = moments(gm_m), moments(gm_m - plus_minus_m)
    rising = np.maximum.accumulate(expected)
    lies = float(np.interp(abs(still_deg), CURVE_DEG, rising))
    safest = _down(max(SAFE_SHARE * float(careful.max()) - lies, 0.0) / out)
    over, high_over = (_down(max(float(one.max()), 0.0) / out) for one in (expected, careful))
    steps = tuple((heel, _down(float(np.interp(heel, CURVE_DEG, rising)) / out))
                  for heel in WANTED_DEG)
    heel = float(np.interp(safest * out, rising, CURVE_DEG))
    return TrialWeights(place, steps, safest, heel, over, high_over, abs(still_deg))


def heels_at_gm_deg(assessed, gm_m, weights_kg, off_centre_m):
    """How far each of some weights heels an Assessed boat whose GM is this: by its own curve; one
    that turns it over, by the inclining experiment's sum, which is less. Raises as `trial_weights`.
    """
    bears = np.maximum.accumulate(_moments_of(assessed)(gm_m))
    for kg in weights_kg:
        moment = kg * off_centre_m
        whole_kg = assessed.loading.load.mass_kg + kg
        yield (heel_of_gm_deg(kg, off_centre_m, whole_kg, gm_m) if moment >= bears[-1]
               else float(np.interp(moment, bears, CURVE_DEG)))


@lru_cache(maxsize=4)  # a trial's limits ask again and again
def _moments_of(assessed):
    """A function from GM to what the boat bears at CURVE_DEG, kg m, its paddler held stiff."""
    load = assessed.loading.load
    curve = righting_curve(assessed.boat.sections, load, assessed.person.water, CURVE_DEG)
    sine, cosine = np.sin(np.radians(CURVE_DEG)), np.cos(np.radians(CURVE_DEG))
    return lambda gm: load.mass_kg * (curve.gz_m + (gm - curve.gm_m) * sine) / cosine


def _down(kg):
    return float(np.floor(kg / STEP_KG + 1e-9) * STEP_KG)
