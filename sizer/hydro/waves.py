"""Wave drag by Michell's thin-ship integral, from the hull's own sections, in deep water.

With U the speed, k = g / U^2, y(x, z) the half-breadth below the still water z = 0,

    R = 4 rho g^2 / (pi U^2) int_1^inf |S(l)|^2 l^2 / sqrt(l^2 - 1) dl
    S(l) = int int dy/dx exp(k l^2 z + i k l x) dx dz

By parts in x, S = -i k l int F(x, k l^2) exp(i k l x) dx, less F exp at a flat end, where
F(x, q) = int y exp(q z) dz. F is exact for the straight edges of each section, and depends on the
speed only through q: one table in ln q serves every speed. Between sections F runs straight, and
its product with the oscillating factor is integrated exactly. l = 1 + s^2 takes the root out.

Pointed ends are assumed: behind a flat one the integral still stands, but water does not.

Source: J. H. Michell, The wave resistance of a ship, Philosophical Magazine 45, 1898; the form
above is the common one (from memory), checked in the tests against tabled values.
"""

import math
from dataclasses import dataclass

import numpy as np

from sizer.compiled import compiled
from sizer.hydro.immersion import up_vectors
from sizer.units import STANDARD_GRAVITY_MPS2

# Set so that doing more moves the wave drag by less than 0.1 % (tested); the whole allowance is
# 0.5 %.
END_PARTS = 16  # of the cell in which an end of the waterline lies
TERMS_PER_FOLD = 2.5  # of the table, for each factor e in q
GAUSS_POINTS = 16  # to a panel of the integral over l
PANEL_PHASE = 25.0  # radians of bow-to-stern phase to a panel
LEAST_PANELS = 3
TAIL_RATIO = 7.0  # the integral ends where l^2 is this squared and q the draft this squared
_POINTS, _WEIGHTS = np.polynomial.legendre.leggauss(GAUSS_POINTS)
SAME_STEP_M = 1e-12  # steps between stations no further apart than this are one
SAME_PLACE_M = 1e-6  # stations nearer than this to the one before add nothing
SMALL = 0.02  # q times an edge's height under which a series takes over


@dataclass(frozen=True, eq=False)
class UnderWater:
    """The starboard half of a hull under its still water, as the straight edges of its stations.

    x runs aft along the water, z up from it; edge ends are cut off at the surface.
    """

    x_m: np.ndarray  # (n,) rising, from end to end of the waterline
    y_m: np.ndarray  # (n, n_edges, 2)
    z_m: np.ndarray  # (n, n_edges, 2), none above 0

    @property
    def length_m(self):
        """Waterline from end to end."""
        return float(self.x_m[-1] - self.x_m[0])

    @property
    def draft_m(self):
        """Deepest point."""
        return -float(self.z_m.min())


def under_water(sections, sinkage_m, trim_deg):
    """What of an upright hull lies under water, cut square to the water's surface.

    Parameters
    ----------
    sections : Sections
    sinkage_m : water above the baseline at half the hull's length
    trim_deg : positive, stern deeper

    Returns
    -------
    UnderWater
    """
    aft, _, upward = up_vectors(0.0, trim_deg)
    level = upward * sinkage_m + aft * sections.mid_x_m
    x = sections.x_m[:, None]
    along = upward * x - aft * sections.z_m
    height = aft * x + upward * sections.z_m - level
    square = (sections.x_m - aft * level) / upward  # where each section meets the surface

    def at(places):
        columns = range(along.shape[1])
        return tuple(np.stack([np.interp(places, along[:, j], value[:, j]) for j in columns], 1)
                     for value in (sections.y_m, height))

    places = _between_ends(square, -at(square)[1].min(axis=1))
    places = places[np.diff(places, prepend=-np.inf) > SAME_PLACE_M]
    return UnderWater(places, *_cut(*at(places)))


def _between_ends(x, depth):
    """Places of the wet stations, both ends of the waterline, and a few more beside those."""
    wet = np.flatnonzero(depth > 0.0)
    first, last = wet[0], wet[-1]
    places = x[first : last + 1]
    if first > 0:
        share = depth[first] / (depth[first] - depth[first - 1])
        end = x[first] - share * (x[first] - x[first - 1])
        places = np.concatenate([np.linspace(end, x[first], END_PARTS + 1)[:-1], places])
    if last < x.size - 1:
        share = depth[last] / (depth[last] - depth[last + 1])
        end = x[last] + share * (x[last + 1] - x[last])
        places = np.concatenate([places, np.linspace(x[last], end, END_PARTS + 1)[1:]])
    return places


def _cut(y, height):
    """Edges of each station below the surface; one wholly above it has no height left."""
    low, high = height[:, :-1], height[:, 1:]
    crosses = (low < 0.0) != (high < 0.0)
    share = np.where(crosses, low, 0.0) / np.where(crosses, low - high, 1.0)
    cut = y[:, :-1] + share * (y[:, 1:] - y[:, :-1])
    ends = np.stack([np.where(low < 0.0, y[:, :-1], cut), np.where(high < 0.0, y[:, 1:], cut)], -1)
    return ends, np.minimum(np.stack([low, high], -1), 0.0)


def sources_m2(hull, decay_1pm):
    """F = int y exp(q z) dz of each station, exact on straight edges.

    Parameters
    ----------
    hull : UnderWater
    decay_1pm : (m,) q

    Returns
    -------
    (m, n_stations)
    """
    q = np.asarray(decay_1pm, float)[:, None, None]
    start, turn = hull.y_m[..., 0], hull.y_m[..., 1] - hull.y_m[..., 0]
    rise = hull.z_m[..., 1] - hull.z_m[..., 0]
    step = q * rise
    low, high = np.exp(q * hull.z_m[..., 0]), np.exp(q * hull.z_m[..., 1])
    small = np.abs(step) < SMALL
    safe = np.where(small, 1.0, step)
    mean = np.where(small, low * (1.0 + step * (0.5 + step * (1.0 / 6.0 + step / 24.0))),
                    (high - low) / safe)
    first = np.where(small, low * (0.5 + step * (1.0 / 3.0 + step * (0.125 + step / 30.0))),
                     (high - mean) / safe)
    return np.sum(rise * (start * mean + turn * first), axis=-1)


def wave_drag_N(hull, water, speeds_mps):
    """Michell's wave drag at each speed, N. Equations and source in the module's text.

    Parameters
    ----------
    hull : UnderWater
    water : Water
    speeds_mps : (n,) each above 0

    Returns
    -------
    (n,)
    """
    k = STANDARD_GRAVITY_MPS2 / np.asarray(speeds_mps, float) ** 2
    nodes = [_nodes(one, hull) for one in k]
    series = _series(hull, k.min(), max(one * across[-1] ** 2 for one, (across, _) in
                                        zip(k, nodes, strict=True)))
    integrals = [np.sum(weight * across**2 * _power_m6(hull, series, one * across, across))
                 for one, (across, weight) in zip(k, nodes, strict=True)]
    return (4.0 * water.density_kgpm3 * STANDARD_GRAVITY_MPS2 / np.pi) * k * np.array(integrals)


def _nodes(k, hull):
    """Nodes l, rising, and weights of int ... dl / sqrt(l^2 - 1), for one speed.

    Panels are equal in l, so equal in phase. |S|^2 l^2 falls as l^-5 once q = k l^2 is large
    against one over the draft, so the tail is cut where both l and the root of q T are.
    """
    last = TAIL_RATIO * np.sqrt(1.0 + 1.0 / (k * hull.draft_m))
    panels = max(LEAST_PANELS, int(np.ceil(k * hull.length_m * (last - 1.0) / PANEL_PHASE)))
    edges = np.sqrt(np.linspace(0.0, last - 1.0, panels + 1))
    half = 0.5 * np.diff(edges)[:, None]
    s = (edges[:-1, None] + half * (1.0 + _POINTS)).ravel()
    return 1.0 + s**2, 2.0 * (half * _WEIGHTS).ravel() / np.sqrt(s**2 + 2.0)


@dataclass(frozen=True, eq=False)
class _Series:
    """(1 + q T) F as a Chebyshev series in ln q: what every speed shares."""

    low: float  # ln q
    high: float
    kinks: np.ndarray  # (n_terms, n) change of slope along x at each station
    ends: np.ndarray  # (n_terms, 2) value at bow and stern


def _series(hull, least_q, most_q):
    low, high = np.log(least_q), np.log(most_q)
    terms = 8 + int(TERMS_PER_FOLD * (high - low))
    angle = np.pi * (np.arange(terms) + 0.5) / terms
    q = np.exp(0.5 * (low + high) + 0.5 * (high - low) * np.cos(angle))
    table = sources_m2(hull, q) * (1.0 + q * hull.draft_m)[:, None]
    series = 2.0 / terms * np.cos(np.arange(terms)[:, None] * angle) @ table
    series[0] *= 0.5
    slopes = np.diff(series, axis=1) / np.diff(hull.x_m)
    kinks = np.diff(slopes, axis=1, prepend=0.0, append=0.0)
    return _Series(low, high, kinks, series[:, [0, -1]])


def _power_m6(hull, series, number_1pm, across):
    """|S|^2 at each wave number k l along x, with its l. Returns (n,)."""
    q = number_1pm * across
    place = (2.0 * np.log(q) - series.low - series.high) / (series.high - series.low)
    basis = np.polynomial.chebyshev.chebvander(np.clip(place, -1.0, 1.0), series.kinks.shape[0] - 1)
    basis /= (1.0 + q * hull.draft_m)[:, None]
    kinks = basis @ series.kinks
    bow, stern = (basis @ series.ends).T
    sums = np.empty((2, q.size))
    compiled(_swing)(kinks, number_1pm, np.diff(hull.x_m), sums)
    phase = number_1pm * hull.length_m
    # int F exp(i k l x) dx = -sum(kink exp) / (k l)^2 + [F exp] / (i k l), x from the bow
    real = sums[1] / number_1pm + stern * np.cos(phase) - bow
    imaginary = sums[0] / number_1pm - stern * np.sin(phase)
    return real**2 + imaginary**2


def _swing(kinks, number_1pm, steps_m, sums):
    """Puts each row's sum of kink cos(k l x) and of kink sin(k l x) into `sums`, (2, n).

    Stations stand evenly but for a few, so the angle is turned on from one to the next by the same
    sine and cosine, which cost more than the turn does.
    """
    for row in range(number_1pm.size):
        cosine, sine = 1.0, 0.0
        even, odd = kinks[row, 0], 0.0
        step, along, across = 0.0, 1.0, 0.0
        for j in range(steps_m.size):
            if abs(steps_m[j] - step) > SAME_STEP_M:
                step = steps_m[j]
                along, across = math.cos(number_1pm[row] * step), math.sin(number_1pm[row] * step)
            cosine, sine = cosine * along - sine * across, sine * along + cosine * across
            even += kinks[row, j + 1] * cosine
            odd += kinks[row, j + 1] * sine
        sums[0, row], sums[1, row] = even, odd
