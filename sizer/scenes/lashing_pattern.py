"""How a stick is lashed to a frame: the frame's face with its holes, the way of the cord, and the
reef knot, tied in two steps: what lies over and what under, as it looks."""

import numpy as np
from shapely.geometry import box as box_of

from sizer.drawing.marks import box, line, smooth
from sizer.drawing.measured import label
from sizer.drawing.record import Circle, Drawing, Path, side_by_side
from sizer.shop.lashing import COUNTERSINK_M, ENDS_M, HOLE_M, STRANDS, TURNS, one_holed
from sizer.shop.said import both
from sizer.shop.shapes import ring_path

SHOWN_M = 0.040  # of the frame shown round a notch; our drawing
APART = 0.0022  # between two turns of cord as drawn; our drawing
GAP = 0.2  # of a cord where it goes under another, over the knot's own unit; our drawing
BIGHT = np.array([(-4.2, 0.55), (-2.6, 0.55), (-1.2, 0.65), (0.0, 1.0), (1.0, 1.3), (1.7, 1.0),
                  (2.0, 0.0), (1.7, -1.0), (1.0, -1.3), (0.0, -1.0), (-1.2, -0.65),
                  (-2.6, -0.55), (-4.2, -0.55)])  # one cord of the finished knot; our drawing


def lashing_drawing(bench, letters_m):
    """A chine's lashing at the widest frame: its notch at true shape with the way of the cord, then
    the same from outside the boat; last the first that has one hole alone, where one has."""
    frame, notch, holes = shown_notch(bench)
    views = [_face(frame, notch, holes, letters_m)]
    high = notch.size_m[0]
    reach = [float(np.hypot(*np.subtract(hole, notch.at(0.5 * (notch.low_m + notch.high_m), 0.0))))
             for hole in holes]
    views.append(_outside(frame, high, reach, letters_m))
    for pattern, other, hole in list(one_holed(bench.frames))[:1]:
        views.append(_face(pattern, other, [hole], letters_m))
    return side_by_side("lashing", views, 4.0 * letters_m)


def shown_notch(bench):
    """(FramePattern, Notch, its two holes) of the first chine with two, from the widest frame."""
    frames = sorted(bench.frames, key=lambda one: -one.section.skin_m[:, 0].max())
    for frame in frames:
        for notch in frame.section.notches:
            holes = [at for name, at in frame.holes if name == notch.stringer and at[0] > 0.0]
            if notch.role == "chine" and len(holes) >= 2:
                return frame, notch, holes[:2]
    frame = frames[0]
    notch = frame.section.notches[0]
    return frame, notch, [at for name, at in frame.holes if name == notch.stringer]


def _face(frame, notch, holes, letters):
    middle = np.asarray(notch.at(0.5 * (notch.low_m + notch.high_m), 0.0))
    middle = 0.5 * middle + 0.5 * np.mean([middle, *holes], axis=0)
    window = box("guide", *(middle - SHOWN_M), *(middle + SHOWN_M))
    left, low = middle - SHOWN_M
    right, top = middle + SHOWN_M
    wood = frame.wood.intersection(box_of(left, low, right, top))
    strokes = [window, *(ring_path("cut", piece.exterior)
                         for piece in getattr(wood, "geoms", [wood]))]
    strokes.append(ring_path("block", notch.stock().exterior))
    for hole in holes:
        strokes += [Circle("drill", tuple(map(float, hole)), HOLE_M / 2.0),
                    Circle("mark", tuple(map(float, hole)), COUNTERSINK_M / 2.0)]
    strokes += [label((left, top + letters), f"{frame.name}, {notch.stringer}: the frame's face",
                      letters), Path("here", _loop(holes, notch))]
    return Drawing("face", tuple(strokes))


def _loop(holes, notch):
    """The cord on the frame's face: from hole to hole over the stick; round it from one alone."""
    corners = np.asarray(notch.stock().exterior.coords)[:-1, :2]
    outward = -np.asarray(notch.inward)
    if len(holes) == 1:
        far = max(corners, key=lambda one: np.hypot(*(one - holes[0])))
        away = corners + 0.001 * np.sign(corners - corners.mean(axis=0))
        near = away[np.argsort([np.hypot(*(one - holes[0])) for one in corners])]
        return np.array([holes[0], near[1], far + 0.001 * outward, near[2], holes[0]])
    outer = corners[np.argsort(-(corners @ outward))[:2]]
    ends = sorted(map(tuple, holes), key=lambda one: one[1])
    outer = outer[np.argsort(outer[:, 1])]
    return np.array([ends[0], outer[0] + 0.001 * outward, outer[-1] + 0.001 * outward, ends[-1]])


def _outside(frame, high, reach, letters):
    """The stick from outside the boat, the frame on edge behind it, some turns of cord."""
    thick = frame.thickness_m
    half, top = 0.5 * high, max(reach)
    strokes = [line("ink", (-SHOWN_M, half), (SHOWN_M, half)),
               line("ink", (-SHOWN_M, -half), (SHOWN_M, -half))]
    for sign in (1.0, -1.0):
        strokes += [line("cut", (at, sign * half), (at, sign * (top + 0.012)))
                    for at in (-0.5 * thick, 0.5 * thick)]
    for side, strands in ((-1.0, STRANDS), (1.0, TURNS)):  # the last goes forward once more
        for turn in range(strands):
            x = side * (0.5 * thick + 0.0015 + turn * APART)
            strokes.append(line("here", (side * 0.5 * thick, top), (x, half), (x, -half),
                                (side * 0.5 * thick, -top)))
    strokes += [label((-SHOWN_M, top + 0.012 + 2.5 * letters),
                      f"{TURNS} turns: {TURNS} strands aft,", letters),
                label((-SHOWN_M, top + 0.012 + letters), f"{STRANDS} forward, none crossing",
                      letters),
                label((-SHOWN_M, -top - 0.012 - letters), "bow on the left", letters)]
    return Drawing("outside", tuple(strokes))


def knot_drawing(letters_m):
    """The first half and the finished knot, side by side, in metres of a letters' height."""
    unit = 2.6 * letters_m
    return side_by_side("reef knot", [_half(unit, letters_m), _whole(unit, letters_m)],
                        3.0 * letters_m)


def _half(unit, letters):
    x = np.linspace(-1.0, 1.0, 61)
    turn = 0.45 * np.sin(1.5 * np.pi * x)
    left = np.concatenate([[(-3.4, -0.45)], np.column_stack([1.4 * x, -turn]), [(2.4, 1.5)]])
    right = left * (-1.0, 1.0)
    outer, middle = [(-1.4 * 2.0 / 3.0, 0.0), (1.4 * 2.0 / 3.0, 0.0)], [(0.0, 0.0)]
    return Drawing("half", (
        *_cord("here", left, middle, unit), *_cord("ink", right, outer, unit),
        label((0.0, 2.8 * unit), "1: left over right,", letters, "middle"),
        label((0.0, 2.8 * unit - 1.6 * letters), "under and up", letters, "middle"),
        label((0.0, -1.6 * unit - letters), "from the holes", letters, "middle")))


def _whole(unit, letters):
    """Both parts of one cord lie over the other's bight, and its bight over both of its parts."""
    one = smooth(BIGHT, closed=False)
    other = one * (-1.0, 1.0)
    under = [(0.0, 1.0), (0.0, -1.0)]
    over = [(sign * 1.92, side * 0.58) for sign in (1.0, -1.0) for side in (1.0, -1.0)]
    return Drawing("whole", (
        *_cord("here", one, under, unit), *_cord("ink", other, over, unit),
        label((0.0, 2.8 * unit), "2: right over left,", letters, "middle"),
        label((0.0, 2.8 * unit - 1.6 * letters), f"under and up: ends {both(ENDS_M)}", letters,
              "middle"),
        label((-4.2 * unit, 0.55 * unit + 0.9 * letters), "end", letters),
        label((4.2 * unit, 0.55 * unit + 0.9 * letters), "end", letters, "end"),
        label((0.0, -1.6 * unit - letters), "each end beside its own part, or it slips", letters,
              "middle")))


def _cord(pen, points, under, unit):
    points = np.asarray(points)
    fine = np.column_stack([np.interp(np.linspace(0.0, len(points) - 1.0, 400),
                                      np.arange(len(points)), column) for column in points.T])
    seen = np.hypot(*(fine[:, None] - np.asarray(under)).T).min(axis=0) > GAP
    for piece in np.split(fine, np.flatnonzero(np.diff(seen)) + 1):
        near = np.hypot(*(piece[len(piece) // 2] - np.asarray(under)).T).min()
        if len(piece) > 1 and near > GAP:
            yield Path(pen, piece * unit)
