"""A thigh brace's board from above: its holes, its nicks and the edges it is lashed at."""

import numpy as np

from sizer.drawing.marks import line
from sizer.drawing.measured import label, measured, mm_text, tenth_text
from sizer.drawing.record import Circle, Drawing, Path
from sizer.shop.lashing import HOLE_M
from sizer.shop.thigh import LONG_M, NICK_M

NICK_HALF_M = 0.002  # half a nick's width as drawn; our drawing


def thigh_board(one, letters_m):
    """The starboard board of ThighBraces, the bow on the left, outboard up."""
    aft, wide = LONG_M, one.wide_m
    strokes = [Path("cut", _outline(one), closed=True)]
    strokes += [Circle("drill", (aft - at, out), 0.5 * HOLE_M) for at, out in one.holes_m]
    for at in one.wall_holes_m:
        strokes.append(line("here", (aft - at, 0.0), (aft - at, one.holes_m[0][1])))
    for at, out in one.holes_m[2:]:
        strokes.append(line("here", (aft - at, out), (aft - at, wide)))
    right, low, left, high = aft + 2.0 * letters_m, -letters_m, -letters_m, wide + letters_m
    first, second = (aft - at for at in one.wall_holes_m)
    edge, out = one.holes_m[0][1], one.holes_m[2][1]
    for start, end in (((second, low), (first, low)), ((first, low), (aft, low))):
        strokes += measured(start, end, letters_m, beside=-1.5)
    strokes += measured((0.0, high), (LONG_M - first, high), letters_m)
    for start, end in ((0.0, edge), (out, wide)):
        strokes += measured((left, start), (left, end), letters_m)
    told = ((f"holes {tenth_text(HOLE_M)} mm", 0.5 * wide), ("at the gunwale", wide - letters_m),
            (f"at the wall, nicked {mm_text(NICK_M)} mm", 0.0))
    strokes += [label((right, up), text, letters_m) for text, up in told]
    return Drawing("thigh board", tuple(strokes))


def _outline(one):
    """Round the board from its fore inner corner, in by a nick at each of the wall's holes."""
    points = [(0.0, 0.0)]
    for at in sorted(LONG_M - at for at in one.wall_holes_m):
        points += [(at - NICK_HALF_M, 0.0), (at - NICK_HALF_M, NICK_M), (at + NICK_HALF_M, NICK_M),
                   (at + NICK_HALF_M, 0.0)]
    return np.array([*points, (LONG_M, 0.0), (LONG_M, one.wide_m), (0.0, one.wide_m)])
