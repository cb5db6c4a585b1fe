"""What is tied in on the bottom, from above, the bow up: a pack of gear between its loops, and the
heel mat with its ties."""

from sizer.drawing.marks import box, line
from sizer.drawing.measured import label, measured
from sizer.drawing.record import Circle, Drawing
from sizer.shop.heel_mat import HOLE_IN_M

HOLE_M = 0.006  # of a tie in the mat, as drawn; our drawing


def gear_view(one, stations, letters_m):
    """The loops of a GearTie round its stick at both frames, their Stations given, and the line
    crosswise through them."""
    at = {station.name: station for station in stations}
    fore, aft = (at[name] for name in one.frames)
    apart = aft.faces_x_m[0] - fore.faces_x_m[1]
    halves = [station.points_m[one.stick][0] for station in (fore, aft)]
    strokes = []
    for half, high, name in zip(halves, (apart, 0.0), one.frames, strict=True):
        strokes += [line("edge", (-half, high), (half, high)),
                    label((half + 1.2 * letters_m, high), name, letters_m)]
        strokes += [Circle("drill", (side * half, high), 0.4 * letters_m) for side in (1.0, -1.0)]
    (wide, narrow) = halves
    strokes += [line("here", (side * wide, apart), (-side * narrow, 0.0)) for side in (1.0, -1.0)]
    strokes += [line("guide", (side * wide, apart), (side * narrow, 0.0)) for side in (1.0, -1.0)]
    most, low = max(halves), -1.5 * letters_m
    strokes += measured((-most - letters_m, 0.0), (-most - letters_m, apart), letters_m)
    strokes += measured((-narrow, low), (narrow, low), letters_m, beside=-1.2)
    where = f"gear, {one.end}" if one.end else "gear"
    strokes.append(label((0.0, low - 2.6 * letters_m), where, letters_m, "middle"))
    return Drawing("gear", tuple(strokes))


def mat_view(mat, letters_m):
    """The HeelMat with a tie's hole in each corner."""
    _, long, wide = mat.size_m
    half, letters = 0.5 * wide, letters_m
    strokes = [box("block", -half, 0.0, half, long), line("centre", (0.0, 0.0), (0.0, long))]
    strokes += [Circle("drill", (side * (half - HOLE_IN_M), up), 0.5 * HOLE_M)
                for side in (1.0, -1.0) for up in (HOLE_IN_M, long - HOLE_IN_M)]
    strokes += measured((-half - letters, 0.0), (-half - letters, long), letters)
    strokes += measured((-half, -1.5 * letters), (half, -1.5 * letters), letters, beside=-1.2)
    strokes.append(label((0.0, -4.1 * letters), "heel mat", letters,
                         "middle"))
    return Drawing("heel mat", tuple(strokes))
