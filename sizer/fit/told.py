"""What is told of a boat that was found, and not sought: swamped beside its paddler, on a wave.

The search does not steer by these; every verdict on a boat does read them.
"""

from dataclasses import replace

import numpy as np

from sizer.errors import BadInput, NotSolved, WillNotFloat
from sizer.hydro.flooded import Aboard, filled_by_bags, flooded, gm_with_bags_m
from sizer.hydro.on_wave import on_wave, on_wave_of_many
from sizer.hydro.swamped import filling_ends
from sizer.rows import one_of, side_by_side

CANNOT = (WillNotFloat, NotSolved, BadInput)  # BadInput: a centre outside the hull
UNTOLD = (np.nan, np.nan)


def known(work, *given, **more):
    """What the work gives, or None where it cannot be worked out."""
    try:
        return work(*given, **more)
    except CANNOT:
        return None


def wave_of(assessed, moment_kgm, rigid):
    """The OnWave of an assessed boat on the wave of its use; None where it is not known.

    `moment_kgm` is that of the upper body, `rigid` the RightingCurve in calm water.
    """
    return known(on_wave, assessed.boat.sections, assessed.loading.load, assessed.person.water,
                 assessed.person.use.wave_height_m, moment_kgm, rigid)


def told_by(assessed, out, wave):
    """(swamped_out_gm_m, wave_arm_area_mrad) of a Flooded boat with nobody in it and an OnWave.

    One that sinks counts as its depth below nothing. NaN where it is not known, or where the use
    asks for no wave.
    """
    asked = assessed.person.use.checked_on_wave and wave is not None
    return _out_gm_m(assessed, out), wave.arm_area_mrad if asked else np.nan


def _out(assessed):
    """The Flooded boat, bags in both ends, nobody in it; None where it is not known."""
    boat, gear = assessed.boat, assessed.loading.gear
    return known(flooded, boat, assessed.weight, Aboard(gear), *filling_ends(boat, gear),
                 assessed.person.water)


def _out_gm_m(assessed, out):
    if out is None:
        return np.nan
    return -assessed.boat.depth_m if out.gm_m is None else out.gm_m


def told_of(assessed, moment_kgm, rigid):
    """As `told_by`, worked out; the wave only where the use asks for it."""
    asked = assessed.person.use.checked_on_wave
    wave = wave_of(assessed, moment_kgm, rigid) if asked else None
    return told_by(assessed, _out(assessed), wave)


def with_told(mishap, assessed, moment_kgm, rigid):
    """The Mishap of an assessed boat with what is told of it; as `told_of`."""
    gm_m, area_mrad = told_of(assessed, moment_kgm, rigid)
    return replace(mishap, swamped_out_gm_m=gm_m, wave_arm_area_mrad=area_mrad)


def told_of_many(many, moment_kgm, rigid, bags):
    """As `told_of` of many assessed boats, two arrays (n,); NaN where there is no curve. `bags` are
    the Chambers that fill their ends."""
    count, use = len(rigid), many.person.use
    curved = np.array([curve is not None for curve in rigid])
    out = np.broadcast_to(gm_with_bags_m(many.boat, many.weight, Aboard(many.loading.gear),
                                         many.person.water, bags), count).copy()
    for index in np.flatnonzero(curved & np.isnan(out)):
        one = many.one(index)
        out[index] = _out_gm_m(one, _out(one))
    area = np.full(count, np.nan)
    if use.checked_on_wave and curved.any():
        boats = many.boat.sections
        waves = on_wave_of_many(
            boats if boats.x_m.ndim == 1 else one_of(boats, curved),
            *one_of((many.loading.load, many.person.water), curved), use.wave_height_m,
            moment_kgm[curved], [curve for curve in rigid if curve is not None])
        area[curved] = [np.nan if wave is None else wave.arm_area_mrad for wave in waves]
    return np.where(curved, out, np.nan), area


def told_of_each(found, person, moment_kgm, rigid):
    """As `told_of_many`, of a list of Assessed of one boat each, and the Person of all."""
    boats, weights, loads = (side_by_side([getattr(one, name) for one in found])
                             for name in ("boat", "weight", "loading"))
    many = replace(found[0], person=person, boat=boats, weight=weights, loading=loads)
    return told_of_many(many, np.broadcast_to(moment_kgm, len(found)), rigid,
                        filled_by_bags(boats, loads.gear))
