"""Drag of an upright boat: friction by the ITTC-57 line, waves by thin-ship theory. An estimate.

Deep, calm water and no wind; the boat keeps the draft and trim it has at rest. Skeg, rudder, paddle
and a rough skin add to it. Measured wave drag lies below thin-ship theory at the hump near a Froude
number of 0.30, with weaker humps and hollows (from memory), so read it to a tenth at best.
"""

from dataclasses import dataclass

import numpy as np
from scipy.optimize import brentq

from sizer.errors import BadInput, Fault
from sizer.hull.boat import scaled_boat
from sizer.hydro.water import Water
from sizer.hydro.waves import UnderWater, under_water, wave_drag_N

# Even sections for drag: short waves see the flats between sections. With 501 the wave drag is
# within 0.5 % of that of many more from 1 m/s up, and the total within 0.05 % at any speed
# (tested); the 121 that float a boat give 4 % and 0.5 %.
DRAG_SECTIONS = 501
SLOWEST_MPS, FASTEST_MPS = 0.3, 4.0  # what a paddler does; our judgement
# Friction of the hull over that of a plate of its area and length. Our judgement: slender hulls are
# usually given 1.05 to 1.10 (common practice, no source).
FORM_FACTOR = 1.08
# Power that moves the boat over power at the paddle; about this, from memory.
PROPULSIVE_EFFICIENCY = 0.75
# At the paddle: sustained touring effort is 50 to 100 W (from memory).
EFFORTS_W = (50.0, 75.0, 100.0)
SCAN_STEPS = 16  # speeds between which a root is looked for; our judgement, humps are wider
SPEED_TOLERANCE_MPS = 1e-3

NOTE = ("Estimate for deep, calm water without wind: friction by the ITTC-57 line with form factor "
        f"{FORM_FACTOR:g}, waves by Michell's thin-ship theory, which tends to overstate them near "
        "the hump. Measured drag can differ by a tenth or more.")


@dataclass(frozen=True, eq=False)
class DragCurve:
    """Drag against speed; arrays are (n,)."""

    speed_mps: np.ndarray
    total_N: np.ndarray
    friction_N: np.ndarray
    wave_N: np.ndarray

    @property
    def effort_w(self):
        """Power at the paddle."""
        return self.total_N * self.speed_mps / PROPULSIVE_EFFICIENCY


@dataclass(frozen=True, eq=False)
class Wetted:
    """What drag needs of a hull at rest in its water: worked out once, then any speed."""

    under: UnderWater
    length_m: float  # of the waterline
    area_m2: float
    water: Water


@dataclass(frozen=True)
class Pace:
    """Speeds that sum up a drag curve; None where it is not between 0.3 and 4 m/s."""

    effort_w: tuple[float, ...]  # at the paddle
    speed_mps: tuple[float | None, ...]  # at each effort
    waves_equal_friction_mps: float | None  # the lowest such speed: beyond, effort climbs steeply


def drag_sections(boat):
    """Sections of a boat, close enough together for its drag."""
    return scaled_boat(boat.lines, boat.scaling, DRAG_SECTIONS).sections


def wetted(sections, particulars, water):
    """The hull under water, from its sections and the particulars of how it floats upright.

    The sections may be closer together than those it was floated with, see `drag_sections`.
    """
    under = under_water(sections, particulars.sinkage_m, particulars.trim_deg)
    return Wetted(under, particulars.waterline_length_m, particulars.wetted_area_m2, water)


def drag_curve(hull, speeds_mps):
    """Total, friction and wave drag at each speed.

    Parameters
    ----------
    hull : Wetted
    speeds_mps : (n,) each 0.3 to 4.0, in any order

    Returns
    -------
    DragCurve

    Raises
    ------
    BadInput at "speeds_mps", where there is none or one lies outside that range.
    """
    speeds = np.atleast_1d(np.asarray(speeds_mps, float))
    if not (speeds.ndim == 1 and speeds.size and np.all(
            (speeds >= SLOWEST_MPS) & (speeds <= FASTEST_MPS))):
        odd = speeds[~((speeds >= SLOWEST_MPS) & (speeds <= FASTEST_MPS))]
        shown = f"{odd[0]:g} m/s" if odd.size else "none, or not in one row"
        raise BadInput([Fault("speeds_mps", shown,
                              f"speeds from {SLOWEST_MPS:g} to {FASTEST_MPS:g} m/s")])
    friction = friction_N(hull, speeds)
    wave = wave_drag_N(hull.under, hull.water, speeds)
    return DragCurve(speeds, friction + wave, friction, wave)


def friction_coefficient(reynolds):
    """Friction coefficient of the ITTC-57 line, C_F = 0.075 / (log10 Re - 2)^2.

    `reynolds` is 1e5 to 1e10, the range of printed tables; else BadInput. Source: International
    Towing Tank Conference 1957; table in Tupper, Introduction to Naval Architecture, Table 8.3.
    """
    reynolds = np.asarray(reynolds, float)
    if not np.all((reynolds >= 1e5) & (reynolds <= 1e10)):
        raise BadInput([Fault("reynolds", f"{np.min(reynolds):g} to {np.max(reynolds):g}",
                              "speed times waterline length over viscosity from 1e5 to 1e10")])
    return 0.075 / (np.log10(reynolds) - 2.0) ** 2


def friction_N(hull, speeds_mps):
    """Friction with form, (1 + k) C_F rho/2 U^2 S, at each speed."""
    speeds = np.asarray(speeds_mps, float)
    coefficient = friction_coefficient(speeds * hull.length_m / hull.water.viscosity_m2ps)
    return FORM_FACTOR * coefficient * 0.5 * hull.water.density_kgpm3 * speeds**2 * hull.area_m2


def pace(hull, efforts_w=EFFORTS_W):
    """Speed at each steady effort at the paddle, and where the wave part first equals friction.

    Raises
    ------
    BadInput at "efforts_w", where an effort is not above 0 and finite.
    """
    if not all(0.0 < effort < np.inf for effort in efforts_w):
        raise BadInput([Fault("efforts_w", str(tuple(efforts_w)), "efforts above 0 W")])
    # even in speed squared: slow waves are costly to work out, and too small to hide a root
    scan = drag_curve(hull, np.sqrt(np.linspace(SLOWEST_MPS**2, FASTEST_MPS**2, SCAN_STEPS + 1)))
    speeds = tuple(_first_root(hull, scan, lambda curve, effort=effort: curve.effort_w - effort)
                   for effort in efforts_w)
    return Pace(tuple(efforts_w), speeds,
                _first_root(hull, scan, lambda curve: curve.wave_N - curve.friction_N))


def _first_root(hull, scan, excess):
    """Lowest speed at which `excess` of a curve rises through zero, or None."""
    above = excess(scan) >= 0.0
    rises = np.flatnonzero(~above[:-1] & above[1:])
    if not rises.size:
        return None
    low, high = scan.speed_mps[rises[0] : rises[0] + 2]
    return float(brentq(lambda speed: float(excess(drag_curve(hull, speed))[0]), low, high,
                        xtol=SPEED_TOLERANCE_MPS))
