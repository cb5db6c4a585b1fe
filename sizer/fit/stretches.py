"""Where along one dimension every check passes: both ends of each stretch are boats tried.

A boat's verdict is the same here as wherever it is told by itself (`sizer.fit.tried`); nothing is
read between boats, since odds and what is fair do not lie on straight lines.
"""

from itertools import pairwise

import numpy as np

from sizer.fit.check import overall
from sizer.fit.checks import TOGETHER

BETWEEN = 7  # boats tried in each gap that is looked into
ROUNDS = 3  # of it: an end is good to a gap over (BETWEEN + 1) ** ROUNDS


def passing_stretches(settings, boats, try_at):
    """Tuple of (first, last) setting of each unbroken run of boats that pass every check.

    Parameters
    ----------
    settings : rising
    boats : the Tried there
    try_at : gives the Tried of an array of other settings
    """
    found = dict(zip(map(float, settings), boats, strict=True))
    for turn in range(ROUNDS):
        between = [np.linspace(start, end, BETWEEN + 2)[1:-1]
                   for start, end in pairwise(sorted(found))
                   if _worth_trying(found[start], found[end], turn == 0)]
        if not between:
            break
        places = np.concatenate(between)
        found |= zip(places.tolist(), try_at(places), strict=True)
    return _runs([(place, _passes(found[place])) for place in sorted(found)])


def _passes(tried):
    return tried.assessed is not None and overall(tried.checks) == "pass"


def _worth_trying(one, other, first):
    """Whether a stretch may begin or end between two boats: one passes, or at first also where
    nothing that stops the one stops the other."""
    if _passes(one) != _passes(other):
        return True
    return first and not _passes(one) and not (_stopped_by(one) & _stopped_by(other))


def _stopped_by(tried):
    """What a boat misses, each with its side; what all checks together miss rises and falls."""
    if tried.assessed is None:
        return {(tried.why_not, "")}
    return {(check.key, check.too) for check in tried.checks
            if check.status != "pass" and check.key != TOGETHER.key}


def _runs(places):
    """(first, last) place of each run of true flags."""
    runs, before = [], False
    for place, passes in places:
        if passes:
            runs = [*runs[:-1], (runs[-1][0], place)] if before else [*runs, (place, place)]
        before = passes
    return tuple(runs)
