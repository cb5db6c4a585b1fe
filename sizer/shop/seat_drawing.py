"""The seat's pieces to cut at full size, flat with the bow on the left, and its way to the skin."""

import numpy as np
from shapely.geometry import LineString, Polygon, box
from shapely.ops import nearest_points, unary_union

from sizer.drawing.marks import line
from sizer.drawing.record import LETTER_WIDTH, Circle, Drawing, Path, Text, side_by_side
from sizer.hull.seat import SIT_APART_M
from sizer.shop.boards import hull_at, sticks_at
from sizer.shop.lashing import HOLE_M
from sizer.shop.said import marked
from sizer.shop.seat_boards import CUT_M

LETTERS_M = 0.008  # of words on the pieces; our drawing
BOW_IN_M, LINE_APART_M = 0.035, 0.016  # from the fore edge; between two lines; our drawing
SMALL_M = 0.004  # on slats and straps; our drawing
GRAIN_SHARE = 0.3  # of a plate's length aft of its middle, and of its width either way; our drawing
APART_M = 0.020  # between pieces; our drawing


def seat_pieces(seat):
    """The Drawing of what is cut for a SeatBuilt, at full size."""
    if seat.kind != "panel":
        pieces = [_piece(board.flat_m, board.holes_m, f"{board.name} {number}, 2 off", SMALL_M,
                         _end_cuts(board)) for number, board in enumerate(seat.boards, start=1)]
    else:
        pieces = [_plate(board, side, f"{board.name} {letter}, bow on the left")
                  for board, side, letter in _plates(seat)]
    name = f"{seat.board_name}s"
    return Drawing(name, side_by_side(name, pieces, APART_M).strokes, tuple(_notes(seat)))


def plywood_plates(seat):
    """A Drawing of each plate of a seat that is cut from a sheet of plywood."""
    return tuple(_plate(board, side, f"{board.name} {letter}")
                 for board, side, letter in (_plates(seat) if seat.kind == "panel" else ()))


def _plates(seat):
    return [(board, side, letter) for board in seat.boards
            for side, letter in ((1.0, "S"), (-1.0, "P"))]


def _plate(board, side, words):
    """With its face grain marked, athwart: upright in the drawing."""
    flat = board.flat_m * (1.0, side)
    (long, wide), (middle, out) = np.ptp(flat, axis=0), flat.mean(axis=0)
    aft = middle + GRAIN_SHARE * long
    return _piece(flat, [(at, side * off) for at, off in board.holes_m], words, LETTERS_M, (
        line("mark", (aft, out - GRAIN_SHARE * wide), (aft, out + GRAIN_SHARE * wide)),
        Text("text", (float(aft) + 1.5 * LETTERS_M, float(out)), LETTERS_M, "face grain", 90.0),
        Text("text", (float(flat[:, 0].min()) + BOW_IN_M, float(out)), LETTERS_M, "BOW", 90.0),
        Text("text", (float(middle), float(out) + LINE_APART_M), LETTERS_M, "upper face")))


def _end_cuts(board):
    """The saw cuts in both ends of a slat, in line with its holes: each where it is sawn."""
    long = float(board.flat_m[:, 0].max())
    for at, out in board.holes_m:
        end, way = (0.0, 1.0) if at < 0.5 * long else (long, -1.0)
        yield line("mark", (end, out), (end + way * CUT_M[1], out))


def _piece(outline, holes, words, letters, marks=()):
    middle = outline.mean(axis=0)
    return Drawing(words, (
        Path("cut", outline, closed=True),
        *marks,
        *(Circle("drill", (float(at), float(out)), HOLE_M / 2.0) for at, out in holes),
        Text("text", tuple(middle.tolist()), min(letters, 0.7 * np.ptp(outline[:, 0]) / (
            LETTER_WIDTH * len(words))), words)))


def _notes(seat):
    yield (f"Seat, {seat.kind}, on {' and '.join(seat.stands_on)}: its top stands "
           f"{marked(seat.top_m)} over the baseline under the sitting bones, "
           f"{marked(SIT_APART_M)} off the centre line and {marked(seat.sit_x_m)} from the bow.")
    yield from seat.says


def least_clear_m(seat, boat):
    """The two nearest places of seat and skin where one sits; what lies on a stick is bevelled, and
    beyond its rest on the outermost a seat has that stick between itself and the skin."""
    edge = np.interp(seat.sit_x_m, boat.seat.x_m, boat.seat.half_m[:, -1])
    whole = unary_union([Polygon(board.section_m) for board in seat.boards]).intersection(
        box(0.0, -1.0, edge, 1.0))
    free = whole.difference(sticks_at(boat, seat.sit_x_m))
    skin = LineString(hull_at(boat, [seat.sit_x_m])[0])
    return tuple((float(one.x), float(one.y)) for one in nearest_points(free, skin))
