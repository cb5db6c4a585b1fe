"""How high sheer stands over water at the launch, with the ± that a reading of it may be off.
"""

from dataclasses import replace

import numpy as np

from sizer.built.departures import NAMES, NINE_IN_TEN, NOTHING_READ, linear, spread_of, weigher_of
from sizer.built.learnt import FREEBOARD_M
from sizer.built.trial import HEIGHTS
from sizer.fit.loading import together
from sizer.hydro.particulars import float_upright


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
