"""Scaling: how the base's moulded lines become this paddler's. Stock never scales.

Beam and depth factors act on y and z. Length is a smooth, monotone map of x: the body zone, from
footbrace to the back of the seat, stretches with the paddler's legs, the ends take up the rest.
The crown factor acts on the height of deck and ridge above the gunwale, from the bow to the front
of the cockpit, and fades out along the opening.
"""

from dataclasses import dataclass, field
from functools import lru_cache

import numpy as np

from sizer.rows import SHARED, along

FADE_SHARE = 0.20  # of hull length: over this the body zone's stretch fades out; our judgement
INVERSE_M = 1e-9  # of the length map's inverse, before its last step
MOST_INVERSE_STEPS = 40
# Stretch of the body zone over that of the ends. Under the lower bound the sides of a full-waisted
# base turn hollow where the stretch changes; our judgement, tested on the shipped bases.
ZONE_OVER_ENDS = (0.85, 1.6)


@dataclass(frozen=True)
class Scaling:
    """What changes the base: factors, and the parts that follow the body.

    Every number may as well be an array (n,): one for each of many boats.
    """

    length: float = 1.0
    beam: float = 1.0
    depth: float = 1.0
    crown: float = 1.0
    legs: float = 1.0  # stretch of the body zone
    cockpit_length_m: float | None = None  # None: the base's own
    cockpit_width_m: float | None = None
    seat_shift_m: float = 0.0  # aft of where the map puts the seat


@dataclass(frozen=True)
class LengthMap:
    """A smooth, monotone map from the base's x to the scaled boat's x, and back.

    Length and stretches may be arrays (n,) of many boats; places are then (m,) or (n, m).
    """

    base_length_m: float = field(metadata=SHARED)
    length_m: float
    zone_front_m: float = field(metadata=SHARED)  # the body zone on the base
    zone_back_m: float = field(metadata=SHARED)
    ends: float  # stretch of the ends
    legs: float  # stretch of the body zone

    def __call__(self, base_x_m):
        zone = _zone_integral(base_x_m, self.zone_front_m, self.zone_back_m,
                              FADE_SHARE * self.base_length_m)
        ends, legs = along(self.ends, base_x_m), along(self.legs, base_x_m)
        return ends * np.asarray(base_x_m) + (legs - ends) * zone

    def base_x_m(self, x_m):
        """Base x of each scaled x, to the last digits: Newton steps, each at least halving the
        error, since no stretch differs from another by more than ZONE_OVER_ENDS."""
        guess = np.asarray(x_m) * self.base_length_m / along(self.length_m, x_m)
        for _ in range(MOST_INVERSE_STEPS):
            off = self(guess) - x_m
            guess = guess - off / self.stretch(guess)
            if np.abs(off).max() < INVERSE_M:
                break
        return guess

    def stretch(self, base_x_m):
        """Local stretch, the map's slope."""
        bump = _zone_bump(base_x_m, self.zone_front_m, self.zone_back_m,
                          FADE_SHARE * self.base_length_m)
        ends, legs = along(self.ends, base_x_m), along(self.legs, base_x_m)
        return ends + (legs - ends) * bump

    def stretch_slope(self, base_x_m):
        """How fast the stretch changes, 1/m of base x."""
        fade = FADE_SHARE * self.base_length_m
        x = np.asarray(base_x_m)
        rise = _smooth_slope((x - self.zone_front_m) / fade + 1.0)
        fall = _smooth_slope((x - self.zone_back_m) / fade)
        return along(self.legs - self.ends, x) * (rise - fall) / fade


def length_map(base_length_m, zone_m, length_factor, legs):
    """The map that stretches the zone by `legs` and the whole by `length_factor`.

    dX/dx = e + (s - e) b(x), with b rising smoothly from 0 to 1 at each side of the body zone;
    e follows from the whole length. Where s / e leaves ZONE_OVER_ENDS the zone takes what keeps
    it there, and the footbrace range has to serve the legs.
    """
    front, back = zone_m
    whole = float(_zone_integral(base_length_m, front, back, FADE_SHARE * base_length_m))
    length = length_factor * base_length_m
    ends = (length - legs * whole) / (base_length_m - whole)
    low, high = ZONE_OVER_ENDS
    kept = (low * ends <= legs) & (legs <= high * ends)
    ratio = np.where(legs < low * ends, low, high)
    ends = np.where(kept, ends, length / (base_length_m - whole + ratio * whole))[()]
    return LengthMap(base_length_m, length, front, back, ends,
                     np.where(kept, legs, ratio * ends)[()])


def _zone_bump(x_m, front_m, back_m, fade_m):
    return _smooth((np.asarray(x_m) - front_m) / fade_m + 1.0) - _smooth(
        (np.asarray(x_m) - back_m) / fade_m)


def _zone_integral(x_m, front_m, back_m, fade_m):
    """Integral of the bump from the bow."""
    at_bow = _at_bow(front_m, back_m, fade_m)
    rise = fade_m * (_smooth_integral((np.asarray(x_m) - front_m) / fade_m + 1.0) - at_bow[0])
    fall = fade_m * (_smooth_integral((np.asarray(x_m) - back_m) / fade_m) - at_bow[1])
    return rise - fall


@lru_cache(maxsize=64)
def _at_bow(front_m, back_m, fade_m):
    return _smooth_integral(1.0 - front_m / fade_m), _smooth_integral(-back_m / fade_m)


def _smooth(t):
    """Step from 0 to 1 with no jump in slope or curvature: 6t^5 - 15t^4 + 10t^3."""
    t = np.minimum(np.maximum(t, 0.0), 1.0)
    return t * t * t * (10.0 + t * (6.0 * t - 15.0))


def _smooth_slope(t):
    t = np.minimum(np.maximum(t, 0.0), 1.0)
    return 30.0 * (t * (1.0 - t)) ** 2


def _smooth_integral(t):
    """Integral of `_smooth` from minus infinity."""
    inside = np.minimum(np.maximum(t, 0.0), 1.0)
    squared = inside * inside
    return squared * squared * (2.5 + inside * (inside - 3.0)) + np.maximum(t - 1.0, 0.0)


def crown_factor(crown, base_x_m, front_m, back_m):
    """The crown factor at each base x: whole ahead of the opening, faded out behind it."""
    share = _smooth((np.asarray(base_x_m) - front_m) / (back_m - front_m))
    crown = along(crown, base_x_m)
    return crown + (1.0 - crown) * share
