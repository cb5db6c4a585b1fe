"""Every frame on its riser, seen on its reference face, heights over the strongback's top."""

import numpy as np
from shapely.affinity import scale

from sizer.drawing.marks import box, line
from sizer.drawing.record import Drawing, Path, Text, joined, side_by_side
from sizer.shop.risers import FOOT_M, LEDGE_M, LEG_M
from sizer.units import MM_PER_M

IN_A_ROW = 6


def risers_drawing(bench, baseline_m, letters_m):
    """The Drawing of a Bench's risers, in rows from the bow.

    Parameters
    ----------
    bench : Bench
    baseline_m : height of the baseline over the strongback's top
    letters_m : height of the letters in the boat's metres
    """
    views = [_view(riser, pattern, baseline_m, letters_m)
             for riser, pattern in zip(bench.marks.risers, bench.frames, strict=True)]
    rows, low = [], 0.0
    for start in range(0, len(views), IN_A_ROW):
        row = side_by_side("row", views[start:start + IN_A_ROW], 2.0 * letters_m)
        low -= row.height_m + letters_m
        rows.append(row.moved((0.0, low)))
    return joined("risers", rows)


def _view(riser, pattern, baseline, letters):
    wood = np.asarray(scale(pattern.wood, pattern.right_sign, origin=(0.0, 0.0)).exterior.coords)
    strokes = [Path("guide", wood[:-1, :2] + (0.0, baseline), closed=True)]
    half = 0.5 * riser.foot_m
    strokes += [box("mark", -half, 0.0, half, FOOT_M[1]), line("cut", (-half, 0.0), (half, 0.0))]
    for side in (1.0, -1.0):
        inner, outer = side * riser.inner_m, side * riser.outer_m
        strokes.append(box("cut", inner, riser.low_m, outer, riser.height_m))
        if riser.ledge_m:
            (near, far), low = riser.ledge_m, min(riser.ledge_m) - LEDGE_M
            strokes.append(Path("mark", np.array([(inner, low), (outer, low), (outer, far),
                                                  (inner, near)]), closed=True))
        else:
            leg = side * riser.leg_m
            strokes.append(box("cut", leg, 0.0, leg + side * LEG_M, riser.height_m))
    if riser.leg_m is not None:
        strokes.append(box("mark", -half, riser.height_m, half, riser.height_m + FOOT_M[1]))
    told = (f"{riser.frame}: {riser.kind}", f"top {riser.height_m * MM_PER_M:.0f}",
            f"{riser.inner_m * MM_PER_M:.0f} to {riser.outer_m * MM_PER_M:.0f} out")
    strokes += [Text("text", (0.0, -1.5 * letters * (row + 1)), letters, text)
                for row, text in enumerate(told)]
    return Drawing(riser.frame, tuple(strokes))
