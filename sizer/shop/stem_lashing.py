"""Where a stem piece is bored for its lashings: beside the sticks, never under them.

- A chine pair is tied through two holes, one over and one under the sticks, where their bevels lie
  on the stem: farther inboard a lashing would lever their feather tips off it.
- The keel is tied round the tail through a hole over it; where a chine lies in the way, the hole
  goes over the chine and the lashing takes both.
- The gunwales are tied through holes under them and over the ridge's lap, which they hold down: on
  their bevels where the head has room for a hole there, else as near to them as it has.
"""

from dataclasses import dataclass
from itertools import product
from math import dist

import numpy as np
from shapely import contains_xy, prepare
from shapely.geometry import LineString, Point
from shapely.ops import unary_union

from sizer.shop.lashing import AMPLE_EDGE_M, EDGE_M, HOLE_M, HOLES_APART_M

CLEAR_M = 0.004  # least from a hole's rim to a stick; our judgement
OFF_M = (0.008, 0.010, 0.012, 0.015, 0.018)  # middle of a hole from a stick's edge, tried in order
ALONG = (0.5, 0.6, 0.4, 0.7, 0.3, 0.8, 0.2, 0.9, 0.1, 1.0)  # of where a stick is held, in order
BEYOND = 21  # places beyond, as far as its line bears, where the wood has no room before
ON_TAIL = ((0.75, 0.85, 0.65, 0.9, 0.55), (0.3, 0.4, 0.2, 0.5, 0.1))  # of the tail, each in order
# Of the gunwale's bevel, in order, then the nearest past it that the head has room for
ON_HEAD = (1.0, 0.8, 0.6, 0.4, 0.2, *np.arange(1.1, 6.0, 0.1).tolist())
UPRIGHT_M = 0.3  # from the one hole of a lashing past all that its cord goes round
PAST_M = 0.003  # of a hole past a bevel's end that levers nothing; our judgement
OVER_KEEL_M = np.arange(0.010, 0.075, 0.002)  # middle of a hole over the keel, tried in order


@dataclass(frozen=True)
class StemLashing:
    """One lashing of a stem: all its sticks, both sides, in one tie."""

    sticks: tuple[str, ...]
    holes: tuple[tuple[float, float], ...]  # middles: distance inboard, height


def stem_lashings(wood, beside, keel, tail_m, ridge):
    """The StemLashings of a stem, from the keel up; fewer where the wood has no room.

    Parameters
    ----------
    wood : polygon of the piece
    beside : list of Beside, from the keel up
    keel : its Stringer
    tail_m : (n, 2) the keel's moulded line under the tail, from the mouth inboard
    ridge : Stringer on the head, or None
    """
    bands = {one.stringer: one.band() for one in beside}
    free = wood.buffer(-(EDGE_M + HOLE_M / 2.0)).difference(
        unary_union(list(bands.values())).buffer(CLEAR_M + HOLE_M / 2.0))
    prepare(free)
    edge, made = wood.boundary, []
    for shares in ON_TAIL:
        made += _first(_round_keel(keel, tail_m, bands, shares), free, edge, made)
    for one in beside:
        if one.role == "gunwale":
            first = _first(_under_gunwale(one, ridge), free, edge, made)
            made += first
            made += _first((other for other in _under_gunwale(one, ridge) if first and abs(
                other.holes[0][0] - first[0].holes[0][0]) >= HOLES_APART_M), free, edge, made)
        else:
            made += _first(_round_chine(one), free, edge, made)
    return tuple(made)


def bevels_passed(stems):
    """(StemLashing, its sticks) of each of some StemPatterns whose cord crosses a chine or gunwale
    farther inboard than its bevel reaches: it would bend that stick into what is open there."""
    for stem in stems:
        for lashing in stem.lashings:
            passed = [one.stringer for one in stem.beside
                      if one.stringer in lashing.sticks and past_m(one, lashing) > PAST_M]
            if passed:
                yield lashing, passed


def past_m(one, lashing):
    """How far inboard of the bevel of a Beside, square to its end, the cord of a StemLashing
    crosses it, at most."""
    hole, other = lashing.holes[0], np.add(lashing.holes[0], (0.0, UPRIGHT_M * (
        1.0 if one.role == "gunwale" else -1.0)))
    cord = LineString([hole, lashing.holes[-1] if len(lashing.holes) > 1 else other])
    return _past_m(cord.intersection(one.band()), one.past_bevel())


def _past_m(crossing, beyond):
    """How far a line over a stick reaches into all that is beyond its bevel, at most."""
    crossed = crossing.intersection(beyond)
    return max((beyond.exterior.distance(Point(spot)) for spot in crossed.coords), default=0.0)


def _first(wanted, free, edge, made):
    """The first of the lashings whose holes lie in free wood, apart from those made, with ample
    wood to the piece's edge, else that with the most; or none."""
    taken = [hole for other in made for hole in other.holes]
    best, most = [], 0.0
    for one in wanted:
        if contains_xy(free, one.holes).all() and all(
                dist(hole, other) >= HOLES_APART_M
                for hole in one.holes for other in taken):
            left = min(edge.distance(Point(hole)) for hole in one.holes) - HOLE_M / 2.0
            if left >= AMPLE_EDGE_M:
                return [one]
            if left > most:
                best, most = [one], left
    return best


def _round_keel(keel, tail_m, bands, shares):
    for share, over in product(shares, OVER_KEEL_M):
        inboard, low = tail_m[int(share * (len(tail_m) - 1))]
        hole = (float(inboard), float(low + keel.depth_m + over))
        cord = LineString([(inboard, low), hole])
        yield StemLashing((keel.name, *(name for name, band in bands.items()
                                        if cord.intersects(band))), (hole,))


def _round_chine(one):
    start, end = one.held_m()
    places = [*(start + share * (end - start) for share in ALONG),
              *np.linspace(end, one.bears_m()[1], BEYOND)]
    beyond = one.past_bevel()
    places.sort(key=lambda place: _past_m(LineString(one.at(place)[:2]), beyond) > PAST_M)
    for place in places:
        low, high, up = one.at(place)
        for above, below in product(OFF_M, OFF_M):
            yield StemLashing((one.stringer,), (tuple((low - below * up).tolist()),
                                                tuple((high + above * up).tolist())))


def _under_gunwale(one, ridge):
    start, end = one.held_m()
    for share, below in product(ON_HEAD, OFF_M):
        low, _, up = one.at(start + share * (end - start))
        yield StemLashing((one.stringer, *([ridge.name] if ridge else [])),
                          (tuple((low - below * up).tolist()),))
