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
from sizer.errors import SizerError, WillNotFloat
from sizer.fit.person import legs_stretch
from sizer.fit.request import Trip
from sizer.fit.solve import fit_many
from sizer.hull.lines import Lines
from sizer.paddler.measures import Measured

AT_ONCE = 15  # of them side by side
DRAWN_FOR = 60  # people whom boats are fitted to
STEPS = (0.04, 0.02, 0.01)  # of a factor, round by round
OPENING_STEP_M = 0.02
ROUNDS_TO = 6  # sizes of the quick choice whose neighbours are tried
ROOMY = 1.0  # just-noticeable changes inside every limit: the third goal
SAME_SHAPE = 4  # digits of a factor or metre by which two boats are one
ROUND_TO = (1.0, 0.010, 0.005)  # kg, stature, hips: a boat is drawn for a round body, nobody's own


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
        return persons_of(measured, self.trip)


GOALS = ("clean", "served", "roomy")  # the most important first


def goals_of(boats):
    """The goals of `sizer.crowd.choose`, as GOALS: three (n_people, n_boats) bool."""
    return tuple(np.stack([getattr(one, name) for one in boats], axis=1) for name in GOALS)


def pool_of(setting, measured, progress, shared):
    """The Pool of a Setting whose crowd was `measured` so; `progress(done, of, words)` hears how
    far it is, `shared` is of `sizer.crowd.crew.crew`, on the setting."""
    gathered, drawn = _Gathered(setting, shared), spread(measured, DRAWN_FOR)
    lots = _lots(drawn)
    fitted = [tuple(zip(*each, strict=True)) for each in zip(lots, _telling(
        shared(_fitted, lots), len(lots), lambda done, _: progress(
            done * AT_ONCE, len(drawn), "boats fitted to a spread of the people")), strict=True)]
    gathered.add([[(scaling, one) for one, found in some
                   for scaling in _fitted_scalings(setting, found, gathered)] for some in fitted],
                 lambda done, of: progress(done, of, "lots of those boats with everybody in them"))
    for number, step in enumerate(STEPS):
        boats = gathered.boats
        if not boats:
            break
        goals = goals_of(boats)
        taken = sorted({boat for count in range(1, ROUNDS_TO + 1)
                        for boat in greedy(goals, count)})

        def told(done, of, number=number):
            progress(number * of + done, len(STEPS) * of, "boats near the best so far")

        gathered.add([list(_neighbours(setting, boats[boat], step, drawn)) for boat in taken], told)
    return Pool(gathered.boats, gathered.unknown, gathered.refused)


def spread(measured, count):
    """Round bodies spread over a crowd: each the farthest from those before, by ranks."""
    raw = np.array([[one.weight_kg, one.stature_m, one.hip_width_m] for one in measured])
    ranks = np.argsort(np.argsort(raw, axis=0, kind="stable"), axis=0) / max(len(raw) - 1, 1)
    taken = [int(np.argmin(((ranks - 0.5) ** 2).sum(axis=1)))]
    away = ((ranks - ranks[taken[0]]) ** 2).sum(axis=1)
    while len(taken) < min(count, len(raw)):
        taken.append(int(np.argmax(away)))
        away = np.minimum(away, ((ranks - ranks[taken[-1]]) ** 2).sum(axis=1))
    rounded = np.round(raw[taken] / ROUND_TO) * ROUND_TO
    return tuple(Measured(*(round(float(value), 3) for value in row))
                 for row in dict.fromkeys(map(tuple, rounded.tolist())))


def _telling(results, of, tell):
    """Results as they come, tell(done, of) called before each is waited for."""
    results = iter(results)
    for done in range(of):
        tell(done, of)
        yield next(results)


def _lots(several):
    """Of so many as are worked out side by side."""
    return [several[first:first + AT_ONCE] for first in range(0, len(several), AT_ONCE)]


def _fitted(setting, drawn):
    """The Scaling fitted to each of some bodies, or the error why there is none."""
    return [one if isinstance(one, SizerError) else one.assessed.boat.scaling
            for one in fit_many(setting.lines, setting.persons(drawn))]


def _tried(setting, scalings, drawn):
    """Of each boat whether its own paddler could not be worked out, its ByWeight, and whom of the
    crowd it serves, by field of Candidate; None where it does not serve its own paddler."""
    persons = setting.persons(drawn)
    hulls = all_sure(finished_of_many(setting.lines, scalings), persons[0])
    own = own_verdicts(hulls, persons)
    found = judged_in_each([hull for hull, one in zip(hulls, own, strict=True) if one.serves],
                           setting.crowd)
    return [(one.unknown, hull.by_weight, _whom(next(found)) if one.serves else None)
            for hull, one in zip(hulls, own, strict=True)]


def _whom(judged):
    clean, spare = judged.clean, judged.spare
    return {"hard": judged.hard, "spare": spare, "served": judged.served,
            "clean": clean, "roomy": clean & (spare >= ROOMY),
            "mishaps_sure": judged.mishaps_sure}


class _Gathered:
    """Candidates as they are found, each shape once, and a count of what could not be had."""

    def __init__(self, setting, shared):
        self._setting, self._shared = setting, shared
        self._found = {}
        self.unknown = self.refused = 0

    @property
    def boats(self):
        """A tuple of Candidate, in the order they were found."""
        return tuple(one for one in self._found.values() if one is not None)

    def add(self, groups, told):
        """Adds groups of boats, pairs of a Scaling and whom it is drawn for, each under its shape;
        None where it does not serve its own paddler. told(done, of) hears of the lots."""
        lots = [lot for pairs in groups for lot in _lots(self._new(pairs))]
        if not lots:
            return
        columns = [[list(column) for column in zip(*lot, strict=True)] for lot in lots]
        shapes, scalings, drawn = zip(*columns, strict=True)
        tried = _telling(self._shared(_tried, scalings, drawn), len(lots), told)
        for each in zip(shapes, scalings, drawn, tried, strict=True):
            self._keep(*each)

    def _new(self, pairs):
        """(shape, Scaling, drawn) of those whose shape there was none of; their places are kept."""
        new = []
        for scaling, drawn in pairs:
            shape = tuple(round(value, SAME_SHAPE) for name, value in vars(scaling).items()
                          if name != "seat_shift_m")
            if shape not in self._found:
                self._found[shape] = None
                new.append((shape, scaling, drawn))
        return new

    def _keep(self, shapes, scalings, drawn, found):
        hulls = finished_of_many(self._setting.lines, scalings)
        for shape, hull, body, (unknown, by_weight, whom) in zip(
                shapes, hulls, drawn, found, strict=True):
            self.count(unknown, whom is None)
            self._found[shape] = whom and Candidate(
                replace(hull, by_weight=by_weight), body, **whom)

    def count(self, unknown, refused=True):
        """One that could not be worked out, or else one that is refused."""
        self.unknown += unknown
        self.refused += refused and not unknown


def _fitted_scalings(setting, found, gathered):
    """The Scaling fitted to one body, and the same with the opening as large as anybody needs."""
    if isinstance(found, SizerError):
        gathered.count(not isinstance(found, WillNotFloat))
        return
    yield found
    room, limits = setting.crowd.room, setting.lines.design.limits
    for share in (1.0, 0.5):
        sizes = {}
        for name, needed in (("cockpit_length_m", room.opening_length_m),
                             ("cockpit_width_m", room.opening_width_m)):
            own = getattr(found, name)
            most = max(own, min(float(needed.max()) + 0.0005, getattr(limits, name)[1]))
            sizes[name] = own + share * (most - own)
        yield replace(found, **sizes)


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
