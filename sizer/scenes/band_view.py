"""The backband with its ties, from above and from the side, bow on the left."""

import numpy as np
from shapely.geometry import LineString
from shapely.ops import substring

from sizer.drawing.marks import box, line, size_line, unit_of
from sizer.drawing.measured import label, measured
from sizer.drawing.record import Circle, Drawing, Path, joined
from sizer.drawing.told import in_full, in_mm, told
from sizer.shop.lashing import CORD_MM
from sizer.shop.outfit import BACK_ROUND_M, BAND_M, cased_m, eye_m, gunwale_inside_m, tie_path_m
from sizer.shop.seat_parts import CASING_M
from sizer.shop.shapes import ring_path
from sizer.shop.stations import setting_up
from sizer.shop.stick_loops import BAND_TURNS, ROD_MM
from sizer.units import MM_PER_M

AHEAD_M, BEHIND_M = 0.08, 0.03  # of what is drawn, of the ties' frame and of the one behind; ours
LEAST_WOOD_M = 0.001  # of plywood, where it reaches no farther in than the gunwale; our drawing
SEAT_M = 0.25  # of the seat's top that is drawn, ahead of the band; our drawing
CASED_M = 0.004  # of what cases a tie, to either side of it; our drawing
EYE_M = 0.005  # radius of the band's eye; our drawing
BESIDE_M = 0.030  # of the plywood that the elastic cord goes round, off the centre line; ours
LOOP_M = (0.5 * BAND_TURNS * CORD_MM[1] / MM_PER_M, ROD_MM / MM_PER_M)  # to its ends; its bight


def band_view(boat, bench, letters_m):
    """The Drawing of both views, heights over the baseline in the one from the side."""
    band, path = bench.seat.backband, tie_path_m(bench.seat.backband, bench.frames)
    x = np.linspace(band.tie_x_m - AHEAD_M, _frame(boat, bench, band.behind)[1] + BEHIND_M, 9)
    inside = np.array([gunwale_inside_m(boat, one) for one in x])
    above = _above(boat, bench, path, (x, inside[:, 0]), letters_m)
    side = _side(boat, bench, path, (x, inside[:, 1]), letters_m)
    return joined("backband", [above, side.moved((
        above.box_m[2] + 4.0 * letters_m - side.box_m[0], above.box_m[1] - side.box_m[1]))])


def _frame(boat, bench, name):
    """Where a frame's plywood begins and ends along the boat, and its height beside the ridge."""
    wood = next(one.wood for one in bench.frames if one.name == name)
    fore, aft = next(one.faces_x_m for one in setting_up(boat).stations if one.name == name)
    beside = wood.intersection(LineString([(BESIDE_M, -1.0), (BESIDE_M, 2.0)]))
    return fore, aft, wood.bounds[3] if beside.is_empty else beside.bounds[3]


def _cased(path, plane):
    """What cases a tie, seen in a plane of two of its columns."""
    at = cased_m(path)
    if at is None:
        return
    way = LineString(path[::-1])
    part = np.array(substring(way, at - 0.5 * CASING_M, at + 0.5 * CASING_M).coords)
    yield ring_path("fine", LineString(part[:, plane]).buffer(CASED_M, cap_style="flat").exterior)


def _above(boat, bench, path, gunwale, letters):
    """Starboard, from the centre line out; port is its mirror image."""
    band, (x, inner) = bench.seat.backband, gunwale
    deep, (_, aft, _) = boat.lines.gunwale.stringer.depth_m, _frame(boat, bench, band.frame)
    half, rail = 0.5 * band.eyes_m, path[0, 1]
    wood = path[1, 1] if len(path) > 2 else rail - LEAST_WOOD_M
    behind, ends, _ = _frame(boat, bench, band.behind)
    turns = np.linspace(0.0, half / BACK_ROUND_M, 12)
    curve = np.stack([band.x_m - BACK_ROUND_M * (1.0 - np.cos(turns)),
                      BACK_ROUND_M * np.sin(turns)], axis=1)
    strokes = [box("cut", band.x_m, 0.0, band.x_m + BAND_M[0], half), Path("guide", curve),
               Path("guide", np.array([eye_m(band, leant_on=True), path[-2, :2]])),
               Path("here", path[:, :2]), *_cased(path, [0, 1]),
               box("block", band.tie_x_m, wood, aft, rail),
               box("block", behind, BESIDE_M, ends, 2.0 * BESIDE_M),
               line("mark", (band.x_m + BAND_M[0], 0.0), (behind, BESIDE_M)),
               Circle("drill", path[-1, :2], EYE_M),
               box("fine", band.loop_x_m - LOOP_M[0], rail - LOOP_M[1],
                   band.loop_x_m + LOOP_M[0], rail + deep),
               line("centre", (x[0], 0.0), (x[-1], 0.0)),
               *(Path("ink", np.stack([x, inner + out], axis=1)) for out in (0.0, deep))]
    out = x[-1] + 2.0 * letters
    strokes += [line("extension", (band.x_m + BAND_M[0], half), (out, half)),
                size_line((out, 0.0), (out, half), unit_of(letters)),
                label((out + 0.8 * letters, 0.5 * half + 0.8 * letters), "half the band", letters),
                label((out + 0.8 * letters, 0.5 * half - 0.8 * letters), in_mm(half), letters)]
    ahead = x[0] - letters
    strokes += measured((ahead, 0.0), (ahead, rail), letters, in_mm)
    low = -1.5 * letters
    strokes += [line("extension", (band.loop_x_m, rail), (band.loop_x_m, low)),
                *measured((band.loop_x_m, low), (band.x_m, low), letters, in_mm, -1.2)]
    top = float(inner.max()) + deep + letters
    leader = (aft + 2.0 * letters, top + 1.2 * letters)
    strokes += [
        label((float(x[-1]), top), "gunwale", letters, "end"),
        line("extension", (band.loop_x_m, rail + 0.5 * deep), (band.loop_x_m, leader[1])),
        label((band.loop_x_m + 0.4 * letters, leader[1]), told(
            "loop, {} ahead", in_full(round(band.tie_x_m - band.loop_x_m, 5))), letters),
        label((band.tie_x_m - 0.5 * letters, wood - letters), band.frame, letters, "end"),
        label((ends + 0.5 * letters, 1.5 * BESIDE_M), band.behind, letters),
        label((band.x_m - letters, 1.2 * letters), "band", letters, "end"),
        label(path[-1, :2] + (1.2 * letters, 1.2 * letters), "eye", letters)]
    return Drawing("above", tuple(strokes))


def _side(boat, bench, path, gunwale, letters):
    band, (x, high) = bench.seat.backband, gunwale
    deep, (_, aft, _) = boat.lines.gunwale.stringer.width_m, _frame(boat, bench, band.frame)
    behind, ends, ridge = _frame(boat, bench, band.behind)
    seat, top = boat.seat_z_m, float(high.max()) + 2.0 * letters
    edge = band.z_m + 0.5 * BAND_M[1]
    at = float(np.interp(band.loop_x_m, x, high))
    strokes = [Path("ink", np.stack([x, high - down], axis=1)) for down in (0.0, deep)]
    strokes += [
        box("block", band.tie_x_m, seat, aft, float(np.interp(aft, x, high))),
        box("block", behind, seat, ends, ridge),
        box("cut", band.x_m, band.z_m - 0.5 * BAND_M[1], band.x_m + BAND_M[0], edge),
        box("fine", band.loop_x_m - LOOP_M[0], at - deep, band.loop_x_m + LOOP_M[0], at),
        line("mark", (band.x_m + 0.5 * BAND_M[0], edge), (behind, ridge - 2.0 * EYE_M)),
        Path("here", path[:, ::2]), *_cased(path, [0, 2]),
        line("ink", (band.x_m - SEAT_M, seat), (band.x_m, seat)),
        label((aft + letters, seat + letters), band.frame, letters),
        label((ends + 0.5 * letters, seat + letters), band.behind, letters),
        label((band.x_m, seat - 1.2 * letters), "seat's top", letters, "end"),
        label((float(x[0]), top), "gunwale", letters),
        label((band.x_m + 2.0 * BAND_M[0], ridge + 1.5 * letters), "elastic", letters, "middle"),
        label(0.5 * (path[-2] + path[-1])[::2] - (0.0, 2.0 * letters), "tie", letters)]
    out = x[-1] + 2.0 * letters
    strokes += [line("extension", (band.x_m, seat), (out, seat)),
                line("extension", (band.x_m + BAND_M[0], band.z_m), (out, band.z_m))]
    strokes += measured((out, seat), (out, band.z_m), letters, in_mm, -1.2)
    return Drawing("side", tuple(strokes))
