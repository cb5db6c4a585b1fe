"""The backband with its ties, from above and from the side, bow on the left."""

import numpy as np

from sizer.drawing.marks import box, line
from sizer.drawing.measured import label, measured
from sizer.drawing.record import Drawing, Path, joined
from sizer.drawing.told import in_mm
from sizer.shop.outfit import BAND_M, gunwale_inside_m, tie_path_m

AHEAD_M, BEHIND_M = 0.08, 0.06  # of what is drawn, of the ties' frame and of the band; our drawing
LEAST_WOOD_M = 0.001  # of plywood, where it reaches no farther in than the gunwale; our drawing
SEAT_M = 0.25  # of the seat's top that is drawn, ahead of the band; our drawing


def band_view(boat, bench, letters_m):
    """The Drawing of both views, heights over the baseline in the one from the side."""
    band, path = bench.seat.backband, tie_path_m(bench.seat.backband, bench.frames)
    x = np.linspace(band.tie_x_m - AHEAD_M, band.x_m + BEHIND_M, 9)
    inside = np.array([gunwale_inside_m(boat, one) for one in x])
    above = _above(boat, bench, path, (x, inside[:, 0]), letters_m)
    side = _side(boat, bench, path, (x, inside[:, 1]), letters_m)
    return joined("backband", [above, side.moved((
        above.box_m[2] + 4.0 * letters_m - side.box_m[0], above.box_m[1] - side.box_m[1]))])


def _frame(bench):
    """Thickness of the plywood of the frame that the ties go to."""
    return next(one.thickness_m for one in bench.frames if one.name == bench.seat.backband.frame)


def _above(boat, bench, path, gunwale, letters):
    """Starboard, from the centre line out; port is its mirror image."""
    band, (x, inner) = bench.seat.backband, gunwale
    deep, aft = boat.lines.gunwale.stringer.depth_m, band.tie_x_m + _frame(bench)
    half, rail = 0.5 * band.eyes_m, path[0, 1]
    wood = path[1, 1] if len(path) > 2 else rail - LEAST_WOOD_M
    strokes = [box("cut", band.x_m, 0.0, band.x_m + BAND_M[0], half), Path("here", path[:, :2]),
               box("block", band.tie_x_m, wood, aft, rail),
               line("centre", (x[0], 0.0), (x[-1], 0.0)),
               *(Path("ink", np.stack([x, inner + out], axis=1)) for out in (0.0, deep))]
    out = band.x_m + BAND_M[0] + 2.0 * letters
    strokes += [line("extension", (band.x_m + BAND_M[0], half), (out, half)),
                *measured((out, 0.0), (out, half), letters, in_mm, -1.2)]
    ahead = x[0] - letters
    strokes += measured((ahead, 0.0), (ahead, rail), letters, in_mm)
    low = -1.5 * letters
    strokes += measured((band.tie_x_m, low), (band.x_m, low), letters, in_mm, -1.2)
    strokes += [label((x[0], float(inner.max()) + deep + letters), "gunwale", letters),
                label((aft + letters, 1.2 * letters), band.frame, letters),
                label((band.x_m - letters, 0.3 * half), "band", letters, "end")]
    return Drawing("above", tuple(strokes))


def _side(boat, bench, path, gunwale, letters):
    band, (x, high) = bench.seat.backband, gunwale
    deep, aft = boat.lines.gunwale.stringer.width_m, band.tie_x_m + _frame(bench)
    seat, top = boat.seat_z_m, float(high.max()) + 2.0 * letters
    strokes = [Path("ink", np.stack([x, high - down], axis=1)) for down in (0.0, deep)]
    strokes += [
        box("block", band.tie_x_m, seat, aft, float(np.interp(aft, x, high))),
        box("cut", band.x_m, band.z_m - 0.5 * BAND_M[1], band.x_m + BAND_M[0],
            band.z_m + 0.5 * BAND_M[1]),
        Path("here", path[:, ::2]), line("ink", (band.x_m - SEAT_M, seat), (band.x_m, seat)),
        label((aft + letters, seat + letters), band.frame, letters),
        label((band.x_m, seat - 1.2 * letters), "seat's top", letters, "end"),
        label((float(x[0]), top), "gunwale", letters),
        label(0.5 * (path[-2] + path[-1])[::2] - (0.0, 1.4 * letters), "tie", letters)]
    out = band.x_m + BAND_M[0] + 2.0 * letters
    strokes += [line("extension", (band.x_m, seat), (out, seat)),
                line("extension", (band.x_m + BAND_M[0], band.z_m), (out, band.z_m))]
    strokes += measured((out, seat), (out, band.z_m), letters, in_mm, -1.2)
    return Drawing("side", tuple(strokes))
