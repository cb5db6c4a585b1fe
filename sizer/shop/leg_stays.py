"""The laths that stay the legs of hung frames along the boat: one a leg, port and starboard alike.

Foot and bar hold a pair of legs athwart; along the boat nothing does. So a lath runs from a leg's
inner edge, under the bar, down to the side of the beam, towards the nearer end where that can be:
on the way between leg and hull, whose sticks pass inside of it. Its lower end is searched along the
tape until all of it is clear of the sticks' hull, of every riser, of the posts and of the stems'
laths, as `sizer.shop.stem_stays` searches a place on the stem. Our drawing and our judgement.
"""

from dataclasses import dataclass

import numpy as np
import shapely
from shapely.geometry import Polygon

from sizer.hull.boat import sections_at
from sizer.shop.items import Item
from sizer.shop.risers import LEDGE_SCREW_MM, THICK_M
from sizer.shop.said import both_sides, listed
from sizer.shop.stem_posts import FOOT_LONG_M, STOCK_M
from sizer.shop.stem_stays import BEAM_END_M, BLOCK_M, CLEAR_M, LATH_M, points_along
from sizer.shop.sundries import BEAM_M
from sizer.shop.trade_sizes import screw_text

HULL_CLEAR_M = 0.010  # more from the hull: sticks sweep past before they are in; our judgement
WANTED = 0.7  # of how far it runs along the boat over its height: where the search begins
LEAST = 0.3  # of the same: steeper it holds nothing along the boat; our judgement
MOST = 1.5  # of the same
STEP_M = 0.020  # of the places that are tried
HULL_STEP_M = 0.010  # between sections of the hull that they are compared with
DOWN_SHARE = 0.5  # of the beam's depth, where its lower screw is
SCREWS = 2  # of a lath, one at each end


@dataclass(frozen=True, eq=False)
class LegStay:
    """The pair of one hung frame; heights over the strongback's top, the tape along it."""

    frame: str
    ends_m: np.ndarray  # (2, 3) screws of the lath to starboard: tape, half-breadth, height
    clear: bool  # of hull, risers, posts and stems' laths; else as is wanted, and to be tried

    @property
    def long_m(self):
        """Of a lath, past its screws by half its width."""
        return float(np.linalg.norm(self.ends_m[1] - self.ends_m[0])) + LATH_M[0]


def leg_stays(boat, up, marks, stays):
    """The LegStays of the hung Risers on BenchMarks of a boat on its SettingUp, whose stems have
    these StemStays."""
    hung = [one for one in marks.risers if one.leg_m is not None]
    return tuple(_stay(one, boat, up, marks, stays) for one in hung)


def _stay(riser, boat, up, marks, stays):
    """The lath nearest to the slope that is wanted, towards the nearer end first, that is free."""
    tape = 0.5 * sum(riser.boards_tape_m)
    high = riser.bar_m[0] - 0.5 * LATH_M[0] - CLEAR_M
    nearer = -1.0 if tape < 0.5 * marks.strongback_m else 1.0
    upper = np.array([tape, riser.leg_m - 0.5 * LATH_M[1], high])
    reach = np.arange(LEAST * high, MOST * high, STEP_M)
    reach = reach[np.argsort(np.abs(reach - WANTED * high), kind="stable")]
    lower = [np.array([tape + way * far, 0.5 * BEAM_M[0] + 0.5 * LATH_M[1],
                       -DOWN_SHARE * BEAM_M[1]]) for way in (nearer, -nearer) for far in reach]
    ways = [np.stack([upper, one]) for one in lower
            if BEAM_END_M < one[0] < marks.strongback_m - BEAM_END_M]
    solids = list(_solids(riser, marks, stays))
    hull = _hull(boat, up, tape - MOST * high, tape + MOST * high)
    free = next((one for one in ways if _free(one, solids, hull, stays)), None)
    return LegStay(riser.frame, ways[0] if free is None else free, free is not None)


def _solids(own, marks, stays):
    """(3, 2) spans to starboard of what stands on the beam and is no part of this leg."""
    for riser in marks.risers:
        for span in map(np.asarray, riser.solids_m):
            if riser is not own or span[1, 1] <= own.leg_m:  # its hangers alone: legs, bar and foot
                yield span                                   # are what it holds
    for post in marks.posts:
        yield np.array([post.tape_m, (0.0, 0.5 * STOCK_M + THICK_M), (0.0, post.long_m)])
        yield np.array([post.foot_tape_m, (0.0, 0.5 * FOOT_LONG_M), (0.0, STOCK_M)])
    for one in stays:
        (_, near, high), half = one.ends_m[0], 0.5 * BLOCK_M
        yield np.array([(one.tape_m - half, one.tape_m + half), (0.0, near + 0.5 * THICK_M),
                        (high - half, high + half)])


def _free(ends, solids, hull, stays):
    """Whether a lath between these ends is clear of spans, of the hull and of the StemStays."""
    along = points_along(ends)
    wide = 0.5 * LATH_M[0] + CLEAR_M
    for span in solids:
        away = np.maximum(np.maximum(span[:, 0] - along, along - span[:, 1]), 0.0)
        if np.linalg.norm(away, axis=1).min() < wide:
            return False
    for one in stays:
        off = along[:, None] - points_along(one.ends_m)[None]
        if np.linalg.norm(off, axis=2).min() < LATH_M[0] + CLEAR_M:
            return False
    tapes, sections = hull
    rows = np.clip(np.searchsorted(tapes, along[:, 0] - 0.5 * HULL_STEP_M), 0, len(tapes) - 1)
    off = shapely.distance(sections[rows], shapely.points(along[:, 1:]))
    beyond = (along[:, 0] < tapes[0] - HULL_STEP_M) | (along[:, 0] > tapes[-1] + HULL_STEP_M)
    return off[~beyond].min(initial=np.inf) >= wide + HULL_CLEAR_M


def _hull(boat, up, low_m, high_m):
    """Places on the tape and the boat's sections there, over the strongback, as an array."""
    start = up.strongback_start_x_m
    tapes = np.arange(max(low_m, -start), min(high_m, boat.length_m - start), HULL_STEP_M)
    cut = sections_at(boat, tapes + start)
    rings = np.stack([cut.y_m, cut.z_m + up.baseline_height_m], axis=-1)
    return tapes, np.array([Polygon(np.concatenate([ring, ring[::-1] * (-1.0, 1.0)])).buffer(0.0)
                            for ring in rings])


STAYED = (
    f"Along the boat a lath {both_sides(*LATH_M)} stays each leg, port and starboard: its upper "
    "end flat on the leg's inner edge under the bar, its lower end flat on the beam's side, half "
    f"way down, both bevelled or bent to lie, a screw {screw_text(LEDGE_SCREW_MM)} at each end, "
    "where the table Laths tells; sticks pass inside of it.")


def between_words(stays):
    """How legs are held that find no lath a way to the beam: the hull is in it, or no beam."""
    names = [one.frame for one in stays if not one.clear]
    if not names:
        return ""
    if len(names) == len(stays):
        return (f" NO PLACE FOUND keeps such laths clear at {listed(names)}: hold these legs along "
                "the boat in another way before a frame is hung.")
    return (f" At {listed(names)} none comes to the beam clear of all: there a lath a side, bent "
            "along the legs' outer edges under the bars, goes from leg to leg to those that are "
            "stayed, a screw at each.")


def leg_stay_items(stays):
    own = [one for one in stays if one.clear]
    if own:
        yield Item("strongback", "lath to stay a leg: width, thickness, length", 2 * len(own),
                   "pieces", (*LATH_M, max(round(one.long_m, 3) for one in own)),
                   "straight, to borrow; a pair a hung frame")
    if len(own) < len(stays):
        ends = [stays[row].ends_m[0, 0] for row in (0, -1)]
        yield Item("strongback", "lath from leg to leg: width, thickness",
                   2.0 * float(ends[1] - ends[0]), "m", LATH_M, "to borrow; a run a side")
    if stays:
        screws = 2 * SCREWS * len(stays)
        yield Item("strongback", f"screw {screw_text(LEDGE_SCREW_MM)}", screws, "pieces", (),
                   f"legs' laths: {screws}")
