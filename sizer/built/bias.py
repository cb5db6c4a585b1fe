"""The shop's own bias over several boats, shrunk towards none while boats are few.

Differences d of n boats, each with its spread s, are taken as N(b, s^2 + t^2), t the scatter of
boats by moments (DerSimonian and Laird, Controlled Clinical Trials 7, 1986). Of their weighed mean
m with variance V, b = m max(0, 1 - k V / m^2): the positive-part estimate of Stein's kind, with
k = (n + 1) / (n - 1), our judgement, since few boats hardly tell V from m^2.

The next boat strays from b by the scatter and by what is unknown of b. Of a shop nothing is known
of, half the usual variance u^2 is its own bias and half the scatter of its boats; the scatter's
half is worth SURE_BOATS boats, and takes up t^2 as a variance does by Bayes' rule (scaled inverse
chi-square): (SURE_BOATS u^2 / 2 + v t^2) / (SURE_BOATS + v), of v = sum (u^2 / (u^2 + s^2))^2 - 1
boats, a boat read badly counting less. Without launches that is u again.
"""

from dataclasses import dataclass, replace

import numpy as np

from sizer.built.departures import NINE_IN_TEN
from sizer.errors import BadInput, Fault
from sizer.fit.shop_bias import STRAYS, ShopBias
from sizer.paddler.spread import SPREADS

SURE_BOATS = 8.0  # that the usual scatter is worth; our judgement


@dataclass(frozen=True)
class Bias:
    """What is to be added to what is calculated."""

    boats: int
    mean: float  # measured less predicted, before shrinking
    bias: float
    spread: float  # one standard deviation of the bias
    scatter: float  # one standard deviation from boat to boat, beyond the readings' spreads
    share: float  # of the mean that is kept, 0 to 1
    next_spread: float  # one standard deviation of the next boat about the bias


def shop_bias(predicted, measured, spreads, usual):
    """The Bias of boats whose figures were predicted and measured, in any one unit.

    Parameters
    ----------
    predicted, measured, spreads : (n,), spreads one standard deviation each, above zero
    usual : one standard deviation of such a figure where no launch is known

    Raises
    ------
    BadInput, where they differ in number or a spread is not above zero.
    """
    predicted, measured, spreads = (np.asarray(one, float) for one in
                                    (predicted, measured, spreads))
    if not predicted.shape == measured.shape == spreads.shape or predicted.ndim != 1:
        raise BadInput([Fault("boats", "lists that differ in number", "one of each for each boat")])
    off = measured - predicted
    if not (np.all(np.isfinite(off)) and np.all(spreads > 0.0) and np.all(np.isfinite(spreads))):
        raise BadInput([Fault("boats", "a figure that is no number or a spread not above zero",
                              "finite figures, spreads above zero")])
    if off.size == 0:
        return Bias(0, 0.0, 0.0, 0.0, 0.0, 0.0, usual)
    scatter2 = _scatter2(off, spreads)
    weights = 1.0 / (spreads**2 + scatter2)
    mean, variance = float(weights @ off / weights.sum()), float(1.0 / weights.sum())
    few = (off.size + 1) / (off.size - 1) if off.size > 1 else np.inf
    share = max(0.0, 1.0 - few * variance / mean**2) if mean and off.size > 1 else 0.0
    spread = np.sqrt(share**2 * variance + (1.0 - share) ** 2 * max(mean**2, variance))
    own2 = spread**2 if off.size > 1 else 0.5 * usual**2
    return Bias(off.size, mean, share * mean, float(spread), float(np.sqrt(scatter2)), share,
                float(np.sqrt(_straying2(scatter2, spreads, usual) + own2)))


def _straying2(scatter2, spreads, usual):
    boats = max(0.0, ((usual**2 / (usual**2 + spreads**2)) ** 2).sum() - 1.0)
    return (0.5 * SURE_BOATS * usual**2 + boats * scatter2) / (SURE_BOATS + boats)


def _scatter2(off, spreads):
    weights = spreads**-2.0
    excess = weights @ (off - weights @ off / weights.sum()) ** 2 - (off.size - 1)
    room = weights.sum() - weights @ weights / weights.sum()
    return max(0.0, excess / room) if off.size > 1 else 0.0


@dataclass(frozen=True)
class Off:
    """What one launch says of one figure: measured less calculated, with its spread."""

    off: float
    spread: float  # one standard deviation, of the readings alone


OF_LAUNCH = {"boat_share": "boat_kg", "seat_up_m": "seated_height_m",
             "seat_ahead_m": "seated_ahead_m"}  # what a shop's bias is of: key of a Lesson
USUAL = {"boat_share": "boat-weight", "seat_up_m": "centre-height", "seat_ahead_m": "centre-ahead"}
TOLD = 0.98  # of the spread before: a figure that readings narrow less says nothing; our judgement


def offs_of(lesson):
    """{key of OF_LAUNCH: Off} of a Lesson, of what its readings tell by themselves.

    With normal errors of spread s before and t after, the readings alone say (a / t^2 - b / s^2) v,
    with variance v = 1 / (1 / t^2 - 1 / s^2), b and a the figures before and after. The boat's is a
    share of its calculated weight.
    """
    found = {}
    for key, of in OF_LAUNCH.items():
        one = lesson.of(of)
        before, after = (band / NINE_IN_TEN for band in (
            one.before_plus_minus, one.after_plus_minus))
        if after > TOLD * before:
            continue
        variance = 1.0 / (after**-2 - before**-2)
        off = (one.after / after**2 - one.before / before**2) * variance - one.before
        per = one.before if key == "boat_share" else 1.0
        found[key] = Off(off / per, float(np.sqrt(variance)) / per)
    return found


def over_plain(offs, used):
    """Offs against what was calculated with a ShopBias, as against what is without one."""
    def plain(key, one):
        by = getattr(used, key)
        if key != "boat_share":
            return replace(one, off=one.off + by)
        return Off((1.0 + by) * (1.0 + one.off) - 1.0, (1.0 + by) * one.spread)

    return {key: plain(key, one) for key, one in offs.items()}


def own_bias(launches):
    """The ShopBias that a fit is done with after many launches' {key: Off}."""
    told = {key: one for key, one in shop_biases(launches).items() if one.boats}
    return ShopBias(boats=float(len(launches)), **{key: one.bias for key, one in told.items()},
                    **{STRAYS[USUAL[key]][0]: one.next_spread for key, one in told.items()})


def shop_biases(launches):
    """{key of OF_LAUNCH: Bias} over many launches' {key: Off}."""
    return {key: shop_bias(np.zeros(len(lot)), [one.off for one in lot],
                           [one.spread for one in lot], SPREADS[USUAL[key]].sd)
            for key in OF_LAUNCH for lot in [[one[key] for one in launches if key in one]]}
