"""Who takes which size: read off the tables first, then worked out by the exact engine."""

from dataclasses import dataclass

import numpy as np
from scipy.optimize import brentq

from sizer.crowd.finished import ANY, CLEAN, MANY_AT_ONCE, SERVING, verdict, verdicts
from sizer.crowd.pool import ROUND_TO, Candidate, Setting
from sizer.errors import BadInput
from sizer.fit.person import legs_stretch
from sizer.paddler.measures import RANGES, Measured, read_paddler
from sizer.rows import one_of
from sizer.units import MM_PER_M

NEAR = 0.5  # just-noticeable changes short on the tables: still worked out exactly


@dataclass(frozen=True, eq=False)
class Placing:
    """What placing a crowd in boats of a pool needs."""

    setting: Setting
    pool: tuple[Candidate, ...]
    known: dict  # (boat, person) to Verdict: what was worked out before, whole
    shared: object  # of `sizer.crowd.crew.crew`, on the setting

    def of(self, boats):
        """Index among `boats` (n_people,) and the Verdict there of everybody.

        Tried in turn: boats that are clean on the tables, most to spare at the tightest check
        first; then those that serve, then those nearly so. The first that is clean exactly is
        taken, else the first that serves exactly; where none does, the verdict is of the boat that
        comes nearest, unless one that could not be worked out might have served.
        """
        clean, served, hard, spare = (
            np.stack([getattr(self.pool[boat], name) for boat in boats], axis=1)
            for name in ("clean", "served", "hard", "spare"))
        order = np.lexsort((-hard, -spare, ~served, ~clean), axis=1)
        people = [_Asked(tuple(int(one) for one in row if hard[person, one] >= -NEAR),
                         spare[person]) for person, row in enumerate(order)]
        while True:
            wanted = [(person, one.next_try()) for person, one in enumerate(people)]
            wanted = [(person, boats[one]) for person, one in wanted if one is not None]
            if not wanted:
                break
            found = self._work_out(wanted, [people[person].least for person, _ in wanted])
            for person, boat in wanted:
                people[person].hear(found[boat, person])
        nearest = hard.argmax(axis=1).tolist()
        left = [(person, boats[nearest[person]]) for person, one in enumerate(people)
                if one.best is None]
        self._work_out(left, [ANY] * len(left))
        found = [one.best or (near, self.known[boats[near], person])
                 for person, (one, near) in enumerate(zip(people, nearest, strict=True))]
        taken, verdicts = zip(*found, strict=True)
        return np.array(taken), verdicts

    def _work_out(self, wanted, least):
        """{(boat, person): Verdict} of some (person, boat), boat by boat; what is whole is known
        from then on. `least` of each as `sizer.crowd.finished.verdicts`."""
        found, by_boat = {}, {}
        for (person, boat), one in zip(wanted, least, strict=True):
            if (boat, person) in self.known:
                found[boat, person] = self.known[boat, person]
            else:
                by_boat.setdefault(boat, []).append((person, one))
        lots = [(boat, np.array(pairs[first:first + MANY_AT_ONCE]).T)
                for boat, pairs in by_boat.items()
                for first in range(0, len(pairs), MANY_AT_ONCE)]
        rows = [(self.pool[boat].hull, some, ~self.pool[boat].mishaps_sure[some], each)
                for boat, (some, each) in lots]
        for (boat, (some, _)), (told, whole) in zip(
                lots, self.shared(_verdicts_in, *zip(*rows, strict=True)) if rows else (),
                strict=True):
            for person, one, sure in zip(some.tolist(), told, whole, strict=True):
                found[boat, person] = one
                if sure:
                    self.known[boat, person] = one
        return found

    def middle_body(self, boat, people):
        """The Measured a boat is drawn for: the middle weight and hips of those who take it.

        Its stature is the one whose legs the boat is stretched for, so that a fit with the boat's
        dimensions held gives this boat again. Where there is no such body, or the boat does not
        serve it, the one it was first fitted to.
        """
        candidate, setting = self.pool[boat], self.setting
        bodies = [setting.crowd.persons[person].body for person in people]
        if not bodies:
            return candidate.drawn
        middle = np.median([[one.weight_kg, one.hip_sitting.value_m] for one in bodies], axis=0)
        weight, hips = np.round(middle / ROUND_TO[::2]) * ROUND_TO[::2]

        def legs_off(stature_m):
            person, = setting.persons([Measured(weight, stature_m, hips)])
            return (legs_stretch(setting.lines.design, person.body)
                    - candidate.hull.scaling.legs)

        low, high = (end / MM_PER_M for end in RANGES["stature_mm"])
        if not legs_off(low) < 0.0 < legs_off(high):
            return candidate.drawn
        stature = brentq(legs_off, low, high, xtol=1e-12)
        try:
            body = read_paddler({"weight_kg": float(weight), "stature_mm": stature * MM_PER_M,
                                 "hip_width_mm": round(hips * MM_PER_M, 6)})
        except BadInput:
            return candidate.drawn
        return body if verdict(candidate.hull, *setting.persons([body])).serves else candidate.drawn


def _verdicts_in(setting, hull, people, heeled, least):
    """As `sizer.crowd.finished.verdicts`, of some of the crowd."""
    return verdicts(hull, one_of(setting.crowd.person, people), heeled, least)


class _Asked:
    """One person's tries, boat after boat: the index of the next one, and the best so far."""

    def __init__(self, tries, spare):
        self._tries, self._spare = list(tries), spare
        self._first = self._unknown = self._clean = None
        self._at = None

    def next_try(self):
        """Index of the boat to try next; None where nothing better is to be had."""
        self._at = None
        while self._tries and self._clean is None and self._at is None:
            one = self._tries.pop(0)
            # one that serves with a caution on the tables is no better than the first that serves
            if self._first is None or self._spare[one] >= -NEAR:
                self._at = one
        return self._at

    def hear(self, verdict):
        here = self._at, verdict
        if verdict.clean:
            self._clean = here
        if verdict.serves and self._first is None:
            self._first = here
        if verdict.unknown and self._unknown is None:
            self._unknown = here

    @property
    def least(self):
        """What a verdict must be to better what has been tried."""
        return SERVING if self._first is None else CLEAN

    @property
    def best(self):
        """(index, Verdict) of the boat to take, or that might have served; None without any."""
        return self._clean or self._first or self._unknown
