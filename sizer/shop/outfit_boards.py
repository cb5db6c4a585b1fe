"""The outfit's small boards to cut at full size: a pedal's cheek, a thigh brace, a hip pad's board.
Each is drawn once; two are cut, port the mirror image of starboard.
"""

import numpy as np

from sizer.drawing.marks import line
from sizer.drawing.record import LETTER_WIDTH, Circle, Drawing, Path, Text, joined, side_by_side
from sizer.shop.hip_pads import SCREWS
from sizer.shop.hip_pads import THICK_M as HIP_THICK_M
from sizer.shop.lashing import HOLE_M, HOLE_SIZE
from sizer.shop.outfit import PIN_M, PINS_AFT_M
from sizer.shop.pedals import AHEAD_M, CHEEK_M, THICK_M
from sizer.shop.thigh import LONG_M, NICK_M
from sizer.shop.thigh import THICK_M as BRACE_THICK_M
from sizer.units import MM_PER_M

BOARDS, CHEEK, HIP_BOARD, BRACE = "outfit boards", "pedal cheek", "hip pad board", "thigh brace"
LETTERS_M = 0.004  # of words on them; our drawing
EDGE_M = 0.006  # from an edge to words beside it; our drawing
APART_M = 0.018  # between pieces; our drawing
NICK_HALF_M = 0.002  # half a nick's width as drawn; our drawing


def outfit_boards(hips, thigh):
    """Drawings of what is cut of HipPads and ThighBraces, None where there are none, and of the
    footbrace's cheek: what goes on one small page together is one Drawing."""
    cheek = cheek_board()
    if thigh is not None:
        brace, upright = brace_board(thigh), cheek.turned(-90.0)
        beside = side_by_side(BRACE, (brace, upright), APART_M)
        cheek = Drawing(f"{CHEEK} and {BRACE}", beside.strokes, (*cheek.notes, *brace.notes))
    return (cheek,) if hips is None else (cheek, hip_board(hips))


def all_boards(hips, thigh):
    """The same as one Drawing, one under the other, for a file of their own."""
    placed, low = [], 0.0
    for one in outfit_boards(hips, thigh):
        placed.append(one.moved((-one.box_m[0], low - one.box_m[3])))
        low -= one.height_m + APART_M
    return joined(BOARDS, placed, tuple(note for one in placed for note in one.notes))


def cheek_board():
    """The Drawing of a cheek, its forward end on the left: its pins' holes, and where the pedal's
    plate stands on it."""
    _, long, high = CHEEK_M
    holes = [(AHEAD_M + aft, 0.5 * high) for aft in PINS_AFT_M]
    plate = [line("mark", (at, 0.0), (at, high)) for at in (AHEAD_M - THICK_M, AHEAD_M)]
    return _board(CHEEK, _rectangle(long, high), (*plate, *_bored(holes, PIN_M)),
                  (0.5 * (AHEAD_M + long), 0.8 * high), (0.5 * (AHEAD_M - THICK_M), 0.5 * high), (
        f"Pedal cheek, 2 off, {CHEEK_M[0] * MM_PER_M:g} mm plywood, alike port and starboard. "
        "Between both lines the pedal's plate stands, its after face, for the sole, on the one "
        f"nearer the holes; these, {PIN_M * MM_PER_M:g} mm, are its pins': try them on the rail's "
        "before boring."))


def hip_board(hips):
    """The Drawing of a hip pad's board, upright as on its spacer: where its screws go."""
    _, long, high = hips.board_m
    lean = np.cos(np.radians(hips.lean_deg))
    row = (hips.spacer_m[1] - hips.low_m) / lean
    free = max((0.0, row), (row, high), key=lambda ends: ends[1] - ends[0])
    return _board(HIP_BOARD, _rectangle(long, high),
                  (line("mark", (0.0, row), (long, row)),),
                  (0.5 * long, 0.5 * sum(free)), (2.0 * EDGE_M, 0.5 * sum(free)), (
        f"Hip pad board, 2 off, {HIP_THICK_M * MM_PER_M:g} mm plywood: starboard as seen "
        f"from inside the boat, its upper edge up; port is its mirror image. The line is "
        f"{hips.spacer}'s middle: its {SCREWS} screws in a row on it. Edges and corners round."))


def brace_board(thigh):
    """The Drawing of the starboard thigh brace's board from above, its gunwale's edge up: its
    nicks, its holes and its post's foot."""
    return _board(BRACE, nicked_m(thigh),
                  (Path("mark", thigh.post_flat_m, closed=True), *_bored(thigh.holes_m, HOLE_M)),
                  (0.5 * LONG_M, 0.6 * thigh.wide_m), (2.0 * EDGE_M, 0.4 * thigh.wide_m), (
        f"Thigh brace, 2 off, {BRACE_THICK_M * MM_PER_M:g} mm plywood: starboard from above, the "
        "gunwale's edge up; port is its mirror image. The box at the sawn corner is its post's "
        f"foot, on its upper face. Holes {HOLE_SIZE}; nicks {NICK_M * MM_PER_M:g} mm deep. "
        "All edges round."))


def nicked_m(thigh):
    """Round a brace's board from its fore inner corner, in by a nick at each of the wall's holes.
    """
    fore, aft = thigh.flat_m[1:3]
    along = (aft - fore) / thigh.post_long_m
    points = [thigh.flat_m[0], fore]
    for nick, hole in zip(thigh.nicks_m, thigh.holes_m[:2], strict=True):
        inward = NICK_M * (hole - nick) / np.hypot(*(hole - nick))
        start, end = nick - NICK_HALF_M * along, nick + NICK_HALF_M * along
        points += [start, start + inward, end + inward, end]
    return np.array([*points, *thigh.flat_m[2:]])


def _bored(holes_m, across_m):
    return [Circle("drill", tuple(map(float, at)), 0.5 * across_m) for at in holes_m]


def _rectangle(long, high):
    return np.array([(0.0, 0.0), (long, 0.0), (long, high), (0.0, high)])


def _board(name, ring, strokes, words_at, bow_at, note):
    """A Drawing of what is sawn, its name and BOW where they stand, and its note."""
    words = f"{name}, 2 off"
    letters = min(LETTERS_M, 0.6 * float(np.ptp(ring[:, 0])) / (LETTER_WIDTH * len(words)))
    return Drawing(name, (
        Path("cut", ring, closed=True), *strokes,
        Text("text", tuple(map(float, words_at)), letters, words),
        Text("text", tuple(map(float, bow_at)), letters, "BOW")), (note,))
