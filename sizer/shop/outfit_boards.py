"""The outfit's boards to cut at full size: pedals and strap as seen from astern, a pedal's cheek, a
rail's stop, a thigh brace, a hip pad's board, each with the places of its screws.

Each piece is drawn by one function, which patterns, files and the sheets' layout take alike. A
pattern shows the starboard one, to be turned over for port; on the sheets lie both, each with its
own side on it. What a machine must not bore is marked: screws, and a cheek's pins.

For the sheets what is one line of the list of parts is a row.
"""

import numpy as np
from shapely.geometry import LineString

from sizer.drawing.marks import line
from sizer.drawing.record import LETTER_WIDTH, Circle, Drawing, Path, Text, joined, side_by_side
from sizer.shop import pedals
from sizer.shop.foot_rails import STOP_M, STOP_SCREWS_M
from sizer.shop.hip_pads import SCREWS
from sizer.shop.hip_pads import THICK_M as HIP_THICK_M
from sizer.shop.lashing import HOLE_M, HOLE_SIZE
from sizer.shop.outfit import PIN_M, PINS_AFT_M
from sizer.shop.said import both, listed
from sizer.shop.screws import along_m, crosses
from sizer.shop.seat_parts import HARD_WOOD
from sizer.shop.thigh import LONG_M, NICK_M
from sizer.shop.thigh import THICK_M as BRACE_THICK_M
from sizer.shop.trade_sizes import bit_text, sold_as

BOARDS, CHEEK, HIP_BOARD, BRACE = "outfit boards", "pedal cheek", "hip pad board", "thigh brace"
STOP, PEDAL, STRAP = "rail stop", "footbrace pedal", "pedal strap"
SIDES = "starboard", "port"
LETTERS_M = 0.004  # of words on them; our drawing
UP = "UP"  # on a cut piece, nearest to its upper edge
UNDER_M = 0.010  # from a piece's name down to which face it is seen on; our drawing
EDGE_M = 0.006  # from an edge to words beside it; our drawing
APART_M = 0.018  # between pieces; our drawing
SLOT_QUARTER = 16  # straight steps of a slot's quarter turn: off it by under 0.02 mm
NICK_HALF_M = 0.002  # half a nick's width as drawn; our drawing
PEDAL_LETTERS_M = 0.006  # of words on it; our drawing
CROSSES = "Crosses: its screws, bored by hand"


def outfit_boards(hips, thigh):
    """Drawings of what is cut of HipPads and ThighBraces, None where there are none, and of the
    footbrace's cheek and stop: what goes on one small page together is one Drawing."""
    cheek, stop = cheek_board(), stop_board()
    upright = cheek.turned(-90.0)
    over = stop.moved((upright.box_m[0], upright.box_m[3] + APART_M))
    beside = [joined(CHEEK, (upright, over))]
    found = [cheek, stop]
    if thigh is not None:
        found.append(brace_board(thigh))
        beside.insert(0, found[-1])
    page = Drawing(listed([one.name for one in found]),
                   side_by_side(BRACE, beside, APART_M).strokes,
                   tuple(note for one in found for note in one.notes))
    return (page,) if hips is None else (page, hip_board(hips))


def all_boards(hips, thigh):
    """The same as one Drawing, one under the other, for a file of their own."""
    placed, low = [], 0.0
    for one in outfit_boards(hips, thigh):
        placed.append(one.moved((-one.box_m[0], low - one.box_m[3])))
        low -= one.height_m + APART_M
    return joined(BOARDS, placed, tuple(note for one in placed for note in one.notes))


def outfit_pieces(made, hips, thigh):
    """Rows of Drawings as many as are cut; all are of `sizer.shop.pedals.THICK_M`."""
    cheek = cheek_board()
    rows = [[*(pedal_piece(made, side) for side in SIDES), cheek, cheek, strap_piece(made)]]
    if hips:
        rows.append([hip_board(hips, side) for side in SIDES])
    if thigh:
        rows.append([brace_board(thigh, side) for side in SIDES])
    return tuple(map(tuple, rows))


def cheek_board():
    """The Drawing of a cheek, its forward end on the left: where its pins go, and where the pedal's
    plate stands on it."""
    _, long, high = pedals.CHEEK_M
    pins = [(pedals.AHEAD_M + aft, 0.5 * high) for aft in PINS_AFT_M]
    plate = [line("mark", (at, 0.0), (at, high))
             for at in (pedals.AHEAD_M - pedals.THICK_M, pedals.AHEAD_M)]
    return _board(CHEEK, _rectangle(long, high), (
        *plate, *(Circle("mark", one, 0.5 * PIN_M) for one in pins), *crosses(pins),
        *crosses(pedals.CHEEK_SCREWS_M)), (0.5 * (pedals.AHEAD_M + long), 0.8 * high),
                  (0.5 * pedals.BLOCK_M[0], 0.5 * high), (
        f"Pedal cheek, 2 off, {sold_as(pedals.CHEEK_M[0])} plywood, alike port and starboard. "
        "Between both lines the pedal's plate stands, its after face, for the sole, on the one "
        f"nearer the pins' circles, {bit_text(PIN_M)}: bore these through two of the rail's, "
        f"clamped to it. {CROSSES}, from the rail's side."))


def stop_board():
    """The Drawing of a rail's stop from its outer face, its forward end on the left."""
    _, long, high = STOP_M
    return Drawing(STOP, (
        Path("cut", _rectangle(long, high), closed=True),
        *crosses(STOP_SCREWS_M),
        Text("text", (0.5 * long, -EDGE_M), LETTERS_M, f"{STOP}, 2 off")), (
        f"Rail stop, 2 off, {HARD_WOOD} {both(STOP_M[0])} thick, grain along it, not of plywood. "
        f"{CROSSES}.",))


def hip_board(hips, side=SIDES[0]):
    """The Drawing of a hip pad's board, upright as on its spacer: where its screws go."""
    _, long, high = hips.board_m
    lean = np.cos(np.radians(hips.lean_deg))
    row = (hips.spacer_m[1] - hips.low_m) / lean
    free = max((0.0, row), (row, high), key=lambda ends: ends[1] - ends[0])
    return _of_side(side, _board(
        HIP_BOARD, _rectangle(long, high),
        (line("mark", (0.0, row), (long, row)),
         *crosses([(at, row) for at in along_m(long, SCREWS)]),
         *_seen((0.5 * long, high - EDGE_M - 0.5 * LETTERS_M), f"{UP}, {side}, inner face")),
        (0.5 * long, 0.5 * sum(free)), (2.0 * EDGE_M, 0.5 * sum(free)), (
            f"Hip pad board, 2 off, {sold_as(HIP_THICK_M)} plywood: starboard as seen "
            f"from inside the boat, its upper edge up; port is its mirror image. The line is "
            f"{hips.spacer}'s middle. {CROSSES}, on it. Edges and corners round.")))


def brace_board(thigh, side=SIDES[0]):
    """The Drawing of a thigh brace's board from above, its gunwale's edge up: its nicks, its holes
    and its post's foot."""
    return _of_side(side, _board(
        BRACE, thigh.flat_m,
        (Path("mark", thigh.post_flat_m, closed=True), *crosses(thigh.screws_m),
         *(Path("mark", one) for one in _nicks_m(thigh)),
         *(Circle("drill", at, 0.5 * HOLE_M) for at in thigh.holes_m),
         *_seen((0.5 * LONG_M, 0.6 * thigh.wide_m - UNDER_M), f"{side}, upper face")),
        (0.5 * LONG_M, 0.6 * thigh.wide_m), (2.0 * EDGE_M, 0.4 * thigh.wide_m), (
            f"Thigh brace, 2 off, {sold_as(BRACE_THICK_M)} plywood: starboard from above, the "
            "gunwale's edge up; port is its mirror image. The box at the sawn corner is its post's "
            "foot, on its upper face, the cross its screw, from below. "
            f"Holes {HOLE_SIZE}; nicks {both(NICK_M)} deep, filed into the board alone. "
            "All edges round.")))


def nicked_m(thigh):
    """Round a brace's board from its fore inner corner, a nick at each of the wall's holes."""
    return np.concatenate([thigh.flat_m[:2], *_nicks_m(thigh), thigh.flat_m[2:]])


def _nicks_m(thigh):
    """Each of a board's nicks, (4, 2), from its fore corner on the edge to its after one."""
    fore, aft = thigh.flat_m[1:3]
    half = NICK_HALF_M * (aft - fore) / thigh.post_long_m
    for nick, hole in zip(thigh.nicks_m, thigh.holes_m[:2], strict=True):
        inward = NICK_M * (hole - nick) / np.hypot(*(hole - nick))
        yield np.array([nick - half, nick - half + inward, nick + half + inward, nick + half])


def _of_side(side, drawing):
    """A piece drawn as the starboard one, as it is on a side."""
    return drawing if side == SIDES[0] else drawing.mirrored()


def _seen(at, words):
    """The Text that tells which way up a cut piece is, or which of its faces is seen."""
    return (Text("text", tuple(map(float, at)), LETTERS_M, words),)


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


def pedal_piece(made, side=SIDES[0]):
    """The Drawing of a plate of Pedals from astern, its inner edge on the left if to starboard."""
    at = made.plate_m.min(axis=0)
    bolts = np.array(made.bolts_m) - at
    middle = 0.38 * float(np.ptp(made.plate_m[:, 0])), float(bolts[:, 1].mean())  # off the notch
    return _of_side(side, Drawing(PEDAL, (
        Path("cut", made.plate_m - at, closed=True),
        *(Circle("drill", tuple(one), 0.5 * pedals.BOLT_HOLE_M) for one in bolts.tolist()),
        *crosses(made.screws_m - at),
        Text("text", middle, PEDAL_LETTERS_M, f"{PEDAL}, 2 off"),
        *_seen((middle[0], middle[1] - UNDER_M), f"{side}, after face"),
        *_seen((middle[0], float(np.ptp(made.plate_m[:, 1])) - EDGE_M - LETTERS_M), UP)),
                                  tuple(pedal_notes(made))))


def strap_piece(made):
    at, round_m = made.strap_m.min(axis=0), 0.5 * pedals.SLOT_WIDE_M
    middle = tuple((0.5 * np.ptp(made.strap_m, axis=0)).tolist())
    slots = [LineString([(side * (inner + round_m), up), (side * (outer - round_m), up)])
             for (_, up), (inner, outer) in zip(made.bolts_m, made.slots_m, strict=True)
             for side in (1.0, -1.0)]
    return Drawing(STRAP, (
        Path("cut", made.strap_m - at, closed=True),
        *(Path("cut", np.asarray(one.buffer(round_m, quad_segs=SLOT_QUARTER).exterior.coords)[:-1]
               - at, closed=True) for one in slots),
        Text("text", middle, PEDAL_LETTERS_M, STRAP),
        *_seen((middle[0], middle[1] - UNDER_M), "after face"),
        *_seen((middle[0], float(np.ptp(made.strap_m[:, 1])) - EDGE_M - LETTERS_M), UP)), (
        f"Pedal strap, 1 off, {sold_as(pedals.THICK_M)} plywood: ahead of both pedals, as seen "
        "from astern, its notch over the keel. Its slots by hand: bore both ends "
        f"{bit_text(pedals.SLOT_WIDE_M)}, saw out what is between them. Round the upper edge well, "
        "over which a foot may have to come back.",))


def pedal_notes(made):
    yield (f"Footbrace pedal, 2 off, {sold_as(pedals.THICK_M)} plywood: starboard as seen from "
           "astern, as it stands in the boat, its upper edge level, the notch on the right, wide "
           "for the cheek and narrow for the rail behind it: saw it no wider there, or toes go "
           f"in. Port is the same turned over. {CROSSES}, into the block ahead. Round what a foot "
           "or the skin could touch. It is shaped to the boat for this paddler's place: hold it "
           f"there in the frame before the skin. No round {pedals.BAR} ({pedals.BAR_MADE}) may go "
           "by it, under it, beside it or behind the rail, and it may touch no stick: a foot that "
           "goes in there is held.")
