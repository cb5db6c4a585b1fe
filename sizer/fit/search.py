"""The search for the least changed boat, in the logarithms of its four factors."""

from dataclasses import replace

import numpy as np
from scipy.optimize import lsq_linear

from sizer.errors import NotSolved, WillNotFloat
from sizer.fit.assess import assess
from sizer.fit.checks import all_checks

FACTORS = ("length", "beam", "depth", "crown")
# What a change of the base costs: the share that weighs like one unit. Crown is cheap, since it
# moves only the foredeck; our judgement.
COST_SHARE = np.array([0.10, 0.06, 0.08, 0.30])
HARD_WEIGHT = 60.0  # per just-noticeable shortfall of a hard check
SOFT_WEIGHT = 20.0  # of a caution
BUFFER = 0.05  # of a just-noticeable change: aimed inside each limit, so that rounding is no fail
SEARCH_COUNT = 61  # even sections during the search; the answer is worked out with SECTION_COUNT
MOST_ROUNDS = 12
MOST_SETS = 30  # sets of short checks tried in one round
FIRST_REACH = 0.08  # most a factor changes in one round
LEAST_REACH = 2e-5  # changes below this are none
LEAST_GAIN = 1e-5  # of the merit
LOG_STEP = 2e-3  # of each factor, for slopes


class Search:
    """The least-squares problem of one fit, in the logarithms of the four factors.

    Remembers the last water level, to start the next flotation from.
    """

    def __init__(self, lines, person, scaling, fixed, seat_held=False):
        self.lines, self.person, self._scaling = lines, person, scaling
        self.seat_held = seat_held
        self.fixed = fixed
        bounds = np.log([getattr(lines.design.limits, name) for name in FACTORS])
        self.free = np.array([name not in fixed for name in FACTORS])
        self.first = np.log([fixed.get(name, 1.0) for name in FACTORS])
        self.low = np.where(self.free, bounds[:, 0], self.first)
        self.high = np.where(self.free, bounds[:, 1], self.first)
        self.start = None

    def scaling(self, logs):
        """The Scaling with these four factors, given as logarithms."""
        return replace(self._scaling,
                       **dict(zip(FACTORS, np.exp(logs).tolist(), strict=True)))

    def checks(self, logs):
        """The checks of the boat with these factors."""
        assessed = assess(self.lines, self.scaling(logs), self.person, SEARCH_COUNT, self.start,
                          self.seat_held)
        self.start = assessed.start
        return all_checks(assessed)

    def best(self):
        """Logarithms of the four factors of the answer.

        Each round linearises the checks, takes the best boat of that model within reach, and
        keeps it if the real one is better; if not, it reaches less far.
        """
        here = np.clip(self.first, self.low, self.high)
        try:
            shorts = shortfalls(self.checks(here))
        except WillNotFloat:
            here = self.high.copy()
            self.start = None
            shorts = shortfalls(self.checks(here))
        reach = FIRST_REACH
        merit = _merit(here, shorts)
        for _ in range(MOST_ROUNDS):
            slopes = self._slopes(here, shorts)
            moved = False
            while not moved and reach > LEAST_REACH:
                aim = _best_of_model(here, shorts, slopes, np.maximum(self.low, here - reach),
                                     np.minimum(self.high, here + reach))
                if np.abs(aim - here).max() < LEAST_REACH:
                    return here
                there = self._shortfalls(aim)
                moved = _merit(aim, there) < merit
                if not moved:
                    reach = 0.3 * np.abs(aim - here).max()
            if not moved:
                return here
            gain = merit - _merit(aim, there)
            here, shorts, merit = aim, there, merit - gain
            if gain < LEAST_GAIN * (1.0 + merit):
                return here
        return here

    def _shortfalls(self, logs):
        """Shortfalls, or hopeless ones for a boat that does not float."""
        try:
            return shortfalls(self.checks(logs))
        except (WillNotFloat, NotSolved):
            return np.full(1, 1e6)

    def _slopes(self, here, shorts):
        """Slopes of the shortfalls, one-sided, backward at an upper limit. (n, 4); held ones 0."""
        slopes = np.zeros((shorts.size, len(FACTORS)))
        for index in np.flatnonzero(self.free):
            step = LOG_STEP if here[index] + LOG_STEP <= self.high[index] else -LOG_STEP
            moved = here.copy()
            moved[index] += step
            slopes[:, index] = (shortfalls(self.checks(moved)) - shorts) / step
        return slopes


def shortfalls(checks):
    """How far each check is short of what is aimed for, weighted; negative is met. (2 n,) array.

    First half: short of a clean pass. Second half, steeper: hard checks short of their limit.
    """
    margin = np.array([check.margin for check in checks])
    scale = np.array([check.scale for check in checks])
    band = np.array([check.band for check in checks])
    hard = np.array([check.hard for check in checks])
    clean = (band - margin) / scale + BUFFER
    failed = np.where(hard, -margin / scale + BUFFER, -1.0)
    return np.concatenate([SOFT_WEIGHT * clean, HARD_WEIGHT * failed])


def _merit(logs, shorts):
    """What the search makes small: the changes and the shortfalls, squared."""
    return float(np.sum((logs / COST_SHARE) ** 2) + np.sum(np.maximum(shorts, 0.0) ** 2))


def _best_of_model(here, shorts, slopes, low, high):
    """Least merit where shortfalls are linear, between bounds: one bounded least squares for each
    set of checks that are short, until the set stays."""
    fixed = high - low < 1e-12
    low, high = low - 1e-12 * fixed, high + 1e-12 * fixed
    at, best = here, here
    least = np.inf
    for _ in range(MOST_SETS):
        short = shorts + slopes @ (at - here) > 0.0
        rows = np.vstack([np.diag(1.0 / COST_SHARE), slopes[short]])
        aims = np.concatenate([np.zeros(len(FACTORS)), slopes[short] @ here - shorts[short]])
        after = lsq_linear(rows, aims, (low, high), method="bvls").x
        merit = _merit(after, shorts + slopes @ (after - here))
        if merit >= least - 1e-9:
            after = 0.5 * (at + after)
            merit = _merit(after, shorts + slopes @ (after - here))
        if merit < least:
            best, least = after, merit
        if np.abs(after - at).max() < 1e-7:
            break
        at = after
    return best
