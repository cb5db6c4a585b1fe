"""A thigh brace's board from above: its holes, nicks, post and pad, the edges it is lashed at."""

from sizer.drawing.marks import line
from sizer.drawing.measured import label, measured
from sizer.drawing.record import Circle, Drawing, Path
from sizer.drawing.told import size, told
from sizer.shop.lashing import HOLE_M
from sizer.shop.outfit_boards import nicked_m
from sizer.shop.thigh import LONG_M, NICK_M, POST_LONG_M


def thigh_board(one, letters_m):
    """The starboard board of ThighBraces, the bow on the left, outboard up."""
    aft, wide, corner = LONG_M, one.wide_m, float(one.flat_m[2, 1])
    strokes = [Path("block", one.post_flat_m, closed=True),
               Path("cut", nicked_m(one), closed=True),
               Path("hidden-body", one.pad_flat_m, closed=True)]
    strokes += [Circle("drill", hole, 0.5 * HOLE_M) for hole in one.holes_m]
    for nick, hole in zip(one.nicks_m, one.holes_m[:2], strict=True):
        strokes.append(line("here", nick, hole))
    for at, out in one.holes_m[2:]:
        strokes.append(line("here", (at, out), (at, wide)))
    right, low, left, high = aft + 3.2 * letters_m, -letters_m, -letters_m, wide + 2.2 * letters_m
    (after, out), (fore, _) = one.holes_m[2:]
    strokes += measured((aft - POST_LONG_M, low), (aft, low), letters_m, beside=-1.5)
    strokes += measured((0.0, high), (fore, high), letters_m)
    strokes += measured((after, high), (aft, high), letters_m)
    strokes += measured((left, out), (left, wide), letters_m)
    strokes += measured((aft + letters_m, corner), (aft + letters_m, 0.0), letters_m)
    rows = (("edge on the gunwale", wide - 0.4 * letters_m, (aft, wide)),
            (told("holes {}", size(HOLE_M)), wide - 2.2 * letters_m, (after, out)),
            ("post on the edge under", corner + 3.4 * letters_m, one.post_flat_m.mean(axis=0)),
            (told("the wall, nicked {}", size(NICK_M)), corner + 1.8 * letters_m, None))
    for text, up, spot in rows:
        strokes.append(label((right, up), text, letters_m))
        if spot is not None:
            strokes.append(line("extension", spot, (right - 0.4 * letters_m, up)))
    strokes.append(label((letters_m, 0.4 * wide), "BOW", letters_m))
    return Drawing("thigh board", tuple(strokes))
