"""Whom a finished boat serves: every row of the check table for many people at once.

Hundreds of boats and thousands of people make millions of pairs; this reads how each floats off
the boat's tables, measures the room where the seat then stands, and judges both by the rows of
`sizer.fit.checks` and nothing else. What is close to a limit counts as short of it, by the
allowance of each row, so that nobody is taken to be served whom the exact engine would refuse
(tested on hundreds of pairs).
"""

from dataclasses import dataclass, fields, replace

import numpy as np

from sizer.crowd.floating import afloat_with
from sizer.crowd.how_sure import spread_in
from sizer.crowd.mishap_line import mishap_in_each
from sizer.fit.assess import space_in
from sizer.fit.check import CLEAN_ODDS, read_rows
from sizer.fit.checks import PLAIN, ROWS, TOGETHER
from sizer.fit.facts import Facts, shape_of
from sizer.fit.odds import odds_alone
from sizer.hull.boat import with_seat_slid, with_seats
from sizer.rows import joined

# What the tables may be off, SI by key; a row that is not named is exact.
ALLOWANCE = {
    "hips": 0.0003, "thighs": 0.0003, "knees": 0.0005, "feet": 0.0003, "feet-wide": 0.0005,
    "legs": 0.0005, "brace-far": 0.0008, "seat-clear": 0.0003, "seat-bears": 0.005,
    "freeboard": 0.0012, "rim": 0.0005, "lines": 0.0015, "load": 0.00001, "trim": 0.01,
    "gm": 0.0012, "gm-bare": 0.0012, "reserve": 0.3, "range": 2.0, "rim-angle": 0.8,
    "knock": 0.0025, "flooded": 0.006, "swamped-out": 0.006, "wave": 0.0025,
}
# What the boat is, whoever sits in it or swims beside it, and its seat, which a paddler only bends
# or slides a little; all other rows are the paddler's.
OF_THE_BOAT = ("seat-clear", "factor-length", "factor-beam", "factor-depth", "factor-crown",
               "suits", "bend", "side-deck", "frame-gap", "stringer-gap", "swamped-out")
OF_THE_PADDLER = (*(row.key for row in ROWS if row.key not in OF_THE_BOAT), TOGETHER.key)
_SCALE = np.array([[row.scale] for row in ROWS])
_ALLOWED = np.array([[ALLOWANCE.get(row.key, 0.0)] for row in ROWS]) / _SCALE
_THEIRS = np.array([row.key in OF_THE_PADDLER for row in ROWS])
_MISHAP = np.array([row.mishap for row in ROWS])
SURE = 2.0  # allowances inside every limit of a mishap: taken as clear without the exact engine


@dataclass(frozen=True, eq=False)
class Judged:
    """How far inside the limits people are, in just-noticeable changes; negative outside them.

    Arrays are (n_rows, n_people), rows in the order of ROWS; infinite where a row has nothing to
    measure or no such limit.
    """

    to_fail: np.ndarray
    to_caution: np.ndarray
    value: np.ndarray  # SI; NaN where the row has nothing to measure
    window: np.ndarray  # (4, n_rows, n_people)
    sd: np.ndarray  # SI

    @property
    def there(self):
        """bool: the row has something to measure."""
        return ~np.isnan(self.value)

    @property
    def off(self):
        """(n_rows, n_people) to the limit that counts: the one missed, or the nearest."""
        return np.where(self.to_fail < 0.0, self.to_fail, np.where(
            self.to_caution < 0.0, self.to_caution, np.minimum(self.to_fail, self.to_caution)))

    @property
    def hard(self):
        return self.to_fail.min(axis=0)

    @property
    def spare(self):
        """(n_people,) least to a fail or a caution, over the paddler's rows."""
        return np.minimum(self.to_fail, self.to_caution)[_THEIRS[:len(self.to_fail)]].min(axis=0)

    @property
    def served(self):
        """(n_people,) bool: no check fails, the tables' error allowed for."""
        return (self.to_fail >= _ALLOWED[:len(self.to_fail)]).all(axis=0)

    @property
    def clean(self):
        """(n_people,) bool: nor does one of the paddler's caution, nor all limits together: what
        each is missed by, all added up, leaves enough (Boole's inequality)."""
        rows = _THEIRS[:len(self.to_caution)]
        clean = self.served & (self.to_caution >= _ALLOWED[:len(rows)])[rows].all(axis=0)
        missed = 1.0 - odds_alone(self.value[:, clean], self.window[..., clean],
                                  self.sd[:, clean], (_ALLOWED * _SCALE)[:len(rows)])
        clean[clean] = missed.sum(axis=0) <= 1.0 - CLEAN_ODDS
        return clean

    @property
    def mishaps_sure(self):
        """(n_people,) bool: so far inside every limit of a mishap that nothing is left to ask."""
        least = np.minimum(self.to_fail, self.to_caution)[_MISHAP]
        return (least >= SURE * _ALLOWED[_MISHAP]).all(axis=0)


def judged(facts):
    """The Judged of array Facts; the mishaps' rows come last and are left out where unknown."""
    return _judged(PLAIN if facts.mishap is None else ROWS, facts)


def _judged(rows, facts):
    """As `judged`, of some rows alone."""
    value, window = read_rows(rows, facts)
    value = value.reshape(len(rows), -1)
    window = window.reshape(4, *value.shape)
    low, from_, to, high = window
    scale = np.array([[row.scale] for row in rows])
    sd = np.empty(value.shape)
    for index, row in enumerate(rows):
        sd[index] = facts.spread.get(row.key, 0.0)
    with np.errstate(invalid="ignore"):  # minus infinity off an open side
        found = [np.fmin(value - under, over - value) for under, over in ((low, high), (from_, to))]
    nothing = np.isnan(value)
    for inside in found:
        inside /= scale
        inside[nothing] = np.inf
    return Judged(*found, value, window, sd)


def judged_in(hull, crowd):
    """The Judged of a crowd in a finished boat; see `judged_in_each`."""
    return next(judged_in_each((hull,), crowd))


def judged_in_each(hulls, crowd):
    """The Judged of a Crowd of one or more in each of some Finished boats, every row of it, one
    after another. The heeled and swamped boat is worked out for a few of those whom the rest
    serves, and read off between them."""
    every = [facts_in(hull, crowd) for hull in hulls]
    plain = [judged(facts) for facts in every]
    some = [np.flatnonzero(one.served) for one in plain]
    mishaps = mishap_in_each(hulls, crowd, some) if hulls else ()
    for facts, one, mishap in zip(every, plain, mishaps, strict=True):
        heeled = _judged(ROWS[len(PLAIN):], replace(facts, mishap=mishap))
        yield Judged(*(np.concatenate([getattr(each, field.name) for each in (one, heeled)],
                                      axis=-2) for field in fields(Judged)))


def facts_in(hull, crowd):
    """Facts of a crowd in a finished boat, without mishaps; arrays (n,)."""
    boat, use = hull.boat, crowd.persons[0].use
    shift, water = afloat_with(hull, crowd)
    places, of = np.unique(shift, return_inverse=True)  # most seats stay where they are
    seats = with_seat_slid(boat, places)
    space = [space_in(with_seats(seats, of[some]), persons) for some, persons in crowd.lots]
    return Facts(use, crowd.stature_m, crowd.room, joined(space), water, shape_of(boat, use),
                 spread=spread_in(hull, crowd.person))
