"""What holds each frame in its place and at its height before any stick is there.

Every riser is a pair, port and starboard alike, so that the keel and the chines pass between and
beside. Its faces that look to the frame stand on the station's mark, against the frame's reference
face; a foot across the strongback is screwed behind them. Three kinds:

- forked: two cheeks beside the keel. A ledge on each carries the plywood by its underside.
- posts: the same, as far out as the frame's bottom goes: steadier, with the keel quite free.
- hung: two hangers from a bar over the deck, which two legs outside the boat carry; the frame hangs
  clamped to them with nothing under it. Bar and foot are as long as each other and lie behind
  hangers and legs, which reach to the bar's upper edge.

Where a narrow frame at an end leaves no gap for a cheek that its screws would not split, that frame
is hung.
"""

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.lib.stride_tricks import sliding_window_view

from sizer.errors import BadInput, Fault
from sizer.shop.lashing import HOLE_M

KINDS = ("forked", "posts", "hung")
DEFAULT_KIND = "forked"
THICK_M = 0.021  # of cheeks, ledges and legs, planed board; our drawing
FOOT_M = (0.045, 0.045)  # of foot and bar: along the boat, up; our drawing
# The same where boards and square stock are sold planed to 3/4 and 1 1/2 in, by the names 1 x 3 and
# 2 x 2; common practice, no source
SOLD_THICK_M, SOLD_SQUARE_M = 0.019, 0.038
WIDTHS_M = (0.060, 0.044, 0.030)  # of a cheek or hanger, tried in order: the last leaves a screw
# on its middle line 3.5 times its thickness to each edge; our judgement
LAST_M = (0.020, 0.016)  # of a hanger where nothing wider passes: better than none; our judgement
LEG_M = 0.060  # width of a leg; our drawing
CLEAR_M = 0.005  # beside a stick, to slide it in; our judgement
LAP_M = 0.040  # of a cheek on the plywood, for a clamp; our drawing
LEAST_LAP_M = 0.012  # enough for a clamp's pad; our judgement
HOLE_CLEAR_M = 0.003  # from a cheek to a lashing hole's rim, to pass the cord; our judgement
LEDGE_M = 0.045  # height of a ledge; our drawing
FOOT_BEYOND_M = 0.040  # of a foot past the cheeks, of foot and bar past the legs; our drawing
# Thickness and length of the screws, mm: each goes two thirds or more of its length into what is
# behind, or near through it; our drawing.
CHEEK_SCREW_MM, LEDGE_SCREW_MM, FOOT_SCREW_MM = (4, 50), (4, 35), (5, 80)
POINT_LEFT_MM = 6  # of wood past a screw's point; our judgement
BESIDE_BOAT_M = 0.060  # of a leg from the boat's widest, for hands; our drawing
OVER_DECK_M = 0.080  # of a bar's underside over the frame; our drawing
STEP_M = 0.002  # of places tried


@dataclass(frozen=True)
class Riser:
    """One frame's riser; heights over the strongback's top, half-breadths from the centre line."""

    frame: str
    kind: str  # one of KINDS
    strongback_m: float  # of the faces that touch the frame
    stands: str  # "forward" or "aft" of the mark, away from the plywood
    inner_m: float  # half-breadth of the cheek's or hanger's inner and outer edge
    outer_m: float
    low_m: float  # its lower and upper end
    height_m: float
    ledge_m: tuple[float, float] | None  # plywood's underside at those edges; None where it hangs
    wood_top_m: float  # highest plywood of the frame, beside a notch where the ridge has one
    foot_m: float  # length of the foot across the strongback, and of a bar
    leg_m: float | None  # half-breadth of a leg's inner face, where there are legs
    hides: tuple[str, ...]  # sticks whose lashing holes it covers: tied once it is off
    inside: tuple[str, ...]  # sticks of both sides that its cheeks or legs stand outside of
    keel_height_m: float  # of the moulded keel
    gunwale_height_m: float

    @property
    def wide_m(self):
        return self.outer_m - self.inner_m

    @property
    def long_m(self):
        return self.height_m - self.low_m

    @property
    def boards_tape_m(self):
        """The least and most mark on the tape of cheeks, or of hangers and legs."""
        return behind_m(self.strongback_m, self.away, 0.0, THICK_M)

    @property
    def foot_tape_m(self):
        """The same of its foot, and of a bar over it."""
        return behind_m(self.strongback_m, self.away, THICK_M, THICK_M + FOOT_M[0])

    @property
    def ledge_tape_m(self):
        """The same of its ledges, under the plywood and past it."""
        return behind_m(self.strongback_m, -self.away, 0.0, THICK_M)

    @property
    def solids_m(self):
        """(3, 2) spans of its parts, to starboard or right across: tape, half-breadth, height."""
        across = 0.0, 0.5 * self.foot_m
        yield self.boards_tape_m, (self.inner_m, self.outer_m), (self.low_m, self.height_m)
        yield self.foot_tape_m, across, (0.0, FOOT_M[1])
        if self.ledge_m:
            yield (self.ledge_tape_m, (self.inner_m, self.outer_m),
                   (min(self.ledge_m) - LEDGE_M, max(self.ledge_m)))
        if self.bar_m:
            yield self.foot_tape_m, across, self.bar_m
            yield self.boards_tape_m, (self.leg_m, self.leg_m + LEG_M), (0.0, self.height_m)

    @property
    def away(self):
        """The way along the tape from the mark to its boards, aft positive."""
        return -1.0 if self.stands == "forward" else 1.0

    @property
    def bar_m(self):
        """Lower and upper edge of the bar that it hangs from; None where it stands."""
        return None if self.leg_m is None else (self.height_m - FOOT_M[1], self.height_m)


def behind_m(mark_m, away, near_m, far_m):
    """The least and most mark on the tape of what lies from near to far behind a face on a mark;
    `away` is the way there, aft positive."""
    low, high = sorted((mark_m + away * near_m, mark_m + away * far_m))
    return low, high


def risers(stations, patterns, baseline_m, kind=DEFAULT_KIND):
    """The Riser, of one of KINDS, of every Station and its FramePattern; the baseline stands so
    high over the strongback's top."""
    return tuple(_riser(station, pattern, baseline_m, kind)
                 for station, pattern in zip(stations, patterns, strict=True))


def _riser(station, pattern, baseline, wanted):
    sticks = [_swept_m(pattern, notch) for notch in pattern.section.notches]
    kind, place = wanted, _place(pattern, wanted, sticks)
    if place is None:
        kind, place = "hung", _place(pattern, "hung", sticks)
    if place is None:
        raise BadInput([Fault(f"riser of {pattern.name}", wanted,
                              "a gap between the sticks at this frame that a cheek or hanger "
                              "passes: move the frame or its sticks")])
    skin = pattern.section.skin_m
    if kind == "hung":
        leg = float(skin[:, 0].max()) + BESIDE_BOAT_M
        low = place.end_m + baseline
        top = float(skin[:, 1].max()) + OVER_DECK_M + FOOT_M[1]
        ledge, foot = None, leg + LEG_M
    else:
        low, leg, top, foot = 0.0, None, place.end_m, place.outer_m
        ledge = tuple(edge + baseline for edge in place.edges_m)
    return Riser(station.name, kind, station.strongback_m, station.reference_face, place.inner_m,
                 place.outer_m, low, top + baseline, ledge,
                 float(pattern.wood.bounds[3]) + baseline, 2.0 * (foot + FOOT_BEYOND_M), leg,
                 place.hides, _inside(pattern, place, kind, sticks), station.keel_height_m,
                 station.gunwale_height_m)


@dataclass(frozen=True)
class _Place:
    """Where a cheek or hanger can stand against a frame, over the baseline."""

    inner_m: float
    outer_m: float
    end_m: float  # its end on the plywood: the upper one, or the lower one of a hanger
    edges_m: tuple[float, float]  # the plywood's edge at its inner and outer edge
    hides: tuple[str, ...]


def _place(pattern, kind, sticks):
    """The widest place, lashing holes left free where that can be, then as far in, or for posts as
    far out, as it goes; None where there is none."""
    half = float(pattern.section.skin_m[:, 0].max())
    grid = np.arange(0.0, half, STEP_M)
    spans = _wood_m(pattern, grid, kind == "hung")
    if kind == "hung" and pattern.section.open_top:  # on the side decks, not on the floor
        spans[grid < pattern.section.skin_m[-1, 0]] = np.nan
    order = slice(None, None, -1 if kind == "posts" else 1)
    for hiding in (False, True):
        for wide in (*WIDTHS_M, *(LAST_M if kind == "hung" else ())):
            cells = round(wide / STEP_M)
            for row in np.arange(1, len(grid) - cells)[_laps(spans, cells)][order]:
                found = _tried(pattern, kind, grid, spans, sticks, slice(row, row + cells + 1))
                if found and (hiding or not found.hides):
                    return found
    return None


def _laps(spans, cells):
    """Of each row but the first, whether plywood to lap is there as far as so many cells beyond."""
    room = np.nan_to_num(spans[1:, 1] - spans[1:, 0])
    if len(room) <= cells:
        return np.zeros(0, bool)
    return sliding_window_view(room, cells + 1).min(axis=1) >= LEAST_LAP_M


def _tried(pattern, kind, grid, spans, sticks, rows):
    """The _Place over some rows of the grid that `_laps`, None where a stick or too little wood is
    there."""
    inner, outer = float(grid[rows][0]), float(grid[rows][-1])
    low, high = spans[rows].T
    lap = min(LAP_M, float((high - low).min()))
    hung = kind == "hung"
    near = [stick for stick in sticks if stick[0] < outer + CLEAR_M and stick[1] > inner - CLEAR_M]
    if hung:
        end = max([float(high.min()) - lap, *(stick[3] + CLEAR_M for stick in near
                                              if stick[3] > float(high.min()) - lap)])
        left, edges = float(high.min()) - end, high
    else:
        end = min([float(low.max()) + lap, *(stick[2] - CLEAR_M for stick in near
                                             if stick[2] < float(low.max()) + lap)])
        left, edges = end - float(low.max()), low
    if left < LEAST_LAP_M:
        return None
    return _Place(inner, outer, end, (float(edges[0]), float(edges[-1])),
                  _hidden(pattern, inner, outer, end, hung))


def _inside(pattern, place, kind, sticks):
    """The sticks of both sides that pass within its boards: all where it hangs, else those nearer
    to the middle than its cheeks, and lower than these reach."""
    return tuple(notch.stringer for notch, (_, out, low, _) in zip(
        pattern.section.notches, sticks, strict=True) if not notch.central and (
            kind == "hung" or (out <= place.inner_m and low < place.end_m)))


def _swept_m(pattern, notch):
    """Breadths and heights that a stick takes over the riser's and the plywood's thickness, which
    it crosses at an angle: least and most of each."""
    points = np.concatenate([
        np.asarray(notch.stock_through(share).exterior.coords)
        for share in (-THICK_M / pattern.thickness_m, 0.0, 1.0)])
    (left, low), (right, high) = points.min(axis=0), points.max(axis=0)
    return float(left), float(right), float(low), float(high)


def _hidden(pattern, inner, outer, end, hung):
    """The sticks whose lashing holes a cheek that ends there covers."""
    reach = HOLE_M / 2.0 + HOLE_CLEAR_M
    return tuple(dict.fromkeys(
        name for name, (y, z) in pattern.holes if inner - reach < y < outer + reach
        and (z > end - reach if hung else z < end + reach)))


def _wood_m(pattern, grid, upper):
    """Lower and upper edge (n, 2) of lowest, or highest, plywood at half-breadths; NaN without."""
    rays = shapely.linestrings([[(y, -1.0), (y, 2.0)] for y in grid])
    pieces, rows = shapely.get_parts(shapely.intersection(pattern.wood, rays), return_index=True)
    there = shapely.length(pieces) > 0.0
    edges, rows = shapely.bounds(pieces[there])[:, 1::2], rows[there]
    order = np.argsort(edges[:, 1] if upper else -edges[:, 0])  # the one that is wanted is last
    spans = np.full((len(grid), 2), np.nan)
    spans[rows[order]] = edges[order]
    return spans
