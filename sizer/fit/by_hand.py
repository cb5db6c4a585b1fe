"""How far one size can be moved by hand, one way, with every check still passed; what ends it."""

from dataclasses import dataclass

import numpy as np

from sizer.fit.assess import Assessed
from sizer.fit.check import Check
from sizer.fit.tried import DIMENSIONS, Dimension, tried, unit_size
from sizer.fit.what_if import sweep

PAST = 5e-4  # of the dimension's unit: a boat tried so far past the last that passes


@dataclass(frozen=True, eq=False)
class Reach:
    """The last boat that passes every check, and what the next one does not pass."""

    dimension: Dimension
    now: float  # in the dimension's unit
    last: float
    boat: Assessed
    ended_by: tuple[Check, ...]  # none at the base's own limit


def reach_by_hand(assessed, seat_held, dimension, sign):
    """The Reach of a dimension one way from today's boat; None where that passes not every check.

    Parameters
    ----------
    assessed, seat_held, dimension : as `sizer.fit.what_if.sweep`
    sign : 1.0 for more, -1.0 for less
    """
    swept = sweep(assessed, seat_held, dimension)
    now = float(swept.at[swept.today])
    last = next((ends[sign > 0.0] for ends in swept.passing if ends[0] <= now <= ends[1]), None)
    if last is None:
        return None
    places = np.array([last, np.clip(last + sign * PAST, swept.at[0], swept.at[-1])])
    there, past = tried(assessed, seat_held, {
        dimension: places / unit_size(assessed, dimension)})
    return Reach(DIMENSIONS[dimension], now, last, there.assessed, tuple(
        check for check in past.checks if check.status != "pass"))
