"""Righting arms with the boat on a wave of its own length: on the crest, and in the trough.

Static balance: the boat rides the wave, so the wave stands still under it, a sine along the boat
with its crest or its trough at half the hull's length. Sinkage and trim are free at each held heel,
and the water presses as if at rest under the wave's surface. On a crest the ends come out of the
water, in a trough the middle does: a light or stiff boat, or one with low ends, keeps less of its
steadiness there than in calm water. Left out: the water's own motion, which lightens what lies in
a crest, waves from other sides, breaking, wind. The cockpit is closed, as with a spray deck on.
"""

from dataclasses import dataclass

import numpy as np

from sizer.errors import BadInput, Fault
from sizer.hydro.flotation import float_and_wet
from sizer.hydro.immersion import up_vectors
from sizer.hydro.rim import rim_points_m
from sizer.hydro.stability import SLOPE_DEG, RightingCurve
from sizer.units import MM_PER_M

# Of its length, the highest that a wave can be before it breaks (J. H. Michell, Philosophical
# Magazine 36, 1893: 0.142).
STEEPEST = 0.142
WAVE_HEELS_DEG = tuple(float(heel) for heel in range(0, 91, 10))


@dataclass(frozen=True, eq=False)
class WaveArms:
    """Righting curves on one wave; their rim is measured over the wave."""

    height_m: float  # from trough to crest
    length_m: float
    crest: RightingCurve
    trough: RightingCurve

    @property
    def curves(self):
        """(where, curve) of both."""
        return ("crest", self.crest), ("trough", self.trough)


def wave_rise_m(sections, height_m):
    """What a wave of the hull's length stands over its middle level at each section, its crest
    at half the hull's length: h/2 cos(2 pi (x - x_mid) / L). A trough is the negative of it."""
    turn = 2.0 * np.pi * (sections.x_m - sections.mid_x_m) / sections.length_m
    return 0.5 * height_m * np.cos(turn)


def wave_arms(sections, load, water, height_m, heels_deg=WAVE_HEELS_DEG, near=None):
    """The WaveArms of a boat under a load.

    Parameters
    ----------
    sections : Sections of one boat
    load : Load, centred: tcg 0
    water : Water
    height_m : from trough to crest, 0 to STEEPEST of the hull's length
    heels_deg : (n,) rising from 0
    near : RightingCurve of the same load in calm water, to start from

    Raises
    ------
    BadInput at "wave_height_mm"; WillNotFloat, NotSolved as `sizer.hydro.flotation.float_at`.
    """
    most = STEEPEST * sections.length_m
    if not 0.0 <= height_m <= most:
        raise BadInput([Fault("wave_height_mm", f"{height_m * MM_PER_M:g} mm",
                              f"0 to {most * MM_PER_M:.0f} mm: a higher wave of this length "
                              "breaks")])
    rise = wave_rise_m(sections, height_m)
    heels = np.asarray(heels_deg, float)
    start = None if near is None else tuple(
        np.append(np.interp(heels, near.heel_deg, values), values[0])
        for values in (near.level_m, near.trim_deg))
    return WaveArms(height_m, sections.length_m, *(
        _curve(sections, load, water, heels, start, sign * rise) for sign in (1.0, -1.0)))


def _curve(sections, load, water, heels, start, rise):
    solved, wet = float_and_wet(sections, load, water, np.append(heels, SLOPE_DEG), start, rise)
    up = up_vectors(solved.heel_deg, solved.trim_deg)
    over = float((solved.centre_m[0] - (load.lcg_m, 0.0, load.vcg_m)) @ up[0])
    rim_m = _rim_over_wave_m(sections, up[:-1], solved.level_m[:-1], rise)
    under = None if rim_m is None else np.flatnonzero(rim_m <= 0.0)
    return RightingCurve(
        mass_kg=load.mass_kg, gm_m=over + float(wet.plane_a2_m4[0] / wet.volume_m3[0]),
        slope_m_per_rad=float(solved.righting_arm_m[-1] / np.radians(SLOPE_DEG)),
        heel_deg=heels, gz_m=solved.righting_arm_m[:-1], trim_deg=solved.trim_deg[:-1],
        level_m=solved.level_m[:-1], rim_m=rim_m,
        rim_deg=float(heels[under[0]]) if under is not None and under.size else None)


def _rim_over_wave_m(sections, up, level_m, rise):
    """Lowest point of the rim over the wave at each heel; None without a cockpit."""
    points = rim_points_m(sections)
    if not points.size:
        return None
    wave = np.interp(points[:, 0], sections.x_m, rise)
    return (points @ up.T - wave[:, None]).min(axis=0) - level_m
