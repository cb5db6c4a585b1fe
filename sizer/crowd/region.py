"""Who fits a finished boat: weights against statures and against hip widths.

Twice over: whom no check fails, and who sits in it without a caution. Only seat, footbrace and
padding move. What a row does not fix is what the body survey expects, or off that as it is in the
paddler at hand, who is then among the rows. Rows are read off the tables first; every edge, the
last body on a side and the check that ends it there, is then found by the exact checks, all of one
boat and load side by side: each search yields what it asks and is sent the answer.
"""

from dataclasses import dataclass, replace
from itertools import groupby

import numpy as np

from sizer.crowd.bodies import crowd_of
from sizer.crowd.finished import ANY, Finished, Verdict, persons_of, title_of, verdict, verdicts
from sizer.crowd.likely import likely_body, sitting
from sizer.crowd.served import judged_in
from sizer.fit.request import Trip
from sizer.paddler.measures import RANGES, Measured
from sizer.rows import stacked
from sizer.units import MM_PER_M

WEIGHT_STEP_KG = 2.0
ROW_STEP_M = {"stature": 0.050, "hip_width": 0.020}
NEAR = 0.002  # m or kg: rows and weights that are one
HALVINGS = 7  # of a step: edges to 0.02 kg, 0.4 mm
BODY_ENDS = "no check: the end of the bodies we reckon with"


@dataclass(frozen=True)
class Edge:
    """The last body that fits on one side, and the check that ends it there."""

    weight_kg: float
    stature_m: float
    hip_width_m: float
    key: str  # of that check; "" at the end of the bodies

    @property
    def ended_by(self):
        """Title of that check, or BODY_ENDS."""
        return title_of(self.key) if self.key else BODY_ENDS


@dataclass(frozen=True)
class Row:
    """Who fits at one stature or hip width."""

    at_m: float
    lightest: Edge
    heaviest: Edge


@dataclass(frozen=True)
class Plane:
    """Weight against one measure; rows rise, with none where nobody fits."""

    measure: str  # "stature" or "hip_width"
    rows: tuple[Row, ...]
    least: Edge | None  # past the first row, at its middle weight: shortest or narrowest
    most: Edge | None  # past the last row

    @property
    def outline(self):
        """Closed polygon of (weight_kg, measure in m): up the heavy side, down the light one."""
        heavy = [(row.heaviest.weight_kg, row.at_m) for row in self.rows]
        return (*heavy, *((row.lightest.weight_kg, row.at_m) for row in reversed(self.rows)))


@dataclass(frozen=True, eq=False)
class Region:
    hull: Finished
    trip: Trip
    statures: Plane  # with the gear
    hip_widths: Plane
    statures_without_gear: Plane
    clean_statures: Plane  # those without a caution, with the gear
    clean_hip_widths: Plane
    unknown: int  # bodies tried exactly that could not be worked out
    like: Measured | None = None  # the paddler at hand, whom all are built like
    own: Verdict | None = None  # of that paddler as they are


def extremes(plane):
    """(lightest, heaviest) Edge of all of a plane's rows; (None, None) where nobody fits."""
    if not plane.rows:
        return None, None
    return (min((row.lightest for row in plane.rows), key=lambda edge: edge.weight_kg),
            max((row.heaviest for row in plane.rows), key=lambda edge: edge.weight_kg))


def who_fits(hull, trip, progress=lambda done, of, words: None, like=None):
    """The Region of a Finished boat on a Trip; `progress(done, of, words)` hears how far it is, and
    `like` is the Measured of the paddler at hand, if there is one."""
    found, unknown, gear_kg = {}, [], trip.gear_kg
    jobs = (("stature", gear_kg), ("hip_width", gear_kg), ("stature", 0.0))
    for done, (measure, gear) in enumerate(jobs):
        progress(done, len(jobs), "weights against " + measure.replace("_", " "))
        found[measure, gear] = _planes(_Asked(hull, replace(trip, gear_kg=gear), unknown, like,
                                              measure))
    statures, clean_statures = found["stature", gear_kg]
    hip_widths, clean_hip_widths = found["hip_width", gear_kg]
    own = None if like is None else verdict(hull, *persons_of([like], trip))
    return Region(hull, trip, statures, hip_widths, found["stature", 0.0][0], clean_statures,
                  clean_hip_widths, len(unknown), like, own)


@dataclass(frozen=True, eq=False)
class _Asked:
    """One boat, use, load and measure, and the exact answers for bodies."""

    hull: Finished
    trip: Trip
    unknown: list  # bodies that could not be worked out
    like: Measured | None  # whom they are built like; None: as the survey expects
    measure: str  # of Plane

    def body(self, at_m, weight_kg):
        return likely_body(self.measure, at_m, weight_kg, self.like)

    def ended_by(self, questions):
        """A list of the key of the check that ends it for each (body, whether the mishaps are asked
        too, whether a caution ends it): None where none does, "" without a body."""
        found = iter(self._verdicts([one for one in questions if one[0] is not None]))
        keys = []
        for body, _, clean in questions:
            if body is None:
                keys.append("")
                continue
            told = next(found)
            if told.unknown:
                self.unknown.append(body)
            keys.append(next(iter(told.faults if clean else told.fails), None))
        return keys

    def _verdicts(self, questions):
        """The Verdict for each of some questions about bodies."""
        bodies, heeled = [one[0] for one in questions], [one[1] for one in questions]
        persons = persons_of(bodies, self.trip)
        if len(set(bodies)) < 2:  # no crowd, whose numbers differ
            return [verdict(self.hull, *each) for each in zip(persons, heeled, strict=True)]
        return verdicts(self.hull, stacked(persons), np.array(heeled), [ANY] * len(bodies))[0]

    def together(self, searches):
        """What each of some searches returns, worked out side by side."""
        searches = list(searches)
        found, asking = [None] * len(searches), {}

        def go_on(place, key):
            try:
                asking[place] = searches[place].send(key)
            except StopIteration as ended:
                found[place] = ended.value

        for place in range(len(searches)):
            go_on(place, None)
        while asking:
            places, questions = zip(*asking.items(), strict=True)
            asking.clear()
            for place, key in zip(places, self.ended_by(questions), strict=True):
                go_on(place, key)
        return found


def _planes(asked):
    """The Planes of those served and of those who sit in it without a caution."""
    measure = asked.measure
    low, high = RANGES[f"{measure}_mm"]
    places = np.arange(low / MM_PER_M, high / MM_PER_M + 1e-9, ROW_STEP_M[measure])
    least, most = RANGES["weight_kg"]
    weights = np.arange(least, most + WEIGHT_STEP_KG, WEIGHT_STEP_KG)
    own = None
    if asked.like is not None:  # a row of their own, with their own weight in it
        there = sitting(asked.like)
        own = getattr(there, f"{measure}_m"), there.weight_kg
        places, weights = _among(places, own[0]), _among(weights, own[1])
    bodies = {(float(at), float(kg)): asked.body(float(at), float(kg))
              for at in places for kg in weights}
    some = {key: body for key, body in bodies.items() if body is not None}
    crowd = crowd_of(persons_of(some.values(), asked.trip), asked.hull.boat.design.cockpit.entry)
    found = judged_in(asked.hull, crowd)
    runs = []
    for clean, flags in ((False, found.served), (True, found.clean)):
        fits = {key for key, one in zip(some, flags, strict=True) if one}
        if own is not None and asked.ended_by([(some.get(own), True, clean)]) == [None]:
            fits.add(own)  # the tables may have stopped short of it
        runs.extend(_runs(clean, places, weights, fits))
    rows = _rows(asked, runs)
    tips = asked.together(_tip(asked, clean, rows[clean], sign)
                          for clean in (False, True) for sign in (-1.0, 1.0))
    return tuple(Plane(measure, tuple(rows[clean]), *tips[2 * clean:2 * clean + 2])
                 for clean in (False, True))


def _runs(clean, places, weights, fits):
    """(clean, place, first and last of the weights that fit there) of each place with any."""
    for at in map(float, places):
        run = _longest_run([(at, float(kg)) in fits for kg in weights])
        if run:
            yield clean, at, *(float(weights[index]) for index in run)


def _among(values, own):
    """Rising values with one's own among them, in place of one that is all but the same."""
    return np.sort(np.append(values[np.abs(values - own) > NEAR], own))


def _longest_run(flags):
    """First and last index of the longest run of true flags; None without any."""
    runs = [[*run] for flag, run in groupby(range(len(flags)), flags.__getitem__) if flag]
    return max(((run[0], run[-1]) for run in runs), key=lambda run: run[1] - run[0], default=None)


def _rows(asked, runs):
    """{clean: list of Row} between the exact edges past the weights of each run that fits."""
    fits = asked.ended_by([(asked.body(at, 0.5 * (first + last)), True, clean)
                           for clean, at, first, last in runs])
    runs = [run for run, key in zip(runs, fits, strict=True) if key is None]
    edges = iter(asked.together(_past(asked, run, end) for run in runs
                                for end in (run[2] - WEIGHT_STEP_KG, run[3] + WEIGHT_STEP_KG)))
    rows = {False: [], True: []}
    for (clean, at, *_), lightest, heaviest in zip(runs, edges, edges, strict=True):
        rows[clean].append(Row(at, lightest, heaviest))
    return rows


def _past(asked, run, end_kg):
    """Searches the Edge of a run of weights towards the one past its end."""
    clean, at, first, last = run
    middle = 0.5 * (first + last)
    return _edge(clean, lambda share: asked.body(at, middle + share * (end_kg - middle)),
                 (last - first) / 2.0 + WEIGHT_STEP_KG, WEIGHT_STEP_KG)


def _tip(asked, clean, rows, sign):
    """Searches the Edge past the first (-1) or last (+1) row, at its middle weight."""
    if not rows:
        return None
    row, step = rows[-1 if sign > 0 else 0], ROW_STEP_M[asked.measure]
    middle = 0.5 * (row.lightest.weight_kg + row.heaviest.weight_kg)
    return (yield from _edge(clean, lambda share: asked.body(
        row.at_m + sign * share * step, middle), step, step))


def _edge(clean, body_at, span, step):
    """Searches the last body that fits from share 0, which does, to share 1, by halving.

    The halving starts in the last `step` of `span`, where the tables put the edge, and widens to
    where it lies. The mishaps, which cost most, are asked of the edge that the rest has found.
    """
    for mishaps in (False, True):
        inside, outside = 1.0 - step / span, 1.0
        if (yield body_at(inside), mishaps, clean) is not None:
            inside, outside = 0.0, inside
        while (last := (yield body_at(outside), mishaps, clean)) is None:
            inside, outside = outside, outside + step / span  # the tables stop on the safe side
        for _ in range(HALVINGS):
            half = 0.5 * (inside + outside)
            found = yield body_at(half), mishaps, clean
            inside, outside, last = ((half, outside, last) if found is None
                                     else (inside, half, found))
        body = body_at(inside)
        if mishaps or (yield body, True, clean) is None:
            return Edge(body.weight_kg, body.stature_m, body.hip_width_m, last)
    return None
