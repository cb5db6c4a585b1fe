"""Stability: the righting arm from upright to upside down, and what it says in a few numbers.

Sinkage and trim are free at each held heel; mass and its centre stay. The cockpit is closed at the
rim, as with a spray deck on. Open, the boat fills once the rim goes under: its curve ends there.
Calm water, and a paddler who is part of the boat; the body's own buoyancy, once it lies in the
water, is left out, so beyond some 60 degrees the curve tells of the boat more than of the swimmer.
"""

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from scipy.interpolate import CubicSpline, PPoly

from sizer.errors import BadInput, Fault
from sizer.hydro.flotation import float_and_wet, float_many
from sizer.hydro.immersion import up_vectors
from sizer.hydro.particulars import upright_of
from sizer.hydro.rim import rim_clearance_m, rims_deg
from sizer.rows import one_of
from sizer.units import STANDARD_GRAVITY_MPS2

HEELS_DEG = tuple(float(heel) for heel in range(0, 181, 5))
LEAST_ANGLES = 5  # under which no curve is drawn through the arms; our judgement
SLOPE_DEG = 0.1  # heel that gives the slope upright
END_RAD = 1e-6  # a root nearer to an end of the curve is that end


@dataclass(frozen=True, eq=False)
class RightingCurve:
    """Righting arms over rising heel angles from 0; arrays are (n,)."""

    mass_kg: float
    gm_m: float  # upright, from the waterplane
    slope_m_per_rad: float  # upright, from a small heel: GM again, by another road
    heel_deg: np.ndarray
    gz_m: np.ndarray  # positive: turns the boat back upright
    trim_deg: np.ndarray
    level_m: np.ndarray  # as in `sizer.hydro.flotation.Afloat`
    rim_m: np.ndarray | None  # lowest point of the rim over water; None without a cockpit
    rim_deg: float | None  # where it first goes under; None where it never does


@dataclass(frozen=True)
class StabilityParticulars:
    """A righting curve in a few numbers; energies are work done from upright in calm water."""

    gm_m: float
    slope_m_per_rad: float
    loll_deg: float  # where the boat comes to rest: 0, or more where GM is negative
    greatest_arm_m: float  # 0 where no arm rights the boat
    greatest_arm_deg: float
    vanishing_deg: float | None  # 0: nothing rights the boat; None: the curve ends before
    rim_deg: float | None
    energy_to_greatest_arm_j: float
    energy_to_vanishing_j: float  # to the curve's end, where the arm does not vanish on it
    energy_open_j: float  # to the rim's angle or to vanishing, whichever comes first


def righting_curve(sections, load, water, heels_deg=HEELS_DEG, near=None):
    """Righting arms of a boat under a load, with trim free.

    Parameters
    ----------
    sections : Sections
    load : Load, centred: tcg 0
    water : Water
    heels_deg : (n,) rising from 0, at most 180
    near : RightingCurve of a like load at the same angles, to start from

    Raises
    ------
    BadInput at "heels_deg"; WillNotFloat, NotSolved as `sizer.hydro.flotation.float_at`.
    """
    heels = np.asarray(heels_deg, float)
    if not (heels.ndim == 1 and heels.size >= LEAST_ANGLES and heels[0] == 0.0
            and heels[-1] <= 180.0 and np.all(np.diff(heels) > 0.0)):
        raise BadInput([Fault("heels_deg", f"{heels_deg!r:.60}",
                              f"at least {LEAST_ANGLES} angles rising from 0 to at most 180")])
    start = None if near is None else _start([near])
    solved, wet = float_and_wet(sections, load, water, np.append(heels, SLOPE_DEG), start)
    return curves_at(sections, load, water, heels, solved, wet)[0]


def righting_curves(boats, loads, water, heels_deg, near=None):
    """As `righting_curve`, of many boats, or of one under n loads; None where there is none.

    Parameters
    ----------
    boats, loads, water : Sections, Load and Water of n
    heels_deg : (n_heels,) rising from 0
    near : RightingCurve or None for each of n, to start from where there are all
    """
    heels = np.append(heels_deg, SLOPE_DEG)
    start = _start(near) if near and None not in near else None
    return curves_of_many(boats, loads, water, heels[:-1], *float_many(
        boats, loads, water.density_kgpm3, start, heels))


def curves_of_many(boats, loads, water, heels, solved, wet, floats, rise_m=0.0):
    """As `curves_at`, from what `float_many` gives; None where a boat does not float."""
    sound = floats.reshape(-1, heels.size + 1).all(axis=1)
    if not sound.any():
        return (None,) * sound.size
    if boats.x_m.ndim == 2:
        boats, rise_m = one_of((boats, np.broadcast_to(rise_m, boats.x_m.shape)), sound)
    curves = iter(curves_at(boats, one_of(loads, sound), one_of(water, sound), heels,
                            *one_of((solved, wet), np.repeat(sound, heels.size + 1)), rise_m))
    return tuple(next(curves) if one else None for one in sound)


def _start(near):
    """Levels and trims of curves and of the small heel, to start from."""
    return tuple(np.concatenate([np.append(values, values[0]) for values in each])
                 for each in zip(*((one.level_m, one.trim_deg) for one in near), strict=True))


def curves_at(boats, loads, water, heels, solved, wet, rise_m=0.0):
    """The RightingCurve of each boat, from Afloat and Immersed at rising heels and at SLOPE_DEG.

    With a wave's `rise_m` the rim is measured over it, and its angle is one of the heels.
    """
    upright = slice(0, None, heels.size + 1)
    gm_m = upright_of(boats, loads, water, *one_of((solved, wet), upright)).gm_m
    level, trim, arm = (one.reshape(-1, heels.size + 1) for one in (
        solved.level_m, solved.trim_deg, solved.righting_arm_m))
    slope, (level, trim, arm) = arm[:, -1], (one[:, :-1] for one in (level, trim, arm))
    rim_m = rim_clearance_m(boats, up_vectors(heels, trim), level, rise_m)
    if rim_m is None:
        rim_m = rim_deg = [None] * len(level)
    elif np.any(rise_m):
        rim_deg = [float(heels[under.argmax()]) if under.any() else None for under in rim_m <= 0.0]
    else:
        rim_deg = rims_deg(boats, heels, level, trim, rim_m)
    each = np.broadcast_to(loads.mass_kg, gm_m.shape), gm_m, slope / np.radians(SLOPE_DEG)
    return tuple(RightingCurve(*own[:3], heels, *own[3:]) for own in zip(
        *(one.tolist() for one in each), arm, trim, level, rim_m, rim_deg, strict=True))


def stability_particulars(curve):
    """The StabilityParticulars of a RightingCurve.

    A cubic spline with the slope found upright, and without bend upside down (the curve is odd
    there), runs through the arms. On 5 degree steps its greatest arm, and its arm where it
    vanishes, are good to 0.1 mm (tested): 0.1 degrees of vanishing, more where a curve is so flat
    that 0.1 mm is more. Where a flat curve peaks is good to a degree. The first
    range of righting arms counts, if it begins before 90 degrees; energy is weight times the area
    under the curve from upright, what is under zero subtracted.
    """
    return particulars_of_curves((curve,))[0]


def particulars_of_curves(curves):
    """The `stability_particulars` of each of some curves over the same heels."""
    if not curves:
        return ()
    heels = curves[0].heel_deg
    slopes = np.array([curve.slope_m_per_rad for curve in curves])
    ends = ((1, slopes), (2, np.zeros(slopes.size)) if heels[-1] == 180.0 else "not-a-knot")
    arms = CubicSpline(np.radians(heels), np.stack([curve.gz_m for curve in curves], axis=-1),
                       bc_type=ends)
    pieces = np.ascontiguousarray(np.moveaxis(arms.c, -1, 0))
    return tuple(
        _particulars(curve, PPoly.construct_fast(piece, arms.x), *each)
        for curve, piece, *each in zip(
            curves, pieces, arms.roots(extrapolate=False),
            arms.derivative().roots(extrapolate=False), strict=True))


def _particulars(curve, arm, roots, turns):
    """Those of one curve through its spline, radians to metres, with where it is 0 and level."""
    end = arm.x[-1]
    loll, vanishing = _righting_range(arm, roots, end)
    if loll is None:
        loll = best = last = 0.0
        vanishing, greatest = 0.0, 0.0
    else:
        last = end if vanishing is None else vanishing
        tops = np.append([turn for turn in turns if loll < turn < last], last)
        arms = arm(tops)
        best, greatest = float(tops[arms.argmax()]), float(arms.max())
    rim = np.inf if curve.rim_deg is None else np.radians(curve.rim_deg)
    weight = curve.mass_kg * STANDARD_GRAVITY_MPS2
    to_best, to_last, to_open = (weight * float(arm.integrate(0.0, angle))
                                 for angle in (best, last, min(rim, last)))
    return StabilityParticulars(
        gm_m=curve.gm_m, slope_m_per_rad=curve.slope_m_per_rad,
        loll_deg=float(np.degrees(loll)),
        greatest_arm_m=greatest, greatest_arm_deg=float(np.degrees(best)),
        vanishing_deg=None if vanishing is None else float(np.degrees(vanishing)),
        rim_deg=curve.rim_deg, energy_to_greatest_arm_j=to_best,
        energy_to_vanishing_j=to_last, energy_open_j=to_open)


def _righting_range(arm, roots, end):
    """Start and end, in radians, of the first positive range; None, None where there is none.

    The end is None where the arm is still positive as the curve stops short of upside down.
    """
    inner = [root for root in roots if END_RAD < root < end - END_RAD]
    edges = [0.0, *inner, end]
    for low, high in pairwise(edges):
        if low >= np.pi / 2.0:
            break
        if arm(0.5 * (low + high)) > 0.0:
            return low, high if high < end or end > np.pi - END_RAD else None
    return None, None
