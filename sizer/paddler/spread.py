"""How sure each input is: its spread, one standard deviation, and whose judgement that is.

Declared once, for all that says odds. Predicted measures have theirs from the survey, and hang
together: `body_spread` gives their covariance for what was measured. Everything else is taken to
stray by itself, as a normal error would.
"""

from dataclasses import dataclass

import numpy as np

from sizer.paddler.body import (
    COVARIANCE,
    FIELDS,
    NINE_IN_TEN_SD,
    STANDING_HIP_M,
    known_columns,
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


def body_spread(measured):
    """The BodySpread of a Measured paddler, conditional on what was measured.

    covariance = C_uu - C_uk inv(C_kk) C_ku. Hips taken standing stay unknown by "standing-hips",
    hips not measured by what their prediction leaves; what is predicted from them strays with them
    by the factor, `gain`, that predicts it.

    Source: ANSUR II (Gordon et al., NATICK/TR-15/007, 2014), pooled, as `sizer.paddler.body`.
    """
    hip, known = known_columns(measured)
    columns = list(known)
    fit = regression(tuple(columns))
    unknown = fit.unknown.tolist()
    spread = (COVARIANCE[np.ix_(unknown, unknown)]
              - fit.gain @ COVARIANCE[np.ix_(columns, unknown)])
    if hip.measured:
        return BodySpread(tuple(FIELDS[one] for one in unknown), spread)
    place = FIELDS.index("hip_sitting")
    variance = (hip.plus_minus_m / NINE_IN_TEN_SD) ** 2
    gain = np.append(fit.gain[:, columns.index(place)], 1.0)
    whole = np.zeros((len(unknown) + 1, len(unknown) + 1))
    whole[:-1, :-1] = spread
    return BodySpread((*(FIELDS[one] for one in unknown), "hip_sitting"),
                      whole + variance * np.outer(gain, gain))


def centre_height_sd_m(measured):
    """One standard deviation of the seated centre's height: the model's own, and what a predicted
    sitting height adds."""
    return float(np.hypot(SPREADS["centre-height"].sd, body_spread(measured).of(
        {name: NOMINAL_OF_MODEL * per for name, per in HEIGHT_PER.items()})))
