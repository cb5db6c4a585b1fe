"""The sticks where they meet a stem piece, seen from its side: distance inboard and height, in m.

The inner face of a chine or gunwale is bevelled to lie flat on the stem's side. So a stick begins
where its moulded line comes out of the stem's side, bears on it until its whole depth lies outside,
and then leaves it. One that is twisted stands upright at the stem's edge and winds evenly to the
nearest frame's notch; what it may cover on the way is told as if it stood upright, or as if it
wound, whichever is more. One that is not leans all the way as it does at that frame, see
`sizer.shop.stem_lay`. The keel is tapered to the stem's thickness at its end, the
ridge to it over the stem's head, where it is lapped: most of its depth is cut away underneath, so
that the head reaches up between the gunwales and they have wood to be lashed to. Inboard of the
head the lap's cut runs down aslant along the stem's inner edge, so that no ridge stands there thin
and without wood under it.
"""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from shapely.geometry import Polygon

from sizer.hull.boat import sections_at
from sizer.shop.notches import frame_section
from sizer.shop.shapes import largest
from sizer.shop.stem_lay import StemLay, stem_lay

STEP_M = 0.001  # between points of the drawn curves: off them by under 0.01 mm
BESIDE_M = 0.30  # of a stick's line inboard of its landing, enough for it to leave the stem
NEEDLE_M = 0.012  # a stick nearer to the stem's side than this covers a hole; our judgement
AHEAD_M = 0.40  # of its landing that a stick is drawn before its end is cut to the stem's edge
FAR_M = 1.0  # inboard of all that a stem holds
EARLY_M = 0.005  # inside the stem's side: an edge of a stick that leans comes out so much earlier
LAP_M = 0.010  # depth left of the ridge over the stem's head; our drawing
LAP_SPARE_M = 0.002  # of the lap past the head and its inner edge, to trim; our judgement
TAIL_M = 0.110  # of the stem on the keel, inboard of its landing; our drawing
CLEAR_OF_FRAME_M = 0.015  # between the tail and the nearest frame; our drawing
TAPER_RATIO = 12.0  # of the keel's taper: length over what comes off each side; our drawing


@dataclass(frozen=True, eq=False)
class Beside:
    """One chine or gunwale beside a stem, seen from the side."""

    stringer: str
    role: str
    lay: StemLay
    line_m: np.ndarray  # (n, 2) moulded line from the landing inboard
    out_m: np.ndarray  # (n,) of that line from the stem's side; negative inside the stem
    low_m: np.ndarray  # (n,) the stick's edges from its line, square to it
    high_m: np.ndarray
    edge_m: np.ndarray  # (n, 2) the stem's outer edge and the keel's line, that its end is cut to

    def bears_m(self):
        """Where, on its moulded line, its inner face comes out of the stem's side, among what its
        lashings are placed by: distance inboard of both ends. Its card tells the bevel's own."""
        ends = np.interp((0.0, self.lay.under_m), self.out_m, self.line_m[:, 0])
        return tuple(ends.tolist())

    def bevel_end_m(self):
        """How far inboard its bevel ends as its card has it, by its run where it lands."""
        return float(self.line_m[0, 0] + self.lay.out_m(0.0, self.lay.depth_m) * self.lay.run[0])

    def held_m(self):
        """(2,) distances inboard between which it lies on the stem whichever way it is reckoned, by
        its line as drawn or by its card's bevel: there a lashing draws it to the stem."""
        start, end = self.bears_m()
        return start, max(start, min(end, self.bevel_end_m()))

    def at(self, inboard_m):
        """The stick's lower and upper edge there, and the unit square to it, upwards, (n, 2)."""
        row = np.clip(np.searchsorted(self.line_m[:, 0], inboard_m), 1, len(self.line_m) - 1)
        along = self.line_m[row] - self.line_m[row - 1]
        along /= np.hypot(*along.T)[:, None]
        up = np.column_stack([-along[:, 1], along[:, 0]])
        spot = np.column_stack([inboard_m, np.interp(inboard_m, *self.line_m.T)])
        low, high = (np.interp(inboard_m, self.line_m[:, 0], edge)[:, None]
                     for edge in (self.low_m, self.high_m))
        return spot + low * up, spot + high * up, up

    def band(self):
        """The stick from the side, from its end cut fair with the stem, until a hole is reached."""
        return self._band

    @cached_property
    def _band(self):
        return largest(self.square_band(AHEAD_M).intersection(self._inside))

    @cached_property
    def _inside(self):
        return inside_of(self.edge_m)

    def bevel_band(self):
        """As much of `band` as lies flat on the stem."""
        return largest(self.band().difference(self.past_bevel()))

    def past_bevel(self):
        """All inboard of the bevel's inner end, that runs on straight: of a twisted stick as aslant
        as the cut one, the stem's edge, so as long on either edge of the stick."""
        low, high = self.line_m[0] + self.lay.inner_seen_m
        on = (high - low) / np.hypot(*(high - low)) * AHEAD_M
        far = np.array([FAR_M, 0.0])
        return Polygon([low - on, high + on, high + on + far, low - on + far])

    def square_band(self, ahead_m=0.0):
        """The same with a square end, so far ahead of where its moulded line lands; without the
        long tip that the cut leaves ahead of there."""
        covers = (self.out_m >= -EARLY_M) & (self.out_m <= self.lay.reach_m + NEEDLE_M)
        line = self.line_m[covers]
        run = np.gradient(line, axis=0)
        up = np.column_stack([-run[:, 1], run[:, 0]]) / np.hypot(*run.T)[:, None]
        ahead = ahead_m * run[0] / np.hypot(*run[0])
        low, high = (np.concatenate([(edge[0] - ahead)[None], edge]) for edge in (
            line + edge[covers, None] * up for edge in (self.low_m, self.high_m)))
        return Polygon(np.concatenate([low, high[::-1]]))


def inside_of(edge_m):
    """All that lies inboard of and over a stem's outer edge (n, 2), from its head to the keel."""
    rake = (edge_m[0] - edge_m[1]) / np.hypot(*(edge_m[0] - edge_m[1]))
    head, (right, low) = edge_m[0] + AHEAD_M * rake, edge_m[-1]
    top = float(head[1]) + AHEAD_M
    return Polygon(np.vstack([head, edge_m, (right + AHEAD_M, low - AHEAD_M),
                              (right + AHEAD_M, top), (head[0], top)])).buffer(0)


@dataclass(frozen=True)
class KeelEnd:
    """The keel's end at a stem's bird's mouth, planed on both sides to the stem's thickness."""

    width_m: float  # before
    end_width_m: float
    taper_m: float  # length; zero where the keel is no wider than the stem
    bevel_deg: float  # of each side, from the keel's edge


@dataclass(frozen=True, eq=False)
class RidgeLap:
    """The ridge's end over a stem's head: its underside cut away, its sides to the stem's."""

    line_m: np.ndarray  # (n, 2) its moulded line from the end, as far inboard as the stem
    depth_m: float  # of the ridge before
    left_m: float  # of its depth over the head
    flat_m: float  # from the ridge's end, over the head; from there aslant to the whole depth
    length_m: float  # from the ridge's end to where it is whole
    width_m: float  # of the ridge before
    end_width_m: float


def inboard_m(boat, end, x_m):
    """Distance from the hull's own end."""
    return x_m if end == "bow" else boat.length_m - x_m


def landing_m(boat, end, name):
    """The same of a stringer's landing on the stem there."""
    return inboard_m(boat, end, float(boat.map(boat.design.stem(end).lands_m[name])))


def tail_m(boat, end):
    """Length of a stem's tail on the keel, inboard of the keel's landing."""
    foot = landing_m(boat, end, boat.lines.lines[0].stringer.name)
    nearest = min(inboard_m(boat, end, float(x)) for x in boat.frame_x_m)
    return min(TAIL_M, nearest - foot - CLEAR_OF_FRAME_M)


def lines_m(boat, end, asked):
    """Of each (column, low_m, high_m) asked, that column of the boat's exact sections: (n, 2) of
    distance inboard, height; (n,) breadth."""
    inboard = [np.linspace(low_m, high_m, max(2, int(np.ceil((high_m - low_m) / STEP_M)) + 1))
               for _, low_m, high_m in asked]
    sections = sections_at(boat, inboard_m(boat, end, np.concatenate(inboard)))
    stops = np.cumsum([len(one) for one in inboard])
    for (column, _, _), there, stop in zip(asked, inboard, stops, strict=True):
        rows = slice(stop - len(there), stop)
        yield (np.column_stack([there, sections.z_m[rows, column]]), sections.y_m[rows, column])


def sticks_beside(boat, end, stem):
    """The chines and gunwales that land on a stem, as Beside, from the keel up."""
    nearest = 0 if end == "bow" else len(boat.frame_x_m) - 1
    frame = inboard_m(boat, end, float(boat.frame_x_m[nearest]))
    foot = landing_m(boat, end, boat.lines.lines[0].stringer.name)
    turns = {notch.stringer: np.arctan2(*notch.along)
             for notch in frame_section(boat, nearest).notches}
    sticks = [(column, line.stringer, landing_m(boat, end, line.stringer.name))
              for column, line in enumerate(boat.lines.between, start=1)
              if line.stringer.name in stem.lands_m]
    (edge, _), *lines = lines_m(boat, end, [(0, 0.0, foot + tail_m(boat, end)), *(
        (column, land, land + BESIDE_M) for column, _, land in sticks)])
    for (_, stick, land), (points, half) in zip(sticks, lines, strict=True):
        lay, out = stem_lay(boat, end, stick.name), half - 0.5 * stem.thickness_m
        if lay.twisted:
            share = np.clip((points[:, 0] - land) / (frame - land), 0.0, 1.0)
            edges = _wound_m(lay, share * turns.get(stick.name, 0.0))
        else:
            edges = _left_m(lay, half)  # its end at its mark, if it lies so far out
        yield Beside(stick.name, stick.role, lay, points, out, *edges, edge)


def _wound_m(lay, lean):
    """Lower and upper edge from the line, upright or leaning out by so much, the farther."""
    corners = np.broadcast_arrays(*(
        across * np.cos(one) + deep * np.sin(one) for one in (0.0, lean) for across in lay.edges_m
        for deep in (0.0, lay.depth_m)))
    return np.minimum.reduce(corners), np.maximum.reduce(corners)


def _left_m(lay, out):
    """The same of one that is not twisted, where its face is so far out of the stem's side: its
    outer face, and of its upper side what the bevel leaves there."""
    (low, high), face, deep = lay.edges_m, lay.across, lay.inward
    left = np.clip((out + high * face[1]) / -deep[1], 0.0, lay.depth_m)
    return (np.full(len(out), low * lay.seen_up(face)),
            high * lay.seen_up(face) + left * max(lay.seen_up(deep), 0.0))


def keel_end(keel, thickness_m, room_m):
    """The KeelEnd of a keel's Stringer on a stem so thick, its taper no longer than the room."""
    off = 0.5 * (keel.width_m - thickness_m)
    if off <= 0.0:
        return KeelEnd(keel.width_m, keel.width_m, 0.0, 0.0)
    taper = min(TAPER_RATIO * off, room_m)
    return KeelEnd(keel.width_m, thickness_m, taper, float(np.degrees(np.arctan2(off, taper))))


def ridge_lap(ridge, thickness_m, head_m, stem_m, line_m):
    """The RidgeLap of a ridge's Stringer over a head that reaches so far inboard, on a stem whose
    inner edge is so far inboard at the underside of the whole ridge."""
    return RidgeLap(line_m, ridge.depth_m, min(LAP_M, ridge.depth_m), head_m + LAP_SPARE_M,
                    max(head_m, stem_m) + LAP_SPARE_M,
                    ridge.width_m, min(ridge.width_m, thickness_m))
