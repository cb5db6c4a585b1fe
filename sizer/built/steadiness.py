"""Whether a steadiness trial shows a boat as steady as is asked for: one rule for paper and screen.

A swing is how far a weight heels the boat from where it lay without one, towards the weight. What
is judged is the mean of the heaviest weight's swings to starboard and to port: what a paddler sits
off the middle adds to the one what it takes off the other. A mean nearer to the heel at the GM that
is asked for than it may be read wrong tells nothing.
"""

from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np

from sizer.built.departures import NINE_IN_TEN, expected
from sizer.built.learnt import ARM_M, HEEL_DEG, still_deg
from sizer.built.trial import SIDES
from sizer.built.trial_weights import heels_at_gm_deg, trial_weights
from sizer.units import MM_PER_M

PAIRS = 4  # readings to each side with the heaviest weight; our judgement
TRIAL_SCALE_KG = 0.05  # that the scale for a trial's weights tells; our judgement
OFF_KG = 0.5 * TRIAL_SCALE_KG  # one standard deviation of a weight; our judgement
# That a boat may lie over without a weight by paper alone: the first that leaves a weight which
# heels it by READ_DEG, less being no reading, and by which it can be told; our judgement.
LEVELS_DEG, READ_DEG = (1.0, 0.5), 0.5
LEAST_DEG = 1e-6  # less is a sum's rounding
TENTHS = 10.0  # of a degree, that a phone tells and the rule is told to
STEADY, UNTOLD, LESS, STOPPED = "steady", "untold", "less", "stopped"


@dataclass(frozen=True)
class Limits:
    """What one weight's swings are judged by, deg; sums of so `many` swings as are asked for are in
    tenths, as they are read."""

    calculated_deg: float
    steady_deg: float  # a mean up to it: as steady as is asked for
    less_deg: float  # a mean over it: less steady than that; between them it is not told
    stop_deg: float  # one swing over it ends the trial; in tenths
    many: int

    @property
    def tells(self):
        """Whether a boat that is as it was calculated is found steady."""
        return self.calculated_deg <= self.steady_deg

    @property
    def tells_surely(self):
        """Whether it is found steady too where it is read as wrong as nine in ten are at most."""
        error = 0.5 * (self.less_deg - self.steady_deg)
        return self.calculated_deg + error <= self.steady_deg

    def verdict(self, mean_deg):
        if mean_deg <= self.steady_deg + LEAST_DEG:
            return STEADY
        return LESS if mean_deg > self.less_deg + LEAST_DEG else UNTOLD


def asked_gm_m(fitted):
    """The GM that a trial must show: the least that its check asks for, or half-way from its use's
    least to the calculated where that is less. Our judgement."""
    check, least = fitted.check("gm"), fitted.assessed.person.use.least_gm_m
    half = 0.5 * (least + max(check.value / MM_PER_M, least))
    return min(check.window[1] / MM_PER_M, half)


@lru_cache(maxsize=64)
def limits(fitted, assessed, kg, off_centre_m, pairs=PAIRS):
    """The Limits of one weight read so many times to each side, in an Assessed boat of a fit.

    A single swing over that at half the GM asked for, or at the least that nine in ten boats have
    where that is more, ends the trial: the weights are no longer known to be safe. It is never so
    little that reading twice wrong brings it about in a boat that meets the limit.
    """
    gm, band = expected(assessed)["gm_m"]
    asked = asked_gm_m(fitted)
    calculated, limit, far = (next(iter(heels_at_gm_deg(assessed, one, [kg], off_centre_m)))
                              for one in (float(assessed.upright.gm_m), asked,
                                          max(0.5 * asked, gm - band)))
    many, error = len(SIDES) * pairs, error_deg(limit, kg, off_centre_m, pairs)
    wrong = NINE_IN_TEN * np.sqrt(2.0) * HEEL_DEG  # of one swing: reading 0 and its own
    return Limits(calculated, _down(many * (limit - error)) / many,
                  -_down(-many * (limit + error)) / many, _down(max(far, limit + wrong)), many)


def error_deg(heel_deg, kg, off_centre_m, pairs):
    """How far the mean of swings so large, so many to each side, may be read wrong: nine in ten are
    nearer. Readings go by their number; weight and place are the same each time."""
    each_time = heel_deg * np.hypot(ARM_M / off_centre_m, OFF_KG / kg)
    return float(NINE_IN_TEN * np.hypot(HEEL_DEG / np.sqrt(2.0 * pairs), each_time))


@lru_cache(maxsize=16)
def first_trial(fitted):
    """The TrialWeights of a fit by paper alone: nothing is read yet, and the boat may lie over by
    one of LEVELS_DEG; none is safe where it cannot tell. Raises as `trial_weights`."""
    assessed = fitted.assessed
    gm = expected(assessed)["gm_m"]
    for still in LEVELS_DEG:
        found = trial_weights(assessed, *gm, still)
        if (found.safest_kg > 0.0 and found.safest_deg >= READ_DEG
                and limits(fitted, assessed, found.safest_kg, found.off_centre_m).tells):
            return found
    return replace(found, safest_kg=0.0)


def steadiness(fitted, assessed, trial):
    """(STEADY, UNTOLD, LESS or STOPPED; mean swing, deg; Limits) of the heaviest weight that a
    Trial read to both sides; of the one that went too far where STOPPED; None where there is none.
    """
    still, lots = still_deg(trial), {}
    for one in trial.heel:
        if one.kg and one.off_centre_m:
            side = float(np.sign(one.off_centre_m))
            lot = lots.setdefault((one.kg, abs(one.off_centre_m)), {1.0: [], -1.0: []})
            lot[side].append(side * (one.heel_deg - still))
    found = None
    for (kg, off), lot in sorted(lots.items(), key=lambda one: one[0][0] * one[0][1]):
        pairs = min(map(len, lot.values()))
        by = limits(fitted, assessed, kg, off, max(pairs, 1))
        most = max(lot[1.0] + lot[-1.0])
        if most > by.stop_deg + LEAST_DEG:
            return STOPPED, most, by
        if pairs:
            mean = 0.5 * (float(np.mean(lot[1.0])) + float(np.mean(lot[-1.0])))
            found = by.verdict(mean), mean, by
    return found


def _down(deg):
    """To the tenth below."""
    return float(np.floor(TENTHS * deg + 1e-9) / TENTHS)
