"""Where a stem piece is bored for its lashings: beside the sticks, never under them.

- A chine pair is tied through two holes, one over and one under the sticks, where their bevels lie
  on the stem: farther inboard a lashing would lever their feather tips off it.
- The keel is tied round the tail through a hole over it; where a chine lies in the way, the hole
  goes over the chine and the lashing takes both.
- The gunwales are tied through holes under them and over the ridge's lap, which they hold down: on
  their bevels where the head has room for a hole there, else as near to them as it has.
"""

from dataclasses import dataclass
from itertools import islice, product

import numpy as np
import shapely
from shapely.geometry import LineString
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
OPEN_M = 0.001  # between stick and stem, under a cord that levers nothing; our judgement
OVER_KEEL_M = np.arange(0.010, 0.075, 0.002)  # middle of a hole over the keel, tried in order
AT_ONCE = 8  # lots of holes looked at together
STOPS = (64, 512)  # of the lots, as a rule among the first


@dataclass(frozen=True)
class StemLashing:
    """One lashing of a stem: all its sticks, both sides, in one tie."""

    sticks: tuple[str, ...]
    holes: tuple[tuple[float, float], ...]  # middles: distance inboard, height


def stem_lashings(wood, beside, keel, tail_m, ridge):
    """The StemLashings of a stem, from the keel up; fewer where the wood, a polygon, has no room.
    Its Besides come from the keel up; `tail_m` is (n, 2), the keel's moulded line under the tail,
    from the mouth inboard; `ridge` the Stringer on the head, or None."""
    bands = {one.stringer: one.band() for one in beside}
    free = wood.buffer(-(EDGE_M + HOLE_M / 2.0)).difference(
        unary_union(list(bands.values())).buffer(CLEAR_M + HOLE_M / 2.0))
    shapely.prepare(free)
    made = []

    def tied(holes, sticks):
        """The row of the first lot of holes that does, of a new lashing of `sticks(row)`."""
        row = _first(holes, free, wood.boundary, made)
        if row is not None:
            made.append(StemLashing(sticks(row), tuple(map(tuple, holes[row].tolist()))))
        return row

    for shares in ON_TAIL:
        feet, holes = _round_keel(keel, tail_m, shares)
        cords = shapely.linestrings(np.stack([feet, holes[:, 0]], axis=1))
        tied(holes, lambda row, cords=cords: (keel.name, *(
            name for name, band in bands.items() if cords[row].intersects(band))))
    for one in beside:
        if one.role == "gunwale":
            sticks, holes = (one.stringer, *([ridge.name] if ridge else [])), _under_gunwale(one)
            row = tied(holes, lambda _, sticks=sticks: sticks)
            if row is not None:
                apart = np.abs(holes[:, 0, 0] - holes[row, 0, 0]) >= HOLES_APART_M
                tied(holes[apart], lambda _, sticks=sticks: sticks)
        else:
            tied(_round_chine(one), lambda _, one=one: (one.stringer,))
    return tuple(made)


def bevels_passed(stems):
    """(StemLashing, ((stick, how far open it is from the stem there, in m), ...)) of each of some
    StemPatterns whose cord crosses a chine or gunwale farther inboard than its bevel reaches: it
    would bend that stick into what is open there."""
    for stem in stems:
        for lashing in stem.lashings:
            past = [(one.stringer, open_m(one, lashing)) for one in stem.beside
                    if one.stringer in lashing.sticks]
            passed = tuple((stick, by) for stick, by in past if by > OPEN_M)
            if passed:
                yield lashing, passed


def open_m(one, lashing):
    """How far open it is between a Beside and the stem where a StemLashing's cord crosses it past
    its bevel."""
    hole, other = lashing.holes[0], np.add(lashing.holes[0], (0.0, UPRIGHT_M * (
        1.0 if one.role == "gunwale" else -1.0)))
    cord = LineString([hole, lashing.holes[-1] if len(lashing.holes) > 1 else other])
    return float(one.lay.opens * _past_m(cord.intersection(one.band()), one.past_bevel()))


def _past_m(crossings, beyond):
    """How far each of some lines over a stick reaches into what is beyond its bevel, at most."""
    spots, row = shapely.get_coordinates(crossings, return_index=True)
    shapely.prepare(beyond)
    inside = shapely.contains_xy(beyond, spots)
    far = np.zeros(np.size(crossings))
    np.maximum.at(far, row[inside], shapely.distance(
        beyond.exterior, shapely.points(spots[inside])))
    return far.reshape(np.shape(crossings))


def _first(holes, free, edge, made):
    """The row of the first of some lots of holes, (n, k, 2), that lie in free wood, apart from
    those made, with ample wood to the piece's edge, else of that with the most; None if none does.
    """
    taken = np.reshape([hole for other in made for hole in other.holes], (-1, 2))
    fitting = _fitting(holes, free, taken)
    rows, left = [], np.empty(0)
    while some := list(islice(fitting, AT_ONCE)):  # the first few are ample as a rule
        rows += some
        left = np.append(left, shapely.distance(edge, shapely.points(holes[some])).min(axis=1)
                         - HOLE_M / 2.0)
        ample = left >= AMPLE_EDGE_M
        if ample.any():
            return rows[np.argmax(ample)]
    return rows[np.argmax(left)] if (left > 0.0).any() else None


def _fitting(holes, free, taken):
    """The rows of the lots of holes that lie in free wood, apart from those taken, (n, 2)."""
    for lot in np.split(np.arange(len(holes)), STOPS):
        apart = np.linalg.norm(holes[lot][:, :, None] - taken, axis=-1) >= HOLES_APART_M
        inside = shapely.contains_xy(free, holes[lot, :, 0], holes[lot, :, 1])
        yield from lot[inside.all(axis=1) & apart.all(axis=(1, 2))].tolist()


def _round_keel(keel, tail_m, shares):
    """(n, 2) of the keel's line, and (n, 1, 2) a hole over each."""
    rows = [int(share * (len(tail_m) - 1)) for share in shares]
    feet = np.repeat(tail_m[rows], len(OVER_KEEL_M), axis=0)
    over = np.tile(OVER_KEEL_M, len(rows))
    return feet, np.column_stack([feet[:, 0], feet[:, 1] + keel.depth_m + over])[:, None]


def _round_chine(one):
    """(n, 2, 2) a hole under a Beside and one over it, on its bevel before past it."""
    start, end = one.held_m()
    low, high, up = one.at(np.array([*(start + share * (end - start) for share in ALONG),
                                     *np.linspace(end, one.bears_m()[1], BEYOND)]))
    past = _past_m(shapely.linestrings(np.stack([low, high], axis=1)), one.past_bevel())
    past = one.lay.opens * past > OPEN_M
    order = np.repeat(np.argsort(past, kind="stable"), len(OFF_M) ** 2)
    above, below = np.tile(np.array([*product(OFF_M, OFF_M)]), (len(past), 1)).T[..., None]
    return np.stack([low[order] - below * up[order], high[order] + above * up[order]], axis=1)


def _under_gunwale(one):
    """(n, 1, 2) a hole under a Beside."""
    start, end = one.held_m()
    low, _, up = one.at(start + np.repeat(ON_HEAD, len(OFF_M)) * (end - start))
    return (low - np.tile(OFF_M, len(ON_HEAD))[:, None] * up)[:, None]
