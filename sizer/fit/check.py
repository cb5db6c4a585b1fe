"""What a check is: a quantity with a window, its status, and the odds that its limit is met.

Below `fails_below` and above `fails_above` it fails: such a boat is more likely than not to miss
the limit. It passes cleanly where the odds of meeting the limit are CLEAN_ODDS or better, which
moves the wanted sides in by so much of the check's spread (`sizer.fit.odds`), and where the boat is
also inside the row's own `wanted_from` and `wanted_to`. Between, it is a caution. A row reads
`sizer.fit.facts.Facts`, whose numbers are those of one boat with one paddler or arrays of many.
"""

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from scipy.special import ndtr, ndtri

from sizer.units import MM_PER_M, both_text

STATUSES = ("pass", "caution", "fail")
FAIL = STATUSES.index("fail")
CLEAN_ODDS = 0.80  # of meeting a limit, from which a check passes cleanly; our judgement
OPEN = np.inf
SIDES = (("fails_below", -OPEN), ("wanted_from", -OPEN), ("wanted_to", OPEN), ("fails_above", OPEN))


@dataclass(frozen=True)
class Row:
    """One check. `value` and the window's sides read Facts; all in SI, degrees for angles."""

    key: str
    title: str
    unit: str  # as shown
    scale: float  # a just-noticeable change, in SI
    value: Callable | None  # None of what is found on the bench
    meaning: str
    source: str
    fails_below: Callable | None = None
    wanted_from: Callable | None = None
    wanted_to: Callable | None = None
    fails_above: Callable | None = None
    small: str = "a larger or wider boat of this base, or a larger base"  # what mends too little
    large: str = "a smaller base"  # what mends too much; {pad} is half of what is over the need
    # What who uses a boat that misses it by too little or too much keeps to; "" where nothing does
    rule_small: str = ""
    rule_large: str = ""
    mishap: bool = False  # read off the heeled or flooded boat, which costs more
    sought: bool = True  # False where stouter sticks mend it, and no other shape of the boat

    @property
    def factor(self):
        """From SI to the unit shown."""
        return MM_PER_M if self.unit in ("mm", "mm rad") else 1.0


@dataclass(frozen=True)
class Check:
    """One row worked out for one boat with one paddler; value and window in SI."""

    row: Row
    value_si: float
    window_si: tuple[float, float, float, float]  # as the Row's sides; infinite where open
    says: str = ""  # what is said of this very boat, after the row's meaning
    sd_si: float | None = None  # of what is kept inside the limit; None where it is not known

    @property
    def key(self):
        return self.row.key

    @property
    def name(self):
        return self.row.title

    @property
    def unit(self):
        return self.row.unit

    @property
    def source(self):
        return self.row.source

    @property
    def meaning(self):
        """What is measured and why, and what is said of this boat."""
        return f"{self.row.meaning}; {self.says.rstrip('.')}" if self.says else self.row.meaning

    @property
    def value(self):
        """In the unit shown."""
        return self.value_si * self.row.factor

    @property
    def window(self):
        """(fails_below, wanted_from, wanted_to, fails_above) in the unit shown; None where open."""
        return tuple(side * self.row.factor if np.isfinite(side) else None
                     for side in self.window_si)

    @cached_property
    def status(self):
        """pass, caution or fail."""
        return STATUSES[codes_of(self.value_si, self.window_si)]

    @property
    def is_hard(self):
        """Whether it can fail."""
        return self.window_si[0] > -OPEN or self.window_si[3] < OPEN

    @property
    def odds(self):
        """That such a boat meets the limit with such a paddler, or what is wanted where it has no
        limit; None where its spread is not known."""
        if self.sd_si is None:
            return None
        low, from_, to, high = self.window_si
        return float(met(self.value_si, *((low, high) if self.is_hard else (from_, to)),
                         self.sd_si))

    @property
    def spread(self):
        """One standard deviation of what is kept inside the limit, in the unit shown; or None."""
        return None if self.sd_si is None else self.sd_si * self.row.factor

    @property
    def _nearest(self):
        """(side's index, margin in SI) of the limit that counts: negative where it is missed."""
        value, (low, from_, to, high) = self.value_si, self.window_si
        missed = [(0, value - low), (3, high - value)]
        wanted = [(1, value - from_), (2, to - value)]
        for pairs in (missed, wanted):
            index, margin = min(pairs, key=lambda pair: pair[1])
            if margin < 0.0:
                return index, margin
        return min((pair for pair in (*missed, *wanted)), key=lambda pair: pair[1])

    @property
    def limit(self):
        """The side of the window that counts most: the one missed, or the nearest; None if open."""
        side = self.window_si[self._nearest[0]]
        return side * self.row.factor if np.isfinite(side) else None

    @property
    def sense(self):
        """Whether that limit is a least or a most."""
        return "at least" if self._nearest[0] < 2 else "at most"

    @property
    def margin(self):
        """How far inside that limit, in the unit shown; None where the window is open."""
        margin = self._nearest[1]
        return margin * self.row.factor if np.isfinite(margin) else None

    @property
    def too(self):
        """"small", "large" or "": which side of the window is missed."""
        if self.status == "pass":
            return ""
        return "small" if self._nearest[0] < 2 else "large"

    @property
    def remedy(self):
        """What mends it; "" where nothing is missed."""
        if not self.too:
            return ""
        low = self.window_si[0]
        pad = 0.5 * (self.value_si - low) * MM_PER_M if np.isfinite(low) else 0.0
        return getattr(self.row, self.too).format(pad=both_text(pad))

    @property
    def rule(self):
        """What who uses the boat keeps to because of it; "" where nothing is missed."""
        return getattr(self.row, f"rule_{self.too}") if self.too else ""


def codes_of(value, window):
    """Index into STATUSES of values (...) and windows (4, ...), or of one value and its sides."""
    low, from_, to, high = window
    missed, short = (value < low) | (value > high), (value < from_) | (value > to)
    return FAIL * missed + (short > missed)  # short, but not missed


def overall(checks):
    """The worst status among checks."""
    statuses = {check.status for check in checks}
    return next(one for one in reversed(STATUSES) if one in statuses)


def values_of(rows, facts):
    """Values of some rows, SI: (n_rows, ...); NaN where a check has nothing to measure."""
    return np.array(np.broadcast_arrays(*(row.value(facts) for row in rows)), float)


def windows_of(rows, facts):
    """Windows of some rows, SI: (4, n_rows, ...), infinite where open.

    Where the facts tell a check's spread, it is wanted so far inside its limit as is met at
    CLEAN_ODDS. All else reads only who paddles, for what and in which base: whatever the boat's
    size, it stays.
    """
    every = [clean_window(*(open_ if getattr(row, side) is None else getattr(row, side)(facts)
                            for side, open_ in SIDES), facts.spread.get(row.key, 0.0))
             for row in rows]
    shape = np.broadcast_shapes(*(np.shape(side) for window in every for side in window))
    found = np.empty((len(SIDES), len(rows), *shape))
    for index, window in enumerate(every):
        for place, side in enumerate(window):
            found[place, index] = side
    return found


def clean_window(low, from_, to, high, sd):
    """The window, four sides (...), whose wanted sides lie so far inside their limits, by a spread
    (...) of the value."""
    inside = clean_inside(high - low, sd)
    return low, np.maximum(from_, low + inside), np.minimum(to, high - inside), high


# How many standard deviations inside each of two limits CLEAN_ODDS is met, by how many lie between
# them: one from each side's share missed, the other left over. Nearer together, it never is.
_SHARES = np.linspace(0.5, 1.0 - 1e-6, 200) * (1.0 - CLEAN_ODDS)
_INSIDE_SDS = -ndtri(_SHARES)
_APART_SDS = _INSIDE_SDS - ndtri(1.0 - CLEAN_ODDS - _SHARES)


def clean_inside(apart, sd):
    """How far inside its limits a value with this spread is met at CLEAN_ODDS.

    Parameters
    ----------
    apart : (...) between the limits; infinite where one is open
    sd : (...) in the same unit

    Returns
    -------
    (...); more than half of `apart` where it is met nowhere between them
    """
    if np.ndim(apart) == 0 and apart == np.inf:  # one end, as most have: the last of the table
        return _INSIDE_SDS[-1] * sd
    with np.errstate(divide="ignore", invalid="ignore"):
        sds = np.where(sd > 0.0, apart / np.where(sd > 0.0, sd, 1.0), np.inf)
    found = np.interp(np.minimum(sds, _APART_SDS[-1]), _APART_SDS, _INSIDE_SDS)
    return found * sd


def met(value, low, high, sd):
    """The odds that a value with this spread lies between two limits, either of which may be open;
    1 or 0 where the spread is 0."""
    sds = np.where(np.asarray(sd) > 0.0, sd, 1.0)
    under, over = (value - low) / sds, (high - value) / sds
    sure = np.where((value >= low) & (value <= high), 1.0, 0.0)
    return np.where(np.asarray(sd) > 0.0, np.maximum(ndtr(under) + ndtr(over) - 1.0, 0.0), sure)


def read_rows(rows, facts):
    """Values (n_rows, ...) and windows (4, n_rows, ...) of some rows: a window for every value."""
    values, window = values_of(rows, facts), windows_of(rows, facts)
    one_for_all = (1,) * (values.ndim - window.ndim + 1)
    return values, np.broadcast_to(window.reshape(*window.shape, *one_for_all),
                                   (len(SIDES), *values.shape))


def checks_read(rows, values, window, says, spread):
    """The Checks of rows that were read: values (n_rows,), windows (4, n_rows)."""
    return tuple(Check(row, value, sides, says.get(row.key, ""), spread.get(row.key))
                 for row, value, sides in zip(
                     rows, values.tolist(), map(tuple, window.T.tolist()), strict=True)
                 if not np.isnan(value))
