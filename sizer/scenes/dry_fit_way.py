"""How half-breadth and height of a stick are measured in the dry fit, on one frame."""

import numpy as np
from shapely.affinity import scale

from sizer.drawing.marks import OVER, box, line
from sizer.drawing.measured import label, measured
from sizer.drawing.record import Drawing, Path
from sizer.shop.sundries import BEAM_M, LATH_M

BLADE_M = 0.025  # width of a square's blade; our drawing


def way_drawing(station, pattern, letters_m):
    """The Drawing of a Station's frame, its FramePattern, over the beam: the lath on edge across
    it, and a square on that under the lowest stick that is not on the middle, and beside the
    gunwale on the other side."""
    base = station.keel_height_m - float(pattern.section.skin_m[0, 1])
    wood = np.asarray(scale(pattern.wood, pattern.right_sign, origin=(0.0, 0.0)).exterior.coords)
    sticks = [one for one in pattern.section.notches if not one.central]
    under, over = sticks[0].stringer, next(one for one in sticks if one.role == "gunwale").stringer
    (out, up), (far, high) = station.points_m[under], station.points_m[over]
    reach, top = max(out, far) + 0.12, LATH_M[0]
    strokes = [Path("guide", wood[:, :2] + np.array([0.0, base]), closed=True),
               box("cut", -0.5 * BEAM_M[0], -BEAM_M[1], 0.5 * BEAM_M[0], 0.0),
               box("mark", -reach, 0.0, reach, top), line("centre", (0.0, -0.03), (0.0, 0.12))]
    for one in sticks:
        body = np.asarray(one.stock_through(0.0).exterior.coords)[:-1] + np.array([0.0, base])
        strokes += [Path("stick", body * way, closed=True) for way in (1.0, OVER)]
    strokes += [box("here", out - BLADE_M, top, out, up),
                box("here", -far, top, -far - BLADE_M, high)]
    for at, far_at, size_up in ((out, out + 4.0 * letters_m, up),
                                (-far, -far - BLADE_M - 4.0 * letters_m, high)):
        side = 1.0 if at > 0.0 else -1.0
        strokes += [line("extension", (at, size_up), (far_at, size_up)),
                    label((far_at + side * 0.6 * letters_m, 0.5 * size_up), "up", letters_m,
                          "start" if side > 0.0 else "end"),
                    *measured((far_at, 0.0), (far_at, size_up), letters_m, lambda _: "")]
    row = -BEAM_M[1] - 1.5 * letters_m
    for at in (out, -far):
        strokes += [line("extension", (at, 0.0), (at, row)),
                    *measured((0.0, row), (at, row), letters_m, lambda _: "out", -1.2)]
    strokes.append(line("extension", (0.0, -BEAM_M[1]), (0.0, row)))
    return Drawing("dry fit", tuple(strokes))
