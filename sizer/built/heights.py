"""How high sheer stands over water at the launch, and rim and sheer swamped, with the ± that a
reading of each may be off.
"""

from dataclasses import replace

import numpy as np

from sizer.built.departures import NAMES, NINE_IN_TEN, NOTHING_READ, linear, spread_of, weigher_of
from sizer.built.learnt import FREEBOARD_M
from sizer.built.trial import HEIGHTS
from sizer.fit.loading import together
from sizer.fit.mishaps import aboard_of
from sizer.hydro.ends import L_PER_M3, End
from sizer.hydro.flooded import flooded
from sizer.hydro.particulars import float_upright

# One standard deviation: of what bags hold, blown up by mouth; of how much higher the water stands
# inside than outside, once it was bailed until both seem level. Our judgement.
BAGS_SHARE, LEVEL_M = 0.05, 0.005
SWAMPED_HEIGHTS = ("rim_clearance_m", "freeboard_m")  # of Flooded: rim and sheer, each its lowest


def heights_expected(assessed):
    """{one of HEIGHTS: (m, ±)} before anything is read; the ± holds nine in ten of such boats as
    they are read."""
    weigh = weigher_of(assessed, NOTHING_READ)

    def heights(p):
        whole = replace(together(*weigh(p)), tcg_m=0.0)
        floats = float_upright(assessed.boat.sections, whole, assessed.person.water)
        return [getattr(floats, at) for at in HEIGHTS.values()]

    values, slopes = linear(heights, np.zeros(len(NAMES)))
    spread = np.hypot.reduce(slopes * spread_of(assessed, NOTHING_READ), axis=1)
    band = NINE_IN_TEN * np.hypot(spread, FREEBOARD_M)
    return {key: (float(value), float(wide))
            for key, value, wide in zip(HEIGHTS, values, band, strict=True)}


def swamped_expected(assessed, swamped):
    """{one of SWAMPED_HEIGHTS: (m, ±)} of the Swamped boat with nobody in it; {} where it sinks.

    The ± is of the boat's weight, of what both bags hold, of water that stands higher inside than
    outside and of the reading. Raises as `flooded`.
    """
    if swamped.out.rim_clearance_m is None:
        return {}
    weight_sd = spread_of(assessed, NOTHING_READ)[NAMES.index("boat_kg")]

    def boat(more_kg, bags):
        weight = replace(assessed.weight, mass_kg=assessed.weight.mass_kg + more_kg)
        return flooded(assessed.boat, weight, aboard_of(assessed, False),
                       End(bags * swamped.bow_l), End(bags * swamped.stern_l),
                       assessed.person.water)

    here, heavier = boat(0.0, 1.0), boat(weight_sd, 1.0)
    # water inside above the level outside weighs on the boat as any load does
    deeper_l = heavier.water_inside_l - here.water_inside_l
    inside_kgpm = (assessed.person.water.density_kgpm3 * deeper_l / L_PER_M3
                   / (heavier.sinkage_m - here.sinkage_m))
    level_sd = LEVEL_M * inside_kgpm
    lies, *others = (np.array([getattr(found, key) for key in SWAMPED_HEIGHTS], float)
                     for found in (here, heavier, boat(0.0, 1.0 - BAGS_SHARE),
                                   boat(level_sd, 1.0)))
    off = [other - lies for other in others]
    band = NINE_IN_TEN * np.hypot.reduce([*off, np.full(2, FREEBOARD_M)], axis=0)
    return {key: (float(value), float(wide))
            for key, value, wide in zip(SWAMPED_HEIGHTS, lies, band, strict=True)}
