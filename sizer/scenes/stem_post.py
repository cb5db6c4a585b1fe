"""The stems' posts, each from the side and from the boat's middle, and what stays a stem's head,
heights over the strongback."""

from itertools import chain

import numpy as np

from sizer.drawing.marks import OVER, box, line
from sizer.drawing.measured import label, measured
from sizer.drawing.record import Drawing, Path, side_by_side
from sizer.drawing.told import in_mm, told
from sizer.shop.cross_feet import SECTION_M
from sizer.shop.risers import THICK_M
from sizer.shop.stem_posts import ARM_BOARD_M, FOOT_LONG_M, STOCK_M
from sizer.shop.stem_stays import BLOCK_M, LATH_M
from sizer.shop.sundries import BEAM_M


def posts_drawing(posts, letters_m):
    return side_by_side("posts", list(chain.from_iterable(
        (_side(one, letters_m), _front(one, letters_m)) for one in posts)), 3.0 * letters_m)


def stay_drawing(bench, letters):
    """The Drawing of the laths that stay a Bench's bow stem, from ahead, with the cross foot."""
    stay, post, stem = bench.stays[0], bench.marks.posts[0], bench.stems[0]
    foot_long = bench.cross_feet.long_m
    half, beam = 0.5 * stem.thickness_m, 0.5 * BEAM_M[0]
    (_, near, high), (_, out, low) = stay.ends_m
    head = stem.head_m[0][1] + post.head_m - stem.profile_m[0, 1]
    foot = -BEAM_M[1] - SECTION_M[1]
    strokes = [box("cut", -beam, -BEAM_M[1], beam, 0.0),
               box("mark", -0.5 * foot_long, foot, 0.5 * foot_long, -BEAM_M[1]),
               box("cut", -half, post.inner_floor_m, half, head)]
    run = np.array([out - near, low - high]) / np.hypot(out - near, low - high)
    side = 0.5 * LATH_M[0] * np.array([-run[1], run[0]])
    past = 0.5 * LATH_M[0] * run
    upper, lower = np.array([near, high]) - past, np.array([out, low]) + past
    for way in (np.array([1.0, 1.0]), OVER):
        strokes += [Path("here", way * np.array([upper + side, lower + side, lower - side,
                                                 upper - side]), closed=True),
                    Path("mark", way * np.array([(half, high - 0.5 * BLOCK_M),
                                                 (half + THICK_M, high - 0.5 * BLOCK_M),
                                                 (half + THICK_M, high + 0.5 * BLOCK_M),
                                                 (half, high + 0.5 * BLOCK_M)]), closed=True)]
    at = 0.5 * foot_long + 1.5 * letters
    strokes += [line("extension", (near, high), (at, high)),
                line("extension", (beam, 0.0), (at, 0.0)),
                *measured((at, 0.0), (at, high), letters, in_mm, -1.2),
                *measured((0.0, foot - 1.5 * letters), (out, foot - 1.5 * letters), letters,
                          in_mm, -1.2),
                label((0.0, foot - 4.5 * letters), f"{stay.stem}'s laths", letters, "middle")]
    return Drawing("stay", tuple(strokes))


def _side(post, letters):
    mark = post.strongback_m
    (left, right), (fore, aft) = ([one - mark for one in tape]
                                  for tape in (post.tape_m, post.foot_tape_m))
    outer = left if abs(left) > abs(right) else right
    board = [box("mark", left, post.long_m - ARM_BOARD_M, right, post.long_m)] * bool(post.tips)
    away = 1.0 if outer > 0.0 else -1.0
    low = min(left, fore) - 0.02, max(right, aft) + 0.02
    out, inn = (low[1], low[0]) if away > 0.0 else low
    strokes = [box("cut", left, 0.0, right, post.long_m), box("mark", fore, 0.0, aft, STOCK_M),
               line("cut", (low[0], 0.0), (low[1], 0.0)), *board,
               Path("stick", np.array([(0.0, post.inner_floor_m), (outer, post.outer_floor_m)]))]
    for at, high in ((inn, post.inner_floor_m), (out, post.outer_floor_m),
                     (out + away * 2.6 * letters, post.long_m)):
        strokes += measured((at, 0.0), (at, high), letters, in_mm,
                            1.2 if at < 0.5 * outer else -1.2)
    strokes += [line("extension", (0.0, post.inner_floor_m), (inn, post.inner_floor_m)),
                line("extension", (outer, post.outer_floor_m), (out, post.outer_floor_m)),
                line("extension", (outer, post.long_m), (out + away * 2.6 * letters, post.long_m)),
                label((0.5 * outer, post.long_m + 1.2 * letters), f"{post.stem}'s post", letters,
                      "middle"),
                label((0.0, -1.2 * letters), "mark", letters, "middle")]
    return Drawing("side", tuple(strokes))


def _loose(post):
    """The boards of loose arms, from the boat's middle, and where arms are sawn off."""
    top, half = post.long_m, 0.5 * STOCK_M
    for side in (1.0, -1.0):
        yield box("mark", side * half, top - ARM_BOARD_M, side * (half + THICK_M), top)
        yield line("extension", (side * 0.5 * post.slot_m, post.inner_floor_m),
                   (side * half, post.inner_floor_m))


def _front(post, letters):
    half, slot, high = 0.5 * STOCK_M, 0.5 * post.slot_m, post.long_m
    floor = post.inner_floor_m
    outline = np.array([(-half, 0.0), (half, 0.0), (half, high), (slot, high), (slot, floor),
                        (-slot, floor), (-slot, high), (-half, high)])
    strokes = [Path("cut", outline, closed=True),
               box("mark", -0.5 * FOOT_LONG_M, 0.0, 0.5 * FOOT_LONG_M, STOCK_M),
               label((0.0, high + 1.2 * letters), told("slot {}", in_mm(post.slot_m)), letters,
                     "middle")]
    strokes += _loose(post) if post.tips else ()
    strokes += measured((-0.5 * FOOT_LONG_M, -1.2 * letters), (0.5 * FOOT_LONG_M, -1.2 * letters),
                        letters, beside=-1.2)
    return Drawing("front", tuple(strokes))
