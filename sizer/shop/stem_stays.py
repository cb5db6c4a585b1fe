"""The laths that stay a stem's head until the sticks hold it: two to a stem, as a V.

A beam is too narrow for a lath to hold anything sideways. So one a side runs from the stem out and
down to the end of the cross foot that lies under the beam's end. Its upper end is screwed to a
block on the stem's face, clear of every stick that comes to lie there, of its lashings and of the
post; chines pass inside it. Our drawing and our judgement throughout.
"""

from dataclasses import dataclass

import numpy as np
from shapely import box, contains_xy, covers, maximum_inscribed_circle, prepare
from shapely.geometry import LineString, Point, Polygon
from shapely.ops import unary_union

from sizer.shop.items import Item
from sizer.shop.lashing import HOLE_M
from sizer.shop.risers import LEDGE_SCREW_MM, THICK_M
from sizer.shop.said import both_sides, marked
from sizer.shop.stem_posts import STOCK_M
from sizer.shop.trade_sizes import screw_text

LATH_M = (0.030, 0.010)  # width and thickness; the wider sides look to bow and stern
BLOCK_M = 0.040  # of a block, square, of the risers' boards
CLEAR_M = 0.004  # of block and lath from sticks and post
BEAM_END_M = 0.020  # least from the beam's end to the cross foot there
LEANS_M = (0.1, 0.15, 0.2)  # of a lath along the boat, tried in order: it is to lie flat
LEANS_IN_M = 0.010  # of a wound stick's edge beside the stem, farther in than it is deep
FOOT_END_M = 0.030  # from a foot's end to the lath's screw
GRID_M = 0.002  # of the places that are tried
PLACES = 61  # along a lath, where it is compared with what is near
STAY_SCREWS = 8  # of a stem: two a block, one at each end of a lath


@dataclass(frozen=True)
class StemStay:
    """The pair of one stem; heights over the strongback's top, the tape along it."""

    stem: str
    inboard_m: float  # of the blocks' middle, from the boat's end
    tape_m: float
    high_m: float
    foot_tape_m: float  # of the face of the cross foot that the laths lie on
    ends_m: np.ndarray  # (2, 3) screws of the lath to starboard: tape, half-breadth, height
    clear: bool  # of every stick and of the post; else the place with most room

    @property
    def long_m(self):
        """Of a lath, past its screws by half its width."""
        return float(np.linalg.norm(self.ends_m[1] - self.ends_m[0])) + LATH_M[0]


def stem_stays(marks, stems, base_m, foot_end_m):
    """The StemStay of each StemPattern on BenchMarks, the baseline so high over the strongback; the
    end (half-breadth, height of its middle) of a cross foot."""
    return tuple(_stay(*one, marks.strongback_m, base_m, foot_end_m)
                 for one in zip(stems, marks.posts, marks.overhangs_m, strict=True))


def _stay(stem, post, reach, beam, base, foot_end):
    """The highest place on the stem that leaves the lath a free way; else that with most room."""
    free = stem.wood.difference(unary_union([
        *(one.band() for one in stem.beside), *map(_over_block, stem.beside),
        *(Point(hole).buffer(0.5 * HOLE_M) for _, hole in stem.holes),
        *([] if stem.ridge_lap is None else
          [LineString(stem.ridge_lap.line_m).buffer(stem.ridge_lap.depth_m)])]))
    half = 0.5 * BLOCK_M + CLEAR_M
    prepare(free)
    room = free.buffer(-half)
    left, low, right, high = room.bounds if not room.is_empty else np.zeros(4)
    grid = np.stack(np.meshgrid(np.arange(high, low, -GRID_M), np.arange(left, right, GRID_M),
                                indexing="ij")[::-1], axis=-1).reshape(-1, 2)
    places = grid[contains_xy(room, *grid.T)]
    places = places[covers(free, box(*(places - half).T, *(places + half).T))]
    post_over = post.strongback_m if stem.end == "bow" else beam - post.strongback_m
    ways = (place for lean in LEANS_M for place in places if place[0] >= reach - lean)
    clear = next((place for place in ways if _free(
        _lath(stem, place, reach, base, foot_end), stem, post_over, post, reach, base)), None)
    x, z = maximum_inscribed_circle(free).coords[0] if clear is None else clear
    ends = _lath(stem, (x, z), reach, base, foot_end)
    face = _foot_m(x - reach)
    if stem.end == "stern":
        ends, face = ends * (-1.0, 1.0, 1.0) + (beam, 0.0, 0.0), beam - face
    tape = x - reach if stem.end == "bow" else beam - (x - reach)
    return StemStay(stem.name, float(x), float(tape), float(z + base), float(face), ends,
                    clear is not None)


def _over_block(beside):
    """A stick from the side, where it is off the stem by less than a block is thick."""
    near = beside.out_m < beside.lay.reach_m + LEANS_IN_M + THICK_M + CLEAR_M
    line = beside.line_m[near]
    low, high = (line + np.column_stack([0.0 * edge, edge])
                 for edge in (beside.low_m[near], beside.high_m[near]))
    return Polygon(np.concatenate([low, high[::-1]])).buffer(0)


def _foot_m(over_m):
    """From the beam's end to the cross foot's outer face, for a block's middle so far from it."""
    return max(BEAM_END_M, over_m + 0.5 * BLOCK_M + LATH_M[1])


def _lath(stem, place, reach, base, foot_end):
    """(2, 3) its two ends: from the beam's end inboard, half-breadth, height."""
    over = place[0] - reach
    half, high = foot_end
    return np.array([
        (over + 0.5 * (BLOCK_M + LATH_M[1]), 0.5 * (stem.thickness_m + THICK_M), place[1] + base),
        (_foot_m(over) - 0.5 * LATH_M[1], half - FOOT_END_M, high)])


def points_along(ends):
    """(PLACES, 3) along a lath between its two ends, (2, 3)."""
    return ends[0] + np.linspace(0.0, 1.0, PLACES)[:, None] * (ends[1] - ends[0])


def _free(ends, stem, post_over, post, reach, base):
    """Whether block and lath are clear of sticks in their places and of the post with its arms."""
    along = points_along(ends)
    wide, thick = (0.5 * one + CLEAR_M for one in LATH_M)
    by_post = ((along[:, 0] > post_over - STOCK_M - thick) & (along[:, 0] < post_over + thick)
               & (along[:, 1] < 0.5 * STOCK_M + THICK_M + wide)
               & (along[:, 2] < post.long_m + wide))
    block = np.abs(ends[0, 0] - 0.5 * (BLOCK_M + LATH_M[1]) - post_over + 0.5 * STOCK_M)
    on_post = (block < 0.5 * (BLOCK_M + STOCK_M) + CLEAR_M
               and ends[0, 2] - 0.5 * BLOCK_M < post.long_m + CLEAR_M)
    return not (by_post.any() or on_post or any(
        np.linalg.norm(along[:, None] - line[None], axis=2).min() < wide
        for one in stem.beside for line in _edges_m(one, stem, reach, base)))


def _edges_m(beside, stem, reach, base):
    """(n, 3) lines along a stick in its place: in its outer face, and at the stem's side or as deep
    as it is, its middle and both its edges; of one that is twisted as far up and down as they may
    reach."""
    lay, outer = beside.lay, np.maximum(beside.out_m, 0.0)
    low, high = lay.edges_m
    if lay.twisted:
        edges = (beside.low_m, 0.5 * (beside.low_m + beside.high_m), beside.high_m)
        lines = [(out, up) for out in (outer, np.maximum(outer - lay.depth_m, 0.0)) for up in edges]
    else:
        ways = [across * lay.across + into * lay.inward
                for across in (low, 0.5 * (low + high), high) for into in (0.0, lay.depth_m)]
        lines = [(np.maximum(beside.out_m + out, 0.0), up) for _, out, up in ways]
    for out, up in lines:
        yield np.column_stack([beside.line_m[:, 0] - reach, out + 0.5 * stem.thickness_m,
                               beside.line_m[:, 1] + up + base])


STAYED = (
    f"Two laths {both_sides(*LATH_M)} stay each stem's head, a V athwart: on either face of the "
    f"stem a block {both_sides(BLOCK_M, BLOCK_M, THICK_M)} of the risers' board, two screws "
    f"{screw_text(LEDGE_SCREW_MM)}, none opposite another; a lath from the block's side that looks "
    "to the boat's middle, bevelled as it leans, down and out to the end of the cross foot under "
    f"the beam's end, on its outer face; a screw {screw_text(LEDGE_SCREW_MM)} at each end.")


IN_THE_WAY = ("NO PLACE FOUND keeps these laths clear of every stick: hold this stem's head fast "
              "in another way before a stick is bent to it. ")


BLOCKS_OFF = (
    "Then take the stems' blocks off both their faces, before the skin is drawn over them: glue a "
    "peg of wood into each screw's hole, as deep as it is, cut it flush, oil where a block lay.")


def stay_words(stay):
    """Where the laths of a StemStay are screwed, as a sentence."""
    return (f"The stem's blocks: middle at {marked(stay.tape_m)} on the tape, "
            f"{marked(stay.high_m)} high, {marked(stay.inboard_m)} from the boat's end. "
            f"{'' if stay.clear else IN_THE_WAY}")


def stay_items(stays):
    yield Item("strongback", "lath to stay a stem: width, thickness, length", 2 * len(stays),
               "pieces", (*LATH_M, max(round(one.long_m, 3) for one in stays)),
               "straight, to borrow; a pair a stem")
    screws = STAY_SCREWS * len(stays)
    yield Item("strongback", f"screw {screw_text(LEDGE_SCREW_MM)}", screws, "pieces", (),
               f"stems' laths and their blocks: {screws}")
