"""The shop's own bias over several boats, shrunk towards none while boats are few.

Differences d of n boats, each with its spread s, are taken as N(b, s^2 + t^2), t the scatter of
boats by moments (DerSimonian and Laird, Controlled Clinical Trials 7, 1986). Of their weighed mean
m with variance V, b = m max(0, 1 - k V / m^2): the positive-part estimate of Stein's kind, with
k = (n + 1) / (n - 1), our judgement, since few boats hardly tell V from m^2.
"""

from dataclasses import dataclass

import numpy as np

from sizer.errors import BadInput, Fault


@dataclass(frozen=True)
class Bias:
    """What is to be added to what is calculated."""

    boats: int
    mean: float  # measured less predicted, before shrinking
    bias: float
    spread: float  # one standard deviation of the bias
    scatter: float  # one standard deviation from boat to boat, beyond the readings' spreads
    share: float  # of the mean that is kept, 0 to 1


def shop_bias(predicted, measured, spreads):
    """The Bias of boats whose figures were predicted and measured, in any one unit.

    Parameters
    ----------
    predicted, measured, spreads : (n,), spreads one standard deviation each, above zero

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
        return Bias(0, 0.0, 0.0, 0.0, 0.0, 0.0)
    scatter2 = _scatter2(off, spreads)
    weights = 1.0 / (spreads**2 + scatter2)
    mean, variance = float(weights @ off / weights.sum()), float(1.0 / weights.sum())
    few = (off.size + 1) / (off.size - 1) if off.size > 1 else np.inf
    share = max(0.0, 1.0 - few * variance / mean**2) if mean and off.size > 1 else 0.0
    spread = np.sqrt(share**2 * variance + (1.0 - share) ** 2 * max(mean**2, variance))
    return Bias(off.size, mean, share * mean, float(spread), float(np.sqrt(scatter2)), share)


def _scatter2(off, spreads):
    weights = spreads**-2.0
    excess = weights @ (off - weights @ off / weights.sum()) ** 2 - (off.size - 1)
    room = weights.sum() - weights @ weights / weights.sum()
    return max(0.0, excess / room) if off.size > 1 else 0.0
