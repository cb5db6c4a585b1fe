"""The whole body: what was measured, and what was not predicted from it.

The table is the ANSUR II survey (Gordon et al., NATICK/TR-15/007, 2014): soldiers of 17 to 58
years, men and women pooled with equal weight. Nothing here knows a paddler's age, and only a hip
width that was not measured asks for the sex, so people outside those years are not covered.
"""

import json
from dataclasses import dataclass
from functools import cache
from importlib import resources

import numpy as np
from scipy.special import chdtri

from sizer.units import MM_PER_M, both_mass, both_text

_TABLE = json.loads(resources.files("sizer.paddler").joinpath("body_table.json").read_text("utf-8"))
_TO_SI = np.array([1.0 if name.endswith("_kg") else 1e-3 for name in _TABLE["columns"]])


def _surveyed(group):
    """Mean (11,) in kg, then m, and covariance (11, 11) of a group of the survey."""
    one = _TABLE[group]
    return (np.array(one["mean"]) * _TO_SI,
            np.array(one["covariance"]) * np.outer(_TO_SI, _TO_SI))


MEAN, COVARIANCE = _surveyed("pooled_5050")
# Whose hips are predicted, by what a request says in place of how they were measured. Where the sex
# is not said both are covered: the pooled survey would be 14 mm off each way.
PREDICTED_HIPS = {"predicted-man": ("male",), "predicted-woman": ("female",),
                  "predicted": ("male", "female")}

# The Body field of each table column, in the table's order.
FIELDS = (
    "weight_kg", "stature", "hip_sitting", "sitting_height", "inseam", "buttock_knee",
    "knee_height", "foot_length", "thigh_clearance", "shoulder_width", "arm_span",
)  # fmt: skip
_HIP = FIELDS.index("hip_sitting")
MEASURED_AS = {  # the fields of a Measured by those of a Body, in the table's order
    "weight_kg": "weight_kg", "stature": "stature_m", "hip_sitting": "hip_width_m",
    "sitting_height": "sitting_height_m", "inseam": "inseam_m", "foot_length": "foot_length_m",
    "shoulder_width": "shoulder_width_m",
}  # fmt: skip

NINE_IN_TEN_SD = 1.2816  # of a normal distribution, nine in ten lie below mean + 1.2816 SD
ONE_PERCENT_SD = 2.3263  # one in a hundred lies beyond, on each side
ODD_CHANCE = 0.995  # our judgement: beyond this, measures seldom belong together

# Sitting minus standing hip breadth, ANSUR II: the means differ by 34 mm (men) and 45 mm (women).
HIP_SPREAD_M = (0.034, 0.045)
# How near that comes to the sitting width for eight people in ten, tried on 200 of the survey's
# people: 13.5 mm root mean square. Nine in ten are below the high end, as of all predictions.
STANDING_HIP_M = 0.017
# Common practice, no source: a soft shoe with its sole is about this much longer than the foot.
SHOE_LONGER_M = 0.020
# The survey has few women above 110 kg and few men above 120 kg; not knowing which, we warn early.
EXTRAPOLATED_KG = 110
# Lighter, a paddler may be no adult yet, as those of the survey are; our judgement.
MAY_GROW_KG = 55


@dataclass(frozen=True)
class Measure:
    """A length with its ±; nine people in ten are below the high end of a predicted one."""

    value_m: float
    plus_minus_m: float  # 0 when measured
    measured: bool

    @property
    def low_m(self):
        return self.value_m - self.plus_minus_m

    @property
    def high_m(self):
        return self.value_m + self.plus_minus_m


@dataclass(frozen=True)
class Body:
    """The paddler's body, as surveys measure one; shoes as worn, the rest without them."""

    weight_kg: float
    stature: Measure
    hip_sitting: Measure
    sitting_height: Measure
    inseam: Measure
    buttock_knee: Measure  # back of buttocks to front of knee, seated
    knee_height: Measure  # floor to top of knee, seated
    foot_length: Measure
    shoe_length: Measure
    thigh_clearance: Measure  # seat to top of thigh
    shoulder_width: Measure
    arm_span: Measure
    cautions: tuple[str, ...]
    caution_in_short: str  # the first of them in a few words; "" where there is none


@dataclass(frozen=True, eq=False)
class Regression:
    """The conditional normal for one choice of known columns, k of them."""

    unknown: np.ndarray  # (11 - k,) columns
    gain: np.ndarray  # (11 - k, k)
    residual_sd: np.ndarray  # (11 - k,) kg or m
    precision: np.ndarray  # (k, k) inverse covariance of the known
    odd_distance2: float  # squared Mahalanobis distance that ODD_CHANCE of people stay within

    def of(self, column):
        """Gain (k,) and residual SD of one unknown column."""
        row = self.unknown.tolist().index(column)
        return self.gain[row], self.residual_sd[row]


def predict(measured):
    """The Body of a Measured paddler; what was not measured follows from what was.

    mean = mu_u + C_uk inv(C_kk) (k - mu_k), covariance = C_uu - C_uk inv(C_kk) C_ku, and the ± is
    1.28 residual SD, so nine in ten such people are below the high end. A standing hip width is
    widened to a sitting one by the middle of the two sexes' differences, good to STANDING_HIP_M;
    that spread adds to what is predicted from it as independent errors do, by squares.
    """
    hip, known = known_columns(measured)
    columns = tuple(known)
    fit = regression(columns)
    values = np.fromiter(known.values(), float, len(known))
    off = values - MEAN[list(columns)]
    guessed = MEAN[fit.unknown] + fit.gain @ off
    from_hip = np.abs(fit.gain[:, columns.index(_HIP)]) * hip.plus_minus_m
    spread = np.hypot(NINE_IN_TEN_SD * fit.residual_sd, from_hip)
    measures = {FIELDS[c]: Measure(float(known[c]), 0.0, True) for c in columns if c}
    measures |= {
        FIELDS[c]: Measure(v, s, False)
        for c, v, s in zip(fit.unknown.tolist(), guessed.tolist(), spread.tolist(), strict=True)
    }
    measures["hip_sitting"] = hip
    cautions = _cautions(measured, hip, columns, values, float(off @ fit.precision @ off))
    return Body(
        weight_kg=measured.weight_kg,
        shoe_length=_shoe(measured.shoe_length_m, measures["foot_length"]),
        cautions=tuple(sentence for _, sentence in cautions),
        caution_in_short=cautions[0][0] if cautions else "",
        **measures,
    )


def known_columns(measured):
    """The sitting hip Measure, and {column: value} of everything known, in column order."""
    given = {name: getattr(measured, field) for name, field in MEASURED_AS.items()}
    known = {FIELDS.index(name): v for name, v in given.items() if v is not None}
    hip = Measure(measured.hip_width_m, 0.0, True)
    if measured.hip_measured == "standing":
        hip = Measure(measured.hip_width_m + sum(HIP_SPREAD_M) / 2, STANDING_HIP_M, False)
    elif measured.hip_measured in PREDICTED_HIPS:
        rest = {column: value for column, value in known.items() if column != _HIP}
        hip = predicted_hip(measured.hip_measured, rest)
    return hip, known | {_HIP: hip.value_m}


def predicted_hip(whose, known):
    """The sitting hip Measure of somebody whose hips were not measured.

    The conditional normal as in `predict`, of the sex that is said; of both, from the low end of
    the narrower to the high end of the wider, where it is not.

    Parameters
    ----------
    whose : key of PREDICTED_HIPS
    known : {column of FIELDS: value} of what was measured

    Source: ANSUR II (Gordon et al., NATICK/TR-15/007, 2014), men and women apart.
    """
    columns, ends = list(known), []
    for group in PREDICTED_HIPS[whose]:
        mean, covariance = _surveyed(group)
        gain = np.linalg.solve(covariance[np.ix_(columns, columns)], covariance[columns, _HIP])
        middle = mean[_HIP] + gain @ (np.fromiter(known.values(), float) - mean[columns])
        sd = np.sqrt(covariance[_HIP, _HIP] - gain @ covariance[columns, _HIP])
        ends += [middle - NINE_IN_TEN_SD * sd, middle + NINE_IN_TEN_SD * sd]
    low, high = float(min(ends)), float(max(ends))
    return Measure((low + high) / 2.0, (high - low) / 2.0, False)


@cache  # four optional measures: sixteen choices at most
def regression(columns):
    """The Regression on some known columns, by their place in FIELDS, rising."""
    known = list(columns)
    unknown = np.setdiff1d(np.arange(len(MEAN)), known)
    precision = np.linalg.inv(COVARIANCE[np.ix_(known, known)])
    gain = COVARIANCE[np.ix_(unknown, known)] @ precision
    residual = COVARIANCE[np.ix_(unknown, unknown)] - gain @ COVARIANCE[np.ix_(known, unknown)]
    limit = float(chdtri(len(known), 1.0 - ODD_CHANCE))
    return Regression(unknown, gain, np.sqrt(np.diag(residual)), precision, limit)


def _shoe(shoe_length_m, foot):
    if shoe_length_m is not None:
        return Measure(shoe_length_m, 0.0, True)
    return Measure(foot.value_m + SHOE_LONGER_M, foot.plus_minus_m, False)


def _cautions(measured, hip, columns, values, distance2):
    """A list of (a few words, a plain sentence) where the survey is a weak guide to this body; none
    for most people."""
    cautions = []
    if measured.hip_measured in PREDICTED_HIPS:
        whose = {"predicted-man": "a man", "predicted-woman": "a woman"}.get(
            measured.hip_measured, "a man or a woman alike")
        cautions.append((
            "hips not measured, only predicted: measure before you build",
            f"The hips were not measured: for {whose} of the other measures they are predicted at "
            f"{both_text(hip.value_m * MM_PER_M)}, "
            f"{both_text(hip.plus_minus_m * MM_PER_M)} more or less, and the opening is made for "
            "the wide end. One in ten is wider still: measure them sitting before you build."
        ))
    if measured.hip_measured == "standing":
        cautions.append((
            "hips measured standing: measure them sitting before you build",
            "The hip width was taken standing, which tells the sitting one to "
            f"{both_text(STANDING_HIP_M * MM_PER_M)} either way for eight people in ten, and worse "
            "for the others: measure it sitting before you build."
        ))
    if measured.weight_kg > EXTRAPOLATED_KG:
        cautions.append((
            "heavier than nearly all who were surveyed: measure what is predicted",
            f"The survey has few women above {both_mass(110.0, 0)} and few men above "
            f"{both_mass(120.0, 0)}, so predicted measures "
            "are extrapolated: measure them before you build."
        ))
    if measured.weight_kg < MAY_GROW_KG:
        cautions.append((
            "light enough to be still growing: measure again on the day you build",
            "The survey is of adults. If this paddler is still growing, measure every part of the "
            "body, again on the day you build, and let the boat go when it has become too small."
        ))
    sd = np.sqrt(np.diag(COVARIANCE))
    beyond = [
        FIELDS[c].removesuffix("_kg").replace("_", " ")
        for c, value in zip(columns, values, strict=True)
        if abs(value - MEAN[c]) > ONE_PERCENT_SD * sd[c]
    ]
    if beyond:
        cautions.append((
            "a body unlike nearly all who were surveyed: measure what is predicted",
            f"Outside 98 in 100 of the people surveyed: {', '.join(beyond)}; measure the body "
            "parts shown as predicted before you build."
        ))
    if distance2 > regression(columns).odd_distance2:
        cautions.append((
            "measures seldom found together in one body: measure them again",
            "These measures are seldom found together in one body: measure them again."
        ))
    return cautions
