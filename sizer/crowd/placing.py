"""Who takes which size: read off the tables first, then worked out by the exact engine."""

from dataclasses import dataclass

import numpy as np
from scipy.optimize import brentq

from sizer.crowd.finished import verdict
from sizer.crowd.pool import Candidate, Setting
from sizer.crowd.spread import ROUND_TO
from sizer.errors import BadInput
from sizer.fit.person import legs_stretch
from sizer.paddler.measures import RANGES, Measured, read_paddler
from sizer.units import MM_PER_M

NEAR = 0.5  # just-noticeable changes short on the tables: still worked out exactly


@dataclass(frozen=True, eq=False)
class Placing:
    """What placing a crowd in boats of a pool needs."""

    setting: Setting
    pool: tuple[Candidate, ...]
    known: dict  # (boat, person) to Verdict: what was worked out before

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
        found = []
        for person in range(len(order)):
            tries = [int(one) for one in order[person] if hard[person, one] >= -NEAR]
            found.append(self._best(boats, person, tries, spare[person],
                                    int(np.argmax(hard[person]))))
        taken, verdicts = zip(*found, strict=True)
        return np.array(taken), verdicts

    def _best(self, boats, person, tries, spare, nearest):
        """Index among `boats` and Verdict of the boat one person takes, or comes nearest to."""
        first = unknown = None
        for one in tries:
            if first is not None and spare[one] < -NEAR:
                continue  # serves, but not without a caution: no better than the first
            here = self._verdict(boats[one], person)
            if here.clean:
                return one, here
            if here.serves and first is None:
                first = one, here
            if here.unknown and unknown is None:
                unknown = one, here
        return first or unknown or (nearest, self._verdict(boats[nearest], person))

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

    def _verdict(self, boat, person):
        if (boat, person) not in self.known:
            candidate = self.pool[boat]
            self.known[boat, person] = verdict(
                candidate.hull, self.setting.crowd.persons[person],
                mishaps=not candidate.mishaps_sure[person])
        return self.known[boat, person]
