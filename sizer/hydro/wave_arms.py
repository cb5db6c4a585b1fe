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
from sizer.hydro.flotation import float_and_wet, float_many
from sizer.hydro.stability import SLOPE_DEG, RightingCurve, curves_at, curves_of_many
from sizer.rows import along
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
    x = sections.x_m
    turn = 2.0 * np.pi * (x - along(sections.mid_x_m, x)) / along(sections.length_m, x)
    return along(0.5 * height_m, x) * np.cos(turn)


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
    start, angles = None if near is None else _start(heels, [near]), np.append(heels, SLOPE_DEG)
    curves = (curves_at(sections, load, water, heels, *float_and_wet(
        sections, load, water, angles, start, sign * rise), sign * rise)[0]
        for sign in (1.0, -1.0))
    return WaveArms(height_m, sections.length_m, *curves)


def wave_arms_of_many(boats, loads, water, height_m, near):
    """As `wave_arms`, of many boats, or of one under n loads; None where there are none.

    Parameters
    ----------
    boats, loads, water : Sections, Load and Water of n
    height_m : from trough to crest, one or (n,)
    near : RightingCurve of each in calm water
    """
    rise, heels = wave_rise_m(boats, height_m), np.array(WAVE_HEELS_DEG)
    start, angles = _start(heels, near), np.append(heels, SLOPE_DEG)
    both = (curves_of_many(boats, loads, water, heels, *float_many(
        boats, loads, water.density_kgpm3, start, angles, sign * rise), sign * rise)
        for sign in (1.0, -1.0))
    each = (np.broadcast_to(one, len(near)).tolist() for one in (height_m, boats.length_m))
    return tuple(None if None in own else WaveArms(*own) for own in zip(*each, *both, strict=True))


def _start(heels, near):
    """Levels and trims of calm water at the heels and at the small one, curve after curve."""
    return tuple(np.concatenate([
        np.append(np.interp(heels, one.heel_deg, getattr(one, name)), getattr(one, name)[0])
        for one in near]) for name in ("level_m", "trim_deg"))
