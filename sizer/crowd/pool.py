"""The pool of finished boats that a range of sizes is chosen from.

Boats fitted to a spread of the people, each also with a larger opening; then, round by round, the
neighbours of the boats that a quick choice picks: a little longer, wider, deeper, higher in the
deck, with another opening or drawn for other legs. Every boat serves the paddler it is drawn for;
those that do not, and those that could not be worked out, are counted.
"""

from dataclasses import dataclass, replace

import numpy as np

from sizer.crowd.bodies import Crowd
from sizer.crowd.choose import greedy
from sizer.crowd.finished import Finished, all_sure, finished_of_many, own_verdicts, persons_of
from sizer.crowd.served import judged_in_each
from sizer.crowd.spread import spread
from sizer.errors import SizerError, WillNotFloat
from sizer.fit.person import legs_stretch
from sizer.fit.request import Trip
from sizer.fit.solve import fit_many
from sizer.hull.lines import Lines
from sizer.paddler.measures import Measured

AT_ONCE = 20  # of them side by side
DRAWN_FOR = 60  # people whom boats are fitted to
STEPS = (0.04, 0.02, 0.01)  # of a factor, round by round
OPENING_STEP_M = 0.02
ROUNDS_TO = 6  # sizes of the quick choice whose neighbours are tried
ROOMY = 1.0  # just-noticeable changes inside every limit: the third goal
SAME_SHAPE = 4  # digits of a factor or metre by which two boats are one


class Stopped(SizerError):
    """The person asked to stop; nothing half-worked-out is handed on."""


@dataclass(frozen=True, eq=False)
class Candidate:
    """One finished boat, whom it is drawn for, and whom of the crowd it serves."""

    hull: Finished
    drawn: Measured
    hard: np.ndarray  # (n_people,) least margin to a fail, in just-noticeable changes
    spare: np.ndarray  # (n_people,) the same to a fail or a caution of the paddler's
    served: np.ndarray  # (n_people,) bool: no check fails
    clean: np.ndarray  # (n_people,) bool: nor does one of the paddler's caution
    roomy: np.ndarray  # (n_people,) bool: clean, and every check ROOMY inside its limits
    mishaps_sure: np.ndarray  # (n_people,) bool: the heeled and swamped boat need not be asked


@dataclass(frozen=True, eq=False)
class Pool:
    """The boats to choose from, and what could not be had."""

    boats: tuple[Candidate, ...]
    unknown: int  # fits and boats that could not be worked out, which says nothing of them
    refused: int  # fits and boats that do not serve their own paddler


@dataclass(frozen=True, eq=False)
class Setting:
    """What all candidates share."""

    lines: Lines
    crowd: Crowd
    trip: Trip

    def persons(self, measured):
        """Persons of some Measured on this trip."""
        return persons_of(measured, self.trip)


GOALS = ("clean", "served", "roomy")  # the most important first


def goals_of(boats):
    """The goals of `sizer.crowd.choose`, as GOALS: three (n_people, n_boats) bool."""
    return tuple(np.stack([getattr(one, name) for one in boats], axis=1) for name in GOALS)


def pool_of(setting, measured, progress):
    """The Pool of a setting.

    Parameters
    ----------
    setting : Setting
    measured : tuple of Measured, the crowd's
    progress : called as progress(done, of, words)
    """
    gathered = _Gathered(setting)
    drawn = spread(measured, DRAWN_FOR)
    for first in range(0, len(drawn), AT_ONCE):
        some = drawn[first:first + AT_ONCE]
        progress(first, len(drawn), "boats fitted to a spread of the people")
        fitted = zip(some, fit_many(setting.lines, setting.persons(some)), strict=True)
        gathered.add([(scaling, one) for one, found in fitted
                      for scaling in _fitted_scalings(setting, found, gathered)])
    for number, step in enumerate(STEPS):
        boats = gathered.boats
        if not boats:
            break
        goals = goals_of(boats)
        taken = sorted({boat for count in range(1, ROUNDS_TO + 1)
                        for boat in greedy(goals, count)})
        for done, boat in enumerate(taken):
            progress(number * len(taken) + done, len(STEPS) * len(taken),
                     "boats near the best so far")
            gathered.add(list(_neighbours(setting, boats[boat], step, drawn)))
    return Pool(gathered.boats, gathered.unknown, gathered.refused)


class _Gathered:
    """Candidates as they are found, each shape once, and a count of what could not be had."""

    def __init__(self, setting):
        self._setting = setting
        self._found = {}
        self.unknown = self.refused = 0

    @property
    def boats(self):
        """A tuple of Candidate, in the order they were found."""
        return tuple(one for one in self._found.values() if one is not None)

    def add(self, pairs):
        """Adds boats, pairs of a Scaling and whom it is drawn for, each under its shape; None where
        it does not serve its own paddler."""
        new = {}
        for scaling, drawn in pairs:
            shape = tuple(round(value, SAME_SHAPE) for name, value in vars(scaling).items()
                          if name != "seat_shift_m")
            if shape not in self._found:
                new.setdefault(shape, (scaling, drawn))
        new = list(new.items())
        for first in range(0, len(new), AT_ONCE):
            self._add_new(*zip(*new[first:first + AT_ONCE], strict=True))

    def _add_new(self, shapes, pairs):
        scalings, drawn = zip(*pairs, strict=True)
        persons = self._setting.persons(drawn)
        hulls = all_sure(finished_of_many(self._setting.lines, scalings), persons[0])
        own = own_verdicts(hulls, persons)
        for one in own:
            self.count(one.unknown, not one.serves)
        sound = [(hull, body) for hull, body, one in zip(hulls, drawn, own, strict=True)
                 if one.serves]
        candidates = iter(_candidates(self._setting, sound))
        self._found.update((shape, next(candidates) if one.serves else None)
                           for shape, one in zip(shapes, own, strict=True))

    def count(self, unknown, refused=True):
        """One that could not be worked out, or else one that is refused."""
        self.unknown += unknown
        self.refused += refused and not unknown


def _fitted_scalings(setting, found, gathered):
    """The scaling fitted to one body, and the same with the opening as large as anybody needs."""
    if isinstance(found, SizerError):
        gathered.count(not isinstance(found, WillNotFloat))
        return
    scaling = found.assessed.boat.scaling
    yield scaling
    room, limits = setting.crowd.room, setting.lines.design.limits
    for share in (1.0, 0.5):
        sizes = {}
        for name, needed in (("cockpit_length_m", room.opening_length_m),
                             ("cockpit_width_m", room.opening_width_m)):
            own = getattr(scaling, name)
            most = max(own, min(float(needed.max()) + 0.0005, getattr(limits, name)[1]))
            sizes[name] = own + share * (most - own)
        yield replace(scaling, **sizes)


def _neighbours(setting, candidate, step, drawn):
    """Scalings one step from a candidate's, within the base's limits, and whom they are for."""
    scaling, limits = candidate.hull.scaling, setting.lines.design.limits
    for name, reach in (("length", step), ("beam", step), ("depth", step), ("crown", 3.0 * step),
                        ("cockpit_length_m", OPENING_STEP_M), ("cockpit_width_m", OPENING_STEP_M)):
        own, (low, high) = getattr(scaling, name), getattr(limits, name)
        for value in (own - reach, own + reach):
            yield replace(scaling, **{name: float(np.clip(value, low, high))}), candidate.drawn
    bodies = zip(drawn, setting.persons(drawn), strict=True)
    legs = sorted((legs_stretch(setting.lines.design, person.body), index, one)
                  for index, (one, person) in enumerate(bodies))
    for sign in (-1.0, 1.0):  # the next legs a step shorter and longer
        others = [row for row in legs if sign * (row[0] - scaling.legs) >= step]
        if others:
            stretch, _, one = min(others, key=lambda row: abs(row[0] - scaling.legs))
            yield replace(scaling, legs=stretch), one


def _candidates(setting, pairs):
    """A list of the Candidate of each Finished and whom it is drawn for."""
    if not pairs:
        return []
    found = judged_in_each([hull for hull, _ in pairs], setting.crowd)
    return [Candidate(hull, drawn, one.hard, one.spare, one.served, one.clean,
                      one.clean & (one.spare >= ROOMY), one.mishaps_sure)
            for (hull, drawn), one in zip(pairs, found, strict=True)]
