"""The ends of a stick and its scarf in the views in which their slopes are seen, to scale.

Bow on the left. An end in profile with its cut, and, where it is bevelled, under it from above with
its outer face down; what is sawn off dashed, with the tape's first or last mark. A scarf on the
face that its slope runs over, the outer face down.
"""

from functools import lru_cache

import numpy as np

from sizer.drawing.marks import line
from sizer.drawing.measured import label, measured
from sizer.drawing.record import Drawing, side_by_side
from sizer.drawing.told import in_mm, told
from sizer.shop.stick_marks import bevel_back_m, beyond_m, cut_high_m, scarf_faces
from sizer.shop.stringers import ALLOWANCE_M, bent_thickness_m

TAIL_M = 0.030  # of the stick shown inboard of an end's cut or a scarf; our drawing


@lru_cache(maxsize=256)  # as `stick_card`
def stick_details(stick, letters_m):
    """The Drawing of a Stick's cut ends and its scarf; None where it has none of them."""
    views = [_end(stick, end, sign, letters_m)
             for end, sign in ((stick.forward, 1.0), (stick.after, -1.0))
             if end.cut_deg is not None]
    if stick.joints.middles_m or stick.starboard.middles_m:
        views.insert(1, _scarf(stick, letters_m))
    return side_by_side("details", views, 3.0 * letters_m) if views else None


def _end(stick, end, sign, letters):
    """An end whose mark is at x = 0, the stick running to +x where `sign` is 1."""
    (top, low), back = -beyond_m(stick, end), bevel_back_m(stick, end)
    thick, high = bent_thickness_m(stick.stringer)[0], cut_high_m(stick, end)
    inboard = max(top, low, top + (back or 0.0)) + TAIL_M
    shapes = [_ended((top, high), (low, 0.0), inboard)]
    under = -1.0 * letters
    if back is not None:
        under = -1.5 * letters - thick
        shapes.append(_ended((top + back, under + thick), (top, under), inboard))
    strokes = [line(pen, *(np.array(points) * (sign, 1.0)))
               for shape in shapes for pen, points in shape]
    strokes.append(line("extension", (0.0, high + 1.2 * letters), (0.0, under - letters)))
    if back is not None:
        ends = sorted((sign * top, sign * (top + back)))
        strokes += measured((ends[0], under - 1.2 * letters), (ends[1], under - 1.2 * letters),
                            letters, beside=-1.2)
    tape = "tape 0" if sign > 0.0 else "last mark"
    strokes += [label((0.0, high + 2.0 * letters), tape, letters, "middle"),
                *measured(*sorted(((0.0, high + 3.6 * letters),
                                   (-sign * ALLOWANCE_M, high + 3.6 * letters))), letters,
                          lambda value: told("{} off", in_mm(value)), 1.2)]
    return Drawing("end", tuple(strokes))


def _ended(high, low, inboard):
    """(pen, points) of a stick that ends from one place to another, and of what is sawn off."""
    yield "cut", ((inboard, high[1]), high, low, (inboard, low[1]))
    yield "guide", (high, (-ALLOWANCE_M, high[1]), (-ALLOWANCE_M, low[1]), low)


def _scarf(stick, letters):
    long, thick = stick.joints.scarf_m, min(stick.stringer.width_m, stick.stringer.depth_m)
    left, right = -TAIL_M, long + TAIL_M
    beside = right + 1.2 * letters
    seen, _ = scarf_faces(stick)
    return Drawing("scarf", (
        line("cut", (left, thick), (right, thick)), line("cut", (left, 0.0), (right, 0.0)),
        line("cut", (0.0, thick), (long, 0.0)),
        *measured((0.0, -1.2 * letters), (long, -1.2 * letters), letters, beside=-1.2),
        *measured((beside, 0.0), (beside, thick), letters, beside=-1.2),
        label((0.5 * long, thick + 2.6 * letters), "scarf, seen on", letters, "middle"),
        label((0.5 * long, thick + 1.1 * letters), seen, letters, "middle")))
