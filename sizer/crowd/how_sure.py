"""How sure the checks of a finished boat are for many paddlers: a few bodies, and between them.

In one boat the slopes of its checks to what strays (`sizer.fit.odds`) go smoothly with the body's
weight; each paddler's own measures then say how far they stray.
"""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from sizer.fit.assess import assess_many
from sizer.fit.checks import LEG_CLEAR_M, PLAIN
from sizer.fit.odds import Sure, sure_of
from sizer.fit.person import person
from sizer.fit.sought import SEARCH_COUNT
from sizer.hull.boat import scaled_boat
from sizer.hull.scale import Scaling
from sizer.hydro.water import Water
from sizer.paddler.body import FIELDS, MEAN, regression
from sizer.paddler.measures import Measured
from sizer.paddler.spread import INPUTS, input_covariance, input_covariances
from sizer.rows import one_of, stacked

WEIGHTS_KG = np.array([45.0, 60.0, 75.0, 90.0, 110.0, 130.0])
AT_ONCE = 15  # boats side by side
# Legs that meet a frame, or do so when moved, keep less by a jump: steeper by this factor than
# the rest, and not read off for those whose legs are clear, who may weigh as much. Our judgement.
JUMPS = 1.25
LEGS = next(place for place, row in enumerate(PLAIN) if row.key == "legs")


@dataclass(frozen=True, eq=False)
class ByWeight:
    """The slopes of one boat's checks by the weight of its paddler."""

    trip: tuple[str, float, Water]  # that they are for: key of the use, gear in kg, water
    weights_kg: np.ndarray  # (k,) of those whom the boat floats
    slopes: np.ndarray  # (k, n_rows, n_inputs)


def spread_in(hull, persons):
    """{key: sd} of the plain checks, as `Assessed.spread`, of one Person, or many for one use, gear
    and water, in a Finished boat."""
    slopes, after, share = _between(hull, persons)
    share = share[..., None]
    each, which = input_covariances(persons.body)
    own, both = (np.einsum("kri,pij,krj->pkr", *pair) for pair in (
        (slopes, each, slopes), (slopes[:-1], each, slopes[1:])))
    variance = ((1.0 - share) ** 2 * own[which, after - 1] + share**2 * own[which, after]
                + 2.0 * share * (1.0 - share) * both[which, after - 1])
    sd = np.sqrt(np.maximum(variance, 0.0))
    return {row.key: sd[..., index][()] for index, row in enumerate(PLAIN)}


def sure_in(hull, persons):
    """The Sure that `spread_in` tells the spread of."""
    slopes, after, share = _between(hull, persons)
    share = share[..., None, None]
    between = slopes[after - 1] * (1.0 - share) + slopes[after] * share
    covariance = input_covariance(persons.body)
    many = np.broadcast_shapes(between.shape[:-2], covariance.shape[:-2])
    return Sure(*(np.broadcast_to(one, (*many, *one.shape[-2:])) for one in (between, covariance)))


def _between(hull, persons):
    """Slopes by weight, the place after each paddler's weight among them, and how near to it."""
    known, trip = hull.by_weight, _trip_of(persons)
    if known is None or known.trip != trip:
        known = _one_by_weight(hull, trip)
    weights = known.weights_kg
    at = np.clip(persons.body.weight_kg, weights[0], weights[-1])
    after = np.clip(np.searchsorted(weights, at), 1, len(weights) - 1)
    share = (at - weights[after - 1]) / (weights[after] - weights[after - 1])
    return known.slopes, after, np.asarray(share)


def _trip_of(persons):
    return persons.use.key, float(np.max(persons.gear_kg)), persons.water


@lru_cache(maxsize=256)
def _one_by_weight(hull, trip):
    return _by_weight((hull,), trip)[0]


def each_by_weight(hulls, persons):
    """The ByWeight of each of some Finished of one base, a list; `persons` as `spread_in`."""
    return [one for first in range(0, len(hulls), AT_ONCE)
            for one in _by_weight(hulls[first:first + AT_ONCE], _trip_of(persons))]


def _by_weight(hulls, trip):
    usual = stacked([person(_usual(weight), *trip) for weight in WEIGHTS_KG])
    count = len(WEIGHTS_KG)
    level = {name: np.repeat([getattr(hull.scaling, name) for hull in hulls], count)
             for name, value in vars(hulls[0].scaling).items() if value is not None}
    many = assess_many(scaled_boat(hulls[0].lines, Scaling(**level), SEARCH_COUNT),
                       one_of(usual, np.tile(np.arange(count), len(hulls))))
    slopes = sure_of(many).slopes.reshape(len(hulls), count, len(PLAIN), len(INPUTS))
    clear = many.space.leg_clear_m >= LEG_CLEAR_M
    covariance = input_covariance(usual.body)
    return [_kept(trip, *each, covariance) for each in zip(
        slopes, many.floats.reshape(-1, count), clear.reshape(-1, count), strict=True)]


def _kept(trip, slopes, floats, clear, covariance):
    """The ByWeight of one boat, its legs' slopes read where the legs are clear."""
    if floats.sum() < 2:
        return ByWeight(trip, WEIGHTS_KG[:2], np.zeros((2, *slopes.shape[1:])))
    clear = floats & clear
    if clear.any():
        sd = Sure(slopes, covariance).sd[:, LEGS]
        clear &= sd <= JUMPS * sd[clear].min()
        slopes[:, LEGS] = np.stack([np.interp(WEIGHTS_KG, WEIGHTS_KG[clear], one)
                                    for one in slopes[clear, LEGS].T], axis=-1)
    return ByWeight(trip, WEIGHTS_KG[floats], slopes[floats])


def _usual(weight_kg):
    """The Measured of a weight, stature and hips as the survey expects them."""
    stature, hips = (
        float(MEAN[column] + regression((0,)).of(column)[0] @ [weight_kg - MEAN[0]])
        for column in map(FIELDS.index, ("stature", "hip_sitting")))
    return Measured(weight_kg, stature, hips)
