"""The stems' posts, each from the side and from the boat's middle, heights over the strongback."""

from itertools import chain

import numpy as np

from sizer.drawing.marks import box, line
from sizer.drawing.measured import label, measured
from sizer.drawing.record import Drawing, Path, side_by_side
from sizer.drawing.told import in_mm, told
from sizer.shop.stem_posts import FOOT_LONG_M, STOCK_M


def posts_drawing(posts, letters_m):
    """The Drawing of some StemPosts, the bow on the left."""
    return side_by_side("posts", list(chain.from_iterable(
        (_side(one, letters_m), _front(one, letters_m)) for one in posts)), 3.0 * letters_m)


def _side(post, letters):
    mark = post.strongback_m
    (left, right), (fore, aft) = ([one - mark for one in tape]
                                  for tape in (post.tape_m, post.foot_tape_m))
    outer = left if abs(left) > abs(right) else right
    away = 1.0 if outer > 0.0 else -1.0
    low = min(left, fore) - 0.02, max(right, aft) + 0.02
    out, inn = (low[1], low[0]) if away > 0.0 else low
    strokes = [box("cut", left, 0.0, right, post.long_m), box("mark", fore, 0.0, aft, STOCK_M),
               line("cut", (low[0], 0.0), (low[1], 0.0)),
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


def _front(post, letters):
    half, slot, high = 0.5 * STOCK_M, 0.5 * post.slot_m, post.long_m
    floor = post.inner_floor_m
    outline = np.array([(-half, 0.0), (half, 0.0), (half, high), (slot, high), (slot, floor),
                        (-slot, floor), (-slot, high), (-half, high)])
    strokes = [Path("cut", outline, closed=True),
               box("mark", -0.5 * FOOT_LONG_M, 0.0, 0.5 * FOOT_LONG_M, STOCK_M),
               label((0.0, high + 1.2 * letters), told("slot {}", in_mm(post.slot_m)), letters,
                     "middle")]
    strokes += measured((-0.5 * FOOT_LONG_M, -1.2 * letters), (0.5 * FOOT_LONG_M, -1.2 * letters),
                        letters, beside=-1.2)
    return Drawing("front", tuple(strokes))
