"""The pool of finished boats that a range of sizes is chosen from.

Boats fitted to a spread of the people, each also with a larger opening; then, round by round, the
neighbours of the boats that a quick choice picks: a little longer, wider, deeper, higher in the
deck, with another opening or drawn for other legs. Every boat serves the paddler it is drawn for.
"""

from dataclasses import dataclass, replace

import numpy as np

from sizer.crowd.choose import greedy
from sizer.crowd.finished import (
    Finished,
    finished,
    flooded_margin_mm,
    persons_of,
    verdict,
)
from sizer.crowd.served import ALLOWANCE, BAND, HARD, SCALE, Crowd, margins
from sizer.errors import SizerError
from sizer.fit.assess import assess
from sizer.fit.person import legs_stretch
from sizer.fit.solve import fit
from sizer.hull.lines import Lines
from sizer.hydro.water import Water
from sizer.paddler.measures import Measured

DRAWN_FOR = 60  # people whom boats are fitted to
STEPS = (0.04, 0.02, 0.01)  # of a factor, round by round
OPENING_STEP_M = 0.02
ROUNDS_TO = 6  # sizes of the quick choice whose neighbours are tried
ROOMY = 1.0  # just-noticeable changes inside every limit: the third goal
FLOOD_SPARE_MM = 20.0  # flooded rim: with less, more people are worked out one by one
FLOOD_PEOPLE = 5
SAME_SHAPE = 4  # digits of a factor or metre by which two boats are one
ROUND_TO = (1.0, 0.010, 0.005)  # kg, stature, hips: a boat is drawn for a round body, nobody's own


class Stopped(SizerError):
    """The person asked to stop; nothing half-worked-out is handed on."""


@dataclass(frozen=True, eq=False)
class Candidate:
    """One finished boat, whom it is drawn for, and whom of the crowd it serves."""

    hull: Finished
    drawn: Measured
    hard: np.ndarray  # (n_people,) least margin of the hard checks, in just-noticeable changes
    spare: np.ndarray  # (n_people,) the same over all checks
    served: np.ndarray  # (n_people,) bool: no hard check fails
    clean: np.ndarray  # (n_people,) bool: nor cautions
    roomy: np.ndarray  # (n_people,) bool: every check ROOMY inside its limit
    all_flood_clear: bool  # even the heaviest keeps FLOOD_SPARE_MM


@dataclass(frozen=True, eq=False)
class Setting:
    """What all candidates share."""

    lines: Lines
    base: str  # shipped name or path
    crowd: Crowd
    use: str
    water: Water
    gear_kg: float

    def persons(self, measured):
        """Persons of some Measured for this use, water and gear."""
        return persons_of(measured, self.base, self.use, self.water, self.gear_kg)


def goals_of(pool):
    """The goals of `sizer.crowd.choose`, most important first: three (n_people, n_boats) bool."""
    return tuple(np.stack([getattr(one, name) for one in pool], axis=1)
                 for name in ("served", "clean", "roomy"))


def pool_of(setting, measured, progress, stop):
    """A tuple of Candidate.

    Parameters
    ----------
    setting : Setting
    measured : tuple of Measured, the crowd's
    progress : called as progress(done, of, words)
    stop : called often; true to give up

    Raises
    ------
    Stopped
    """
    found = {}
    drawn = spread(measured, DRAWN_FOR)
    for done, one in enumerate(drawn):
        progress(done, len(drawn), "boats fitted to a spread of the people")
        for scaling in _fitted_scalings(setting, one):
            _add(found, setting, scaling, one, stop)
    for number, step in enumerate(STEPS):
        pool = tuple(one for one in found.values() if one is not None)
        if not pool:
            return ()
        goals = goals_of(pool)
        taken = sorted({boat for count in range(1, ROUNDS_TO + 1)
                        for boat in greedy(goals, count)})
        for done, boat in enumerate(taken):
            progress(number * len(taken) + done, len(STEPS) * len(taken),
                     "boats near the best so far")
            for scaling, one in _neighbours(setting, pool[boat], step, drawn):
                _add(found, setting, scaling, one, stop)
    return tuple(one for one in found.values() if one is not None)


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


def _fitted_scalings(setting, one):
    """The scaling fitted to one body, and the same with the opening as large as anybody needs."""
    person, = setting.persons([one])
    try:
        scaling = fit(setting.lines, person).assessed.boat.scaling
    except SizerError:
        return
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


def _add(found, setting, scaling, one, stop):
    """Adds a candidate under its shape, or None where the boat does not serve its own paddler."""
    if stop():
        raise Stopped("stopped before the range was chosen; nothing was kept")
    shape = tuple(round(value, SAME_SHAPE) for name, value in vars(scaling).items()
                  if name != "seat_shift_m")
    if shape not in found:
        found[shape] = _candidate(setting, finished(setting.lines, scaling), one)


def _candidate(setting, hull, one):
    person, = setting.persons([one])
    if not verdict(hull, person).serves:
        return None
    each = margins(hull, setting.crowd)
    safe = each - ALLOWANCE
    served = (safe[:, HARD] >= 0.0).all(axis=1)
    clear = _flood_clear(hull, setting.crowd, served)
    served &= clear
    spare = each / SCALE
    return Candidate(hull, one, spare[:, HARD].min(axis=1), spare.min(axis=1), served,
                     served & (safe >= BAND).all(axis=1),
                     served & (spare.min(axis=1) >= ROOMY), bool(clear.all()))


def _flood_clear(hull, crowd, served):
    """(n_people,) bool: the flooded rim stays clear with float bags.

    The heavier the paddler, the lower it lies: where the heaviest of those otherwise served keeps
    FLOOD_SPARE_MM, all do. Otherwise a few over the weights are worked out, and who lies between
    is clear where the line between them keeps FLOOD_SPARE_MM.
    """
    some = np.flatnonzero(served)
    if not some.size:
        return np.ones_like(served)
    order = some[np.argsort(crowd.weight_kg[some], kind="stable")]

    def margin_mm(index):
        return flooded_margin_mm(assess(hull.lines, hull.scaling, crowd.persons[index],
                                        hull.boat.sections.x_m.size))

    if margin_mm(order[-1]) >= FLOOD_SPARE_MM:
        return np.ones_like(served)
    places = order[np.unique(np.linspace(0, order.size - 1, FLOOD_PEOPLE).astype(int))]
    line = np.interp(crowd.weight_kg, crowd.weight_kg[places], [margin_mm(i) for i in places])
    return line >= FLOOD_SPARE_MM
