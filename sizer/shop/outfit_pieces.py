"""The plywood of footbrace, thigh braces and hip pads as drawings for the sheets, each with the
name it has there: what is one line of the list of parts is a row."""

import numpy as np

from sizer.drawing.record import Circle, Drawing, Path, Text
from sizer.shop.lashing import HOLE_M
from sizer.shop.outfit_boards import BRACE, CHEEK, HIP_BOARD
from sizer.shop.pedal_drawing import pedal_piece, strap_piece
from sizer.shop.pedals import CHEEK_M

LETTERS_M = 0.005  # of words on them; our drawing


def outfit_pieces(made, hips, thigh):
    """Rows of Drawings of Pedals, HipPads and ThighBraces, as many as are cut; all are of
    `sizer.shop.pedals.THICK_M`."""
    plate = pedal_piece(made)
    rows = [[plate, plate, *2 * [_board(CHEEK, CHEEK_M[1:])], strap_piece(made)]]
    if hips:
        rows.append(2 * [_board(HIP_BOARD, hips.board_m[1:])])
    if thigh:
        rows.append([_brace(thigh, side) for side in (1.0, -1.0)])
    return tuple(map(tuple, rows))


def _board(name, size_m):
    long, high = size_m
    ring = np.array([(0.0, 0.0), (long, 0.0), (long, high), (0.0, high)])
    return _piece(name, ring)


def _brace(thigh, side):
    """As seen from above, starboard or port; its nicks are filed by hand."""
    return _piece(BRACE, thigh.flat_m * (1.0, side),
                  [Circle("drill", (at, side * out), 0.5 * HOLE_M) for at, out in thigh.holes_m])


def _piece(name, ring, strokes=()):
    middle = 0.5 * (ring.min(axis=0) + ring.max(axis=0))
    return Drawing(name, (Path("cut", ring, closed=True), *strokes,
                          Text("text", tuple(middle.tolist()), LETTERS_M, f"{name}, 2 off")))
