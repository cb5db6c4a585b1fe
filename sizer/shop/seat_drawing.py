"""The seat as drawings: its pieces to cut at full size, and where it lies in the boat.

Pieces lie flat with the bow on the left. The views are a plan, bow on the left and starboard up,
and below it the section at the sitting place seen from astern; both in the boat's own metres.
"""

import numpy as np
from shapely.geometry import LineString, Polygon
from shapely.ops import nearest_points, unary_union

from sizer.drawing.record import LETTER_WIDTH, Circle, Drawing, Path, Text, joined, side_by_side
from sizer.shop.boards import hull_at, sticks_at
from sizer.shop.lashing import HOLE_M
from sizer.shop.seat_parts import CLEAT_M
from sizer.shop.stations import setting_up
from sizer.units import MM_PER_M

PIECES = "seat pieces"
LETTERS_M = 0.008  # of words on the pieces; our drawing
SMALL_M = 0.004  # on slats and cleats; our drawing
APART_M = 0.020  # between pieces; our drawing
STICK_PLACES = 13  # along a stick in the plan
BEYOND_M = 0.060  # of the plan beyond the seat's ends; our drawing


def seat_pieces(seat):
    """The Drawing of what is cut for a SeatBuilt, at full size."""
    if seat.kind == "sling":
        half = max(board.plan_m[:, 1].max() for board in seat.boards)
        holes = [(share * half, 0.5 * CLEAT_M[1]) for share in (0.2, 0.8)]
        pieces = [_piece(np.array([(0.0, 0.0), (half, 0.0), (half, CLEAT_M[1]),
                                   (0.0, CLEAT_M[1])]), holes, "cleat, 4 off", SMALL_M)]
    elif seat.kind == "slats":
        pieces = [_piece(board.flat_m, board.holes_m, f"{board.name} {number}, 2 off", SMALL_M)
                  for number, board in enumerate(seat.boards, start=1)]
    else:
        pieces = [_piece(board.flat_m * (1.0, side),
                         [(at, side * out) for at, out in board.holes_m],
                         f"{board.name} {letter}, bow on the left", LETTERS_M)
                  for board in seat.boards for side, letter in ((1.0, "S"), (-1.0, "P"))]
    return Drawing(PIECES, side_by_side(PIECES, pieces, APART_M).strokes, tuple(_notes(seat)))


def _piece(outline, holes, words, letters):
    middle = outline.mean(axis=0)
    return Drawing(words, (
        Path("cut", outline, closed=True),
        *(Circle("drill", (float(at), float(out)), HOLE_M / 2.0) for at, out in holes),
        Text("text", tuple(middle.tolist()), min(letters, 0.7 * np.ptp(outline[:, 0]) / (
            LETTER_WIDTH * len(words))), words)))


def _notes(seat):
    yield (f"Seat, {seat.kind}, on {' and '.join(seat.stands_on)}: its top stands "
           f"{seat.top_m * MM_PER_M:.0f} mm over the baseline under the sitting bones, "
           f"{seat.sit_x_m * MM_PER_M:.0f} mm from the bow.")
    yield from seat.says


def seat_views(seat, boat, letters_m):
    """The Drawing of a SeatBuilt in its boat: plan, and section below; letters as high as told."""
    plan, section = _plan(seat, boat, letters_m), _section(seat, boat, letters_m)
    left = 0.5 * (plan.box_m[0] + plan.box_m[2]) - 0.5 * (section.box_m[0] + section.box_m[2])
    drop = plan.box_m[1] - section.box_m[3] - 2.0 * letters_m
    return joined("seat", [plan, section.moved((left, drop))])


def _plan(seat, boat, letters):
    front, back = seat.front_x_m - BEYOND_M, seat.back_x_m + BEYOND_M
    x = np.linspace(front, back, STICK_PLACES)
    corners = hull_at(boat, x)
    strokes = [Path("guide", np.column_stack([x, side * corners[:, row, 0]]))
               for row in range(corners.shape[1]) for side in ((1.0, -1.0) if row else (1.0,))]
    half = float(corners[..., 0].max())
    for station in setting_up(boat).stations:
        if front <= station.x_m <= back:
            strokes += [Path("guide", np.array([(face, -half), (face, half)]))
                        for face in station.faces_x_m]
            strokes.append(Text("text", (station.x_m, half + letters), letters, station.name))
    for board in seat.boards:
        strokes += [Path("cut", board.plan_m * (1.0, side), closed=True) for side in (1.0, -1.0)]
    strokes += [Path("mark", np.array([(seat.sit_x_m, -half), (seat.sit_x_m, half)])),
                Text("text", (seat.sit_x_m, -half - letters), letters, "sitting bones")]
    wide = max(board.plan_m[:, 1].max() for board in seat.boards)
    strokes += _dimension((seat.front_x_m, -half - 4.5 * letters),
                          (seat.back_x_m, -half - 4.5 * letters), letters)
    strokes += _dimension((back + letters, -wide), (back + letters, wide), letters)
    return Drawing("plan", tuple(strokes))


def _section(seat, boat, letters):
    skin = hull_at(boat, [seat.sit_x_m])[0]
    strokes = [Path("cut", np.concatenate([skin[::-1] * (-1.0, 1.0), skin[1:]]))]
    strokes += [Path("guide", np.asarray(one.exterior.coords)[:-1], closed=True)
                for one in sticks_at(boat, seat.sit_x_m).geoms]
    for board in seat.boards:
        strokes += [Path("cut", board.section_m * (side, 1.0), closed=True) for side in (1.0, -1.0)]
    top, low, wide = seat.top_m, float(skin[:, 1].min()), float(skin[:, 0].max())
    strokes += [Path("guide", np.array([(-wide - 3.0 * letters, z), (wide, z)]))
                for z in (0.0, top)]
    strokes += _dimension((-wide - 2.0 * letters, 0.0), (-wide - 2.0 * letters, top), letters)
    strokes += _clearance(seat, boat, low, letters)
    return Drawing("section", tuple(strokes))


def _clearance(seat, boat, low, letters):
    """The shortest way from the seat to the skin, and what is left of it with the paddler on it."""
    at, to = least_clear_m(seat, boat)
    words = (f"clear of the skin {np.hypot(*np.subtract(at, to)) * MM_PER_M:.0f} mm, "
             f"{seat.clear_of_skin_m * MM_PER_M:.0f} mm least with the paddler on it")
    yield Path("mark", np.array([at, to]))
    yield Path("mark", np.array([to, (to[0], low - letters)]))
    yield Text("text", (0.0, low - 2.0 * letters), letters, words)


def least_clear_m(seat, boat):
    """The two nearest places of seat and skin where one sits; what lies on a stick is bevelled."""
    whole = unary_union([Polygon(board.section_m) for board in seat.boards])
    free = whole.difference(sticks_at(boat, seat.sit_x_m))
    skin = LineString(hull_at(boat, [seat.sit_x_m])[0])
    return tuple((float(one.x), float(one.y)) for one in nearest_points(free, skin))


def _dimension(start, end, letters):
    """A line between two ticks with its length in mm beside its middle."""
    start, end = np.asarray(start, float), np.asarray(end, float)
    along = (end - start) / np.hypot(*(end - start))
    across = np.array([-along[1], along[0]])
    tick = 0.35 * letters * (along + across)
    yield Path("mark", np.array([start, end]))
    for place in (start, end):
        yield Path("mark", np.array([place - tick, place + tick]))
    words = f"{np.hypot(*(end - start)) * MM_PER_M:.0f}"
    upright = abs(along[1]) > abs(along[0])
    yield Text("text", tuple((0.5 * (start + end) + letters * across).tolist()), letters, words,
               90.0 if upright else 0.0)
