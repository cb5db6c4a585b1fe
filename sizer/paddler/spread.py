"""How sure each input is: its spread, one standard deviation, and whose judgement that is.

Declared once, for all that says odds. Predicted measures have theirs from the survey, and hang
together: `body_spread` gives their covariance for what was measured. Everything else is taken to
stray by itself, as a normal error would.
"""

from dataclasses import dataclass
from functools import cache

import numpy as np

from sizer.paddler.body import (
    COVARIANCE,
    FIELDS,
    NINE_IN_TEN_SD,
    STANDING_HIP_M,
    regression,
)
from sizer.paddler.seated import HEIGHT_PER, NOMINAL_OF_MODEL

JUDGEMENT = "our judgement"


@dataclass(frozen=True)
class Spread:
    """One input's standard deviation."""

    key: str
    what: str
    sd: float
    unit: str  # "m", "kg", or "of 1": a share of the value itself
    source: str


SPREADS = {one.key: one for one in (
    Spread("centre-height", "height of the seated centre over the seat", 0.016, "m", JUDGEMENT),
    Spread("centre-ahead", "seated centre fore and aft", 0.020, "m", JUDGEMENT),
    Spread("clothing", "clothing, PFD, paddle and spray deck", 1.0, "kg", JUDGEMENT),
    Spread("weight-day", "body weight from one day to another", 1.0, "kg", JUDGEMENT),
    Spread("boat-weight", "the boat's own weight", 0.05, "of 1", JUDGEMENT),
    Spread("build-beam", "beam as built", 0.005, "m", JUDGEMENT),
    Spread("build-depth", "depth as built", 0.005, "m", JUDGEMENT),
    Spread("gear-mass", "mass of the gear", 0.10, "of 1", JUDGEMENT),
    Spread("gear-ahead", "place of the gear along the boat", 0.10, "m", JUDGEMENT),
    Spread("gear-height", "height of the gear", 0.03, "m", JUDGEMENT),
    Spread("water-density", "density of the water, brackish or warm", 0.003, "of 1", JUDGEMENT),
    Spread("standing-hips", "sitting hips from standing ones", STANDING_HIP_M / NINE_IN_TEN_SD, "m",
           "tried on 200 of the survey's people"),
)}


@dataclass(frozen=True, eq=False)
class BodySpread:
    """How far a body's measures may be off, together; all in SI, columns as `body.FIELDS`."""

    columns: tuple[str, ...]  # of those that were not measured
    covariance: np.ndarray  # (k, k)

    @property
    def sd(self):
        """{measure: one standard deviation}."""
        return dict(zip(self.columns, np.sqrt(np.diag(self.covariance)).tolist(), strict=True))

    def of(self, weights):
        """One standard deviation of a sum, {measure: factor}; measured ones are sure."""
        row = np.array([weights.get(name, 0.0) for name in self.columns])
        return float(np.sqrt(row @ self.covariance @ row))


# What strays, in the order of all arrays over inputs: what is taken by itself, then the measures.
OWN = tuple(key for key in SPREADS if key != "standing-hips")
MEASURES = ("hip_sitting", "sitting_height", "buttock_knee", "knee_height", "foot_length",
            "thigh_clearance")  # those that a boat is fitted by
INPUTS = (*OWN, *MEASURES)


def body_spread(body):
    """The BodySpread of a Body, conditional on what was measured of it.

    covariance = C_uu - C_uk inv(C_kk) C_ku. Hips taken standing stay unknown by "standing-hips",
    hips not measured by what their prediction leaves; what is predicted from them strays with them
    by the factor, `gain`, that predicts it.

    Source: ANSUR II (Gordon et al., NATICK/TR-15/007, 2014), pooled, as `sizer.paddler.body`.
    """
    return _spread_knowing(tuple(
        name == "weight_kg" or getattr(body, name).measured for name in FIELDS),
        body.hip_sitting.plus_minus_m)


@cache
def _spread_knowing(measured, hips_m):
    """The BodySpread by whether each of FIELDS was measured, and how far hips not so may be off."""
    place = FIELDS.index("hip_sitting")
    columns = [column for column, known in enumerate(measured) if known or column == place]
    fit = regression(tuple(columns))
    unknown = fit.unknown.tolist()
    spread = (COVARIANCE[np.ix_(unknown, unknown)]
              - fit.gain @ COVARIANCE[np.ix_(columns, unknown)])
    if measured[place]:
        return BodySpread(tuple(FIELDS[one] for one in unknown), spread)
    variance = (hips_m / NINE_IN_TEN_SD) ** 2
    gain = np.append(fit.gain[:, columns.index(place)], 1.0)
    whole = np.zeros((len(unknown) + 1, len(unknown) + 1))
    whole[:-1, :-1] = spread
    return BodySpread((*(FIELDS[one] for one in unknown), "hip_sitting"),
                      whole + variance * np.outer(gain, gain))


def input_covariance(body, own=()):
    """The covariance of INPUTS for a Body, (n_inputs, n_inputs), or (n, ...) for many of them.

    `own` are (key, sd) of SPREADS that are known otherwise, as by a shop's own launches.
    """
    each, which = input_covariances(body)
    found = np.array(each[which])
    for key, sd in own:
        found[..., INPUTS.index(key), INPUTS.index(key)] = np.square(sd)
    return found


def input_covariances(body):
    """The covariances of INPUTS (k, n_inputs, n_inputs) that differ, and which of them each of many
    Body has, (n,); of one, ()."""
    known = np.stack(np.broadcast_arrays(body.hip_sitting.plus_minus_m, *(
        np.asarray(getattr(body, name).plus_minus_m) == 0.0 for name in FIELDS[1:])), axis=-1)
    rows = known.reshape(-1, known.shape[-1])
    patterns, which = (rows[:1], np.zeros(len(rows), int)) if (rows == rows[0]).all() else (
        np.unique(rows, axis=0, return_inverse=True))  # which takes a while
    return np.stack([_covariance_knowing((True, *map(bool, pattern)), hips)
                     for hips, *pattern in patterns.tolist()]), which.reshape(known.shape[:-1])


def covariance_with(body, measure):
    """As `input_covariance` of one Body, had this measure been taken as well."""
    return _covariance_knowing(tuple(
        name in ("weight_kg", measure) or getattr(body, name).measured for name in FIELDS),
        body.hip_sitting.plus_minus_m)


@cache
def _covariance_knowing(measured, hips_m):
    found = _spread_knowing(measured, hips_m)
    whole = np.zeros((len(INPUTS), len(INPUTS)))
    whole[range(len(OWN)), range(len(OWN))] = [SPREADS[key].sd ** 2 for key in OWN]
    here = [place for place, name in enumerate(found.columns) if name in MEASURES]
    places = [INPUTS.index(found.columns[place]) for place in here]
    whole[np.ix_(places, places)] = found.covariance[np.ix_(here, here)]
    return whole


def centre_height_sd_m(body):
    """One standard deviation of the seated centre's height: the model's own, and what a predicted
    sitting height adds."""
    return float(np.hypot(SPREADS["centre-height"].sd, body_spread(body).of(
        {name: NOMINAL_OF_MODEL * per for name, per in HEIGHT_PER.items()})))
