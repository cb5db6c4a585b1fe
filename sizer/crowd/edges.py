"""The edges of who fits a finished boat: the last body on each side and the check that ends it.

Rows are read off the tables first; every edge is then found by the exact checks.
"""

from dataclasses import dataclass

import numpy as np

from sizer.crowd.bodies import crowd_of
from sizer.crowd.finished import Finished, persons_of, title_of, verdict
from sizer.crowd.likely import likely_body, sitting
from sizer.crowd.pool import Stopped
from sizer.crowd.served import judged_in
from sizer.fit.request import Trip
from sizer.paddler.measures import RANGES, Measured
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
class Asked:
    """One boat, use and load, and the exact answer for a body."""

    hull: Finished
    trip: Trip
    stop: object
    unknown: list  # bodies that could not be worked out
    like: Measured | None = None  # whom they are built like; None: as the survey expects

    def body(self, measure, at_m, weight_kg):
        """`likely_body` of those asked about."""
        return likely_body(measure, at_m, weight_kg, self.like)

    def persons(self, measured):
        return persons_of(measured, self.trip)

    def ended_by(self, body, mishaps, clean):
        """Key of the check that ends it for a body, None where none does; "" without a body."""
        if self.stop():
            raise Stopped("stopped while looking who fits; nothing was kept")
        if body is None:
            return ""
        found = verdict(self.hull, self.persons([body])[0], mishaps=mishaps)
        if found.unknown:
            self.unknown.append(body)
        return next(iter(found.faults if clean else found.fails), None)


def planes(asked, measure):
    """The Planes of those served and of those who sit in it without a caution."""
    low, high = RANGES[f"{measure}_mm"]
    places = np.arange(low / MM_PER_M, high / MM_PER_M + 1e-9, ROW_STEP_M[measure])
    least, most = RANGES["weight_kg"]
    weights = np.arange(least, most + WEIGHT_STEP_KG, WEIGHT_STEP_KG)
    own = None
    if asked.like is not None:  # a row of their own, with their own weight in it
        there = sitting(asked.like)
        own = getattr(there, f"{measure}_m"), there.weight_kg
        places, weights = _among(places, own[0]), _among(weights, own[1])
    bodies = {(float(at), float(kg)): asked.body(measure, float(at), float(kg))
              for at in places for kg in weights}
    some = {key: body for key, body in bodies.items() if body is not None}
    crowd = crowd_of(asked.persons(some.values()), asked.hull.boat.design.cockpit.entry)
    found = judged_in(asked.hull, crowd)

    def plane(clean, flags):
        fits = {key for key, one in zip(some, flags, strict=True) if one}
        side = _Side(asked, measure, clean)
        if own is not None and side.ended_by(some.get(own)) is None:
            fits.add(own)  # the tables may have stopped short of it
        return _plane(side, places, weights, fits)

    return plane(False, found.served), plane(True, found.clean)


def _among(values, own):
    """Rising values with one's own among them, in place of one that is all but the same."""
    return np.sort(np.append(values[np.abs(values - own) > NEAR], own))


@dataclass(frozen=True, eq=False)
class _Side:
    """What is asked of the bodies of one plane."""

    asked: Asked
    measure: str
    clean: bool

    def ended_by(self, body, mishaps=True):
        """As `Asked.ended_by`."""
        return self.asked.ended_by(body, mishaps, self.clean)

    def body(self, at_m, weight_kg):
        """As `Asked.body`."""
        return self.asked.body(self.measure, at_m, weight_kg)


def _plane(side, places, weights, fits):
    rows = []
    for at in map(float, places):
        run = _longest_run([(at, float(kg)) in fits for kg in weights])
        row = run and _row(side, at, *(float(weights[index]) for index in run))
        if row:
            rows.append(row)
    return Plane(side.measure, tuple(rows), *(_tip(side, rows, sign) for sign in (-1.0, 1.0)))


def _longest_run(flags):
    """First and last index of the longest run of true flags; None without any."""
    runs, first = [], None
    for index, flag in enumerate([*flags, False]):
        if flag and first is None:
            first = index
        if not flag and first is not None:
            runs.append((first, index - 1))
            first = None
    return max(runs, key=lambda run: run[1] - run[0], default=None)


def _row(side, at_m, first_kg, last_kg):
    """The Row between the exact edges past two weights that fit; None where neither does."""
    middle = 0.5 * (first_kg + last_kg)
    if side.ended_by(side.body(at_m, middle)) is not None:
        return None

    def body(share, end):
        return side.body(at_m, middle + share * (end - middle))

    ends = first_kg - WEIGHT_STEP_KG, last_kg + WEIGHT_STEP_KG
    return Row(at_m, *(_edge(side, lambda share, end=end: body(share, end),
                             (last_kg - first_kg) / 2.0 + WEIGHT_STEP_KG, WEIGHT_STEP_KG)
                       for end in ends))


def _tip(side, rows, sign):
    """The Edge past the first (-1) or last (+1) row, at its middle weight."""
    if not rows:
        return None
    row = rows[-1 if sign > 0 else 0]
    middle = 0.5 * (row.lightest.weight_kg + row.heaviest.weight_kg)
    step = ROW_STEP_M[side.measure]
    return _edge(side, lambda share: side.body(row.at_m + sign * share * step, middle), step, step)


def _edge(side, body_at, span, step):
    """The last body that fits from share 0, which does, to share 1, by halving.

    The halving starts in the last `step` of `span`, where the tables put the edge, and widens to
    where it lies. The mishaps, which cost most, are asked of the edge that the rest has found.
    """
    for mishaps in (False, True):
        inside, outside = 1.0 - step / span, 1.0
        if side.ended_by(body_at(inside), mishaps) is not None:
            inside, outside = 0.0, inside
        while (last := side.ended_by(body_at(outside), mishaps)) is None:
            inside, outside = outside, outside + step / span  # the tables stop on the safe side
        for _ in range(HALVINGS):
            half = 0.5 * (inside + outside)
            found = side.ended_by(body_at(half), mishaps)
            inside, outside, last = ((half, outside, last) if found is None
                                     else (inside, half, found))
        body = body_at(inside)
        if mishaps or side.ended_by(body) is None:
            return Edge(body.weight_kg, body.stature_m, body.hip_width_m, last)
    return None
