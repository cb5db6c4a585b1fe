"""How sure the checks of a finished boat are for many paddlers: a few bodies, and between them.

In one boat the slopes of its checks to what strays (`sizer.fit.odds`) go smoothly with the body's
weight; each paddler's own measures then say how far they stray.
"""

from functools import lru_cache

import numpy as np

from sizer.fit.assess import assess_many
from sizer.fit.checks import LEG_CLEAR_M, PLAIN
from sizer.fit.odds import Sure, sure_of
from sizer.fit.person import person
from sizer.fit.sought import SEARCH_COUNT
from sizer.hull.boat import scaled_boat
from sizer.hull.scale import Scaling
from sizer.paddler.body import FIELDS, MEAN, regression
from sizer.paddler.measures import Measured
from sizer.paddler.spread import INPUTS, input_covariance
from sizer.rows import stacked

WEIGHTS_KG = np.array([45.0, 60.0, 75.0, 90.0, 110.0, 130.0])
# Legs that meet a frame, or do so when moved, keep less by a jump: steeper by this factor than
# the rest, and not read off for those whose legs are clear, who may weigh as much. Our judgement.
JUMPS = 1.25
LEGS = next(place for place, row in enumerate(PLAIN) if row.key == "legs")


def sure_in(hull, persons):
    """The Sure of the plain checks, of one Person or many in a boat.

    Parameters
    ----------
    hull : Finished
    persons : Person, of one or of many for one use, gear and water
    """
    gear_kg = float(np.max(persons.gear_kg))
    weights, slopes = _slopes_by_weight(hull, persons.use.key, gear_kg, persons.water)
    at = np.clip(persons.body.weight_kg, weights[0], weights[-1])
    after = np.clip(np.searchsorted(weights, at), 1, len(weights) - 1)
    share = (at - weights[after - 1]) / (weights[after] - weights[after - 1])
    share = np.asarray(share)[..., None, None]
    between = slopes[after - 1] * (1.0 - share) + slopes[after] * share
    covariance = input_covariance(persons.body)
    many = np.broadcast_shapes(between.shape[:-2], covariance.shape[:-2])
    return Sure(*(np.broadcast_to(one, (*many, *one.shape[-2:])) for one in (between, covariance)))


@lru_cache(maxsize=256)
def _slopes_by_weight(hull, use_key, gear_kg, water):
    """Body weights (k,), of those whom the boat floats, and slopes (k, n_rows, n_inputs)."""
    persons = stacked([person(_usual(weight), use_key, gear_kg, water) for weight in WEIGHTS_KG])
    level = {name: np.full(len(WEIGHTS_KG), value)
             for name, value in vars(hull.scaling).items() if value is not None}
    many = assess_many(scaled_boat(hull.lines, Scaling(**level), SEARCH_COUNT), persons)
    slopes, floats = sure_of(many).slopes, many.floats
    if floats.sum() < 2:
        return WEIGHTS_KG[:2], np.zeros((2, len(PLAIN), len(INPUTS)))
    clear = floats & (many.space.leg_clear_m >= LEG_CLEAR_M)
    if clear.any():
        sd = Sure(slopes, input_covariance(persons.body)).sd[:, LEGS]
        clear &= sd <= JUMPS * sd[clear].min()
        slopes[:, LEGS] = np.stack([np.interp(WEIGHTS_KG, WEIGHTS_KG[clear], one)
                                    for one in slopes[clear, LEGS].T], axis=-1)
    return WEIGHTS_KG[floats], slopes[floats]


def _usual(weight_kg):
    """The Measured of a weight, stature and hips as the survey expects them."""
    stature, hips = (
        float(MEAN[column] + regression((0,)).of(column)[0] @ [weight_kg - MEAN[0]])
        for column in map(FIELDS.index, ("stature", "hip_sitting")))
    return Measured(weight_kg, stature, hips)
