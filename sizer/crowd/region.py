"""Who fits a finished boat: weights against statures and against hip widths, edge by edge.

Only seat, footbrace and padding move. What a row does not fix is what the body survey expects:
hips of that weight and stature, stature of that weight and those hips. Rows are read off the
tables first; every edge is then found by the exact checks.
"""

from dataclasses import dataclass

import numpy as np

from sizer.crowd.finished import Finished, persons_of, verdict
from sizer.crowd.pool import Stopped
from sizer.crowd.served import ALLOWANCE, HARD, crowd_of, margins
from sizer.errors import BadInput
from sizer.hydro.water import Water
from sizer.paddler.body import COVARIANCE, FIELDS, MEAN
from sizer.paddler.measures import RANGES, read_paddler
from sizer.units import MM_PER_M

WEIGHT_STEP_KG = 2.0
ROW_STEP_M = {"stature": 0.050, "hip_width": 0.020}
HALVINGS = 7  # of a step: edges to 0.02 kg, 0.4 mm
BODY_ENDS = "no check: the end of the bodies we reckon with"


@dataclass(frozen=True)
class Edge:
    """The last body that fits on one side, and the check that ends it there."""

    weight_kg: float
    stature_m: float
    hip_width_m: float
    ended_by: str


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
    """Who fits one boat for one use."""

    hull: Finished
    use: str
    water: Water
    gear_kg: float
    statures: Plane  # with the gear
    hip_widths: Plane
    statures_without_gear: Plane


def extremes(plane):
    """(lightest, heaviest) Edge of all of a plane's rows; (None, None) where nobody fits."""
    if not plane.rows:
        return None, None
    return (min((row.lightest for row in plane.rows), key=lambda edge: edge.weight_kg),
            max((row.heaviest for row in plane.rows), key=lambda edge: edge.weight_kg))


def who_fits(hull, base, use_name, water, gear_kg,
             progress=lambda done, of, words: None, stop=lambda: False):
    """The Region of a finished boat.

    Parameters
    ----------
    hull : Finished
    base : shipped name or path of its base
    use_name : key of USES
    water : Water
    gear_kg : float
    progress : called as progress(done, of, words)
    stop : called often; true to give up

    Raises
    ------
    Stopped
    """
    planes = []
    jobs = (("stature", gear_kg), ("hip_width", gear_kg), ("stature", 0.0))
    for done, (measure, gear) in enumerate(jobs):
        progress(done, len(jobs), "weights against " + measure.replace("_", " "))
        planes.append(_plane(_Asked(hull, base, use_name, water, gear, stop), measure))
    return Region(hull, use_name, water, gear_kg, *planes)


@dataclass(frozen=True, eq=False)
class _Asked:
    """One boat, use and load, and the exact answer for a body."""

    hull: Finished
    base: str
    use_name: str
    water: Water
    gear_kg: float
    stop: object

    def persons(self, measured):
        return persons_of(measured, self.base, self.use_name, self.water, self.gear_kg)

    def ended_by(self, body, flood):
        """The check that fails first for a body; "" where none does, BODY_ENDS without a body."""
        if self.stop():
            raise Stopped("stopped while looking who fits; nothing was kept")
        if body is None:
            return BODY_ENDS
        found = verdict(self.hull, self.persons([body])[0], flood=flood)
        return found.fails[0] if found.fails else ""


def likely_body(measure, at_m, weight_kg):
    """The Measured of a weight and a stature or hip width, the third as the survey expects it.

    Mean of the conditional normal of `sizer.paddler.body`. None outside what we take for a body.
    """
    known = [0, FIELDS.index("stature" if measure == "stature" else "hip_sitting")]
    other = FIELDS.index("hip_sitting" if measure == "stature" else "stature")
    off = np.array([weight_kg, at_m]) - MEAN[known]
    expected = float(MEAN[other] + COVARIANCE[other, known]
                     @ np.linalg.solve(COVARIANCE[np.ix_(known, known)], off))
    stature, hips = (at_m, expected) if measure == "stature" else (expected, at_m)
    try:
        return read_paddler({"weight_kg": weight_kg, "stature_mm": stature * MM_PER_M,
                             "hip_width_mm": hips * MM_PER_M})
    except BadInput:
        return None


def _plane(asked, measure):
    low, high = RANGES[f"{measure}_mm"]
    places = np.arange(low / MM_PER_M, high / MM_PER_M + 1e-9, ROW_STEP_M[measure])
    least, most = RANGES["weight_kg"]
    weights = np.arange(least, most + WEIGHT_STEP_KG, WEIGHT_STEP_KG)
    bodies = {(float(at), float(kg)): likely_body(measure, float(at), float(kg))
              for at in places for kg in weights}
    some = {key: body for key, body in bodies.items() if body is not None}
    crowd = crowd_of(asked.persons(some.values()), asked.hull.boat.design.cockpit.entry)
    safe = (margins(asked.hull, crowd) - ALLOWANCE)[:, HARD] >= 0.0
    fits = {key for key, one in zip(some, safe.all(axis=1), strict=True) if one}
    rows = []
    for at in map(float, places):
        run = _longest_run([(at, float(kg)) in fits for kg in weights])
        row = run and _row(asked, measure, at, *(float(weights[index]) for index in run))
        if row:
            rows.append(row)
    return Plane(measure, tuple(rows), *(_tip(asked, measure, rows, sign) for sign in (-1.0, 1.0)))


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


def _row(asked, measure, at_m, first_kg, last_kg):
    """The Row between the exact edges past two weights that fit; None where neither does."""
    middle = 0.5 * (first_kg + last_kg)
    if asked.ended_by(likely_body(measure, at_m, middle), flood=True):
        return None

    def body(share, end):
        return likely_body(measure, at_m, middle + share * (end - middle))

    ends = first_kg - WEIGHT_STEP_KG, last_kg + WEIGHT_STEP_KG
    return Row(at_m, *(_edge(asked, lambda share, end=end: body(share, end),
                             (last_kg - first_kg) / 2.0 + WEIGHT_STEP_KG, WEIGHT_STEP_KG)
                       for end in ends))


def _tip(asked, measure, rows, sign):
    """The Edge past the first (-1) or last (+1) row, at its middle weight."""
    if not rows:
        return None
    row = rows[-1 if sign > 0 else 0]
    middle = 0.5 * (row.lightest.weight_kg + row.heaviest.weight_kg)
    step = ROW_STEP_M[measure]
    return _edge(asked, lambda share: likely_body(measure, row.at_m + sign * share * step, middle),
                 step, step)


def _edge(asked, body_at, span, step):
    """The last body that fits from share 0, which does, to share 1, by halving.

    The halving starts in the last `step` of `span`, where the tables put the edge, and widens to
    where it lies. Flooding, which costs most, is asked of the edge that the rest has found.
    """
    for flood in (False, True):
        inside, outside = 1.0 - step / span, 1.0
        if asked.ended_by(body_at(inside), flood):
            inside, outside = 0.0, inside
        while not (last := asked.ended_by(body_at(outside), flood)):
            inside, outside = outside, outside + step / span  # the tables stop on the safe side
        for _ in range(HALVINGS):
            half = 0.5 * (inside + outside)
            found = asked.ended_by(body_at(half), flood)
            inside, outside, last = (inside, half, found) if found else (half, outside, last)
        body = body_at(inside)
        if flood or not asked.ended_by(body, flood=True):
            return Edge(body.weight_kg, body.stature_m, body.hip_width_m, last)
    return None
