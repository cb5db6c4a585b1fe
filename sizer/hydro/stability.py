"""Stability: the righting arm from upright to upside down, and what it says in a few numbers.

Sinkage and trim are free at each held heel; mass and its centre stay. The cockpit is closed at the
rim, as with a spray deck on. Open, the boat fills once the rim goes under: its curve ends there.
Calm water, and a paddler who is part of the boat; the body's own buoyancy, once it lies in the
water, is left out, so beyond some 60 degrees the curve tells of the boat more than of the swimmer.
"""

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from scipy.interpolate import CubicSpline

from sizer.errors import BadInput, Fault
from sizer.hydro.flotation import float_and_wet, float_many
from sizer.hydro.immersion import up_vectors
from sizer.hydro.particulars import upright_of
from sizer.hydro.rim import rim_clearance_m
from sizer.rows import one_of
from sizer.units import STANDARD_GRAVITY_MPS2

HEELS_DEG = tuple(float(heel) for heel in range(0, 181, 5))
LEAST_ANGLES = 5  # under which no curve is drawn through the arms; our judgement
SLOPE_DEG = 0.1  # heel that gives the slope upright
END_RAD = 1e-6  # a root nearer to an end of the curve is that end
RIM_STEP_DEG = 0.1  # the rim's angle is looked for on this step


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
    return _curve(sections, load, water, solved, wet)


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
    solved, wet, floats = float_many(boats, loads, water.density_kgpm3, start, heels)
    found = []
    for index, sound in enumerate(floats.reshape(-1, heels.size).all(axis=1).tolist()):
        part = slice(index * heels.size, (index + 1) * heels.size)
        sections = boats if boats.x_m.ndim == 1 else one_of(boats, index)
        load, own = one_of(loads, index), one_of(water, index)
        found.append(_curve(sections, load, own, one_of(solved, part), one_of(wet, part))
                     if sound else None)
    return tuple(found)


def _start(near):
    """Levels and trims of curves and of the small heel, to start from."""
    return tuple(np.concatenate([np.append(values, values[0]) for values in each])
                 for each in zip(*((one.level_m, one.trim_deg) for one in near), strict=True))


def _curve(sections, load, water, solved, wet):
    """The RightingCurve of an Afloat and Immersed at rising heels, and at a small one last."""
    afloat, upright = one_of(solved, slice(0, -1)), slice(0, 1)
    rim_m = rim_clearance_m(sections, up_vectors(afloat.heel_deg, afloat.trim_deg), afloat.level_m)
    return RightingCurve(
        mass_kg=load.mass_kg,
        gm_m=float(upright_of(sections, load, water, one_of(solved, upright),
                              one_of(wet, upright)).gm_m[0]),
        slope_m_per_rad=float(solved.righting_arm_m[-1] / np.radians(SLOPE_DEG)),
        heel_deg=afloat.heel_deg, gz_m=afloat.righting_arm_m,
        trim_deg=afloat.trim_deg, level_m=afloat.level_m,
        rim_m=rim_m, rim_deg=_rim_deg(sections, afloat, rim_m))


def _rim_deg(sections, afloat, rim_m):
    """First heel at which the rim meets the water, from level and trim drawn smoothly on."""
    heels = afloat.heel_deg
    if rim_m is None or not np.any(rim_m <= 0.0):
        return None
    under = int(np.argmax(rim_m <= 0.0))
    if under == 0:
        return 0.0
    low, high = heels[under - 1:under + 1]
    between = np.linspace(low, high, round((high - low) / RIM_STEP_DEG) + 1)
    level, trim = CubicSpline(heels, np.stack([afloat.level_m, afloat.trim_deg], -1))(between).T
    clear = rim_clearance_m(sections, up_vectors(between, trim), level)
    first = max(int(np.argmax(clear <= 0.0)), 1)
    share = clear[first - 1] / (clear[first - 1] - clear[first])
    return float(between[first - 1] + share * (between[first] - between[first - 1]))


def stability_particulars(curve):
    """The StabilityParticulars of a RightingCurve.

    A cubic spline with the slope found upright, and without bend upside down (the curve is odd
    there), runs through the arms. On 5 degree steps its greatest arm, and its arm where it
    vanishes, are good to 0.1 mm (tested): 0.1 degrees of vanishing, more where a curve is so flat
    that 0.1 mm is more. Where a flat curve peaks is good to a degree. The first
    range of righting arms counts, if it begins before 90 degrees; energy is weight times the area
    under the curve from upright, what is under zero subtracted.
    """
    end = np.radians(curve.heel_deg[-1])
    ends = ((1, curve.slope_m_per_rad), (2, 0.0) if curve.heel_deg[-1] == 180.0 else "not-a-knot")
    arm = CubicSpline(np.radians(curve.heel_deg), curve.gz_m, bc_type=ends)
    loll, vanishing = _righting_range(arm, end)
    if loll is None:
        loll = best = last = 0.0
        vanishing, greatest = 0.0, 0.0
    else:
        last = end if vanishing is None else vanishing
        turns = [turn for turn in arm.derivative().roots(extrapolate=False) if loll < turn < last]
        best = max([*turns, last], key=lambda angle: float(arm(angle)))
        greatest = float(arm(best))
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


def _righting_range(arm, end):
    """Start and end, in radians, of the first positive range; None, None where there is none.

    The end is None where the arm is still positive as the curve stops short of upside down.
    """
    inner = [root for root in arm.roots(extrapolate=False) if END_RAD < root < end - END_RAD]
    edges = [0.0, *inner, end]
    for low, high in pairwise(edges):
        if low >= np.pi / 2.0:
            break
        if arm(0.5 * (low + high)) > 0.0:
            return low, high if high < end or end > np.pi - END_RAD else None
    return None, None
