"""The sections where the thigh braces and the hip pads are, and a brace's board from above."""

import numpy as np

from sizer.drawing.marks import box, line
from sizer.drawing.measured import both_text_short, label, measured
from sizer.drawing.record import Circle, Drawing, Path, joined
from sizer.drawing.told import size, told
from sizer.fit.assess import HIP_HEIGHT_M
from sizer.paddler.legs import AROUND
from sizer.scenes.sections import section_at
from sizer.shop import hip_pads
from sizer.shop.boards import sit_x_m
from sizer.shop.coaming import BELOW_DECK_M, WALL_M
from sizer.shop.lashing import HOLE_M
from sizer.shop.leg_room import legs_in
from sizer.shop.outfit_boards import nicked_m
from sizer.shop.thigh import LONG_M, NICK_M, POST_LONG_M, POST_WIDE_M, THICK_M

LARGER = 2.5  # of the board from above over the section; our drawing


def thigh_view(assessed, bench, baseline_m, letters_m):
    """The boat across at the middle of the thigh braces' posts, under the coaming's wall, from
    astern, heights over the strongback, and beside it a board from above, LARGER; None where there
    are none."""
    one, boat = bench.thigh, assessed.boat
    if one is None:
        return None
    middle = one.wall_middle_m
    legs = legs_in(assessed)
    oval = legs.outlines_m(np.array([boat.seat_x_m - middle]), boat.seat_z_m)[0]
    deck_z = float(np.interp(middle, (boat.opening.front_x_m, boat.opening.back_x_m),
                             boat.opening.deck_z_m))
    rim_z = float(np.interp(middle, (boat.opening.front_x_m, boat.opening.back_x_m),
                            boat.opening.rim_z_m))
    wall = float(boat.opening.half_width_m(np.array([middle]))[0])
    board, pad = _board(one, middle), _pad(one, middle)
    top = board[3]
    post = np.array([top, (top[0], deck_z - BELOW_DECK_M), (
        top[0] + POST_WIDE_M, deck_z - BELOW_DECK_M), top + POST_WIDE_M * _unit(one)])
    strokes = [*section_at(boat, middle, seat=False)]
    for side in (1.0, -1.0):
        strokes += [Path("hidden-body", oval * (side, 1.0), closed=True),
                    Path("cut", board * (side, 1.0), closed=True),
                    Path("block", pad * (side, 1.0), closed=True),
                    Path("block", post * (side, 1.0), closed=True),
                    box("fine", side * wall, deck_z - BELOW_DECK_M, side * (wall + WALL_M), rim_z)]
    high = max(rim_z, float(boat.sections.z_m.max())) + 1.0 * letters_m
    at, right = 0.5 * (board[0] + board[1]), 0.5 * boat.beam_m + letters_m
    for text, spot, up in (("post", post.mean(axis=0), high + letters_m), (
            "board", at, high - 1.2 * letters_m),
            ("pad", pad.mean(axis=0), float(pad[:, 1].min()) - letters_m)):
        strokes += [label((right, up), text, letters_m),
                    line("extension", spot, (right - 0.4 * letters_m, up))]
    edge = float(board[0, 0])
    strokes += measured((-edge, high), (edge, high), letters_m, _between, 1.2)
    across = Drawing("across", tuple(strokes)).moved((0.0, baseline_m))
    from_above = thigh_board(one, letters_m / LARGER).scaled(LARGER)
    return joined("thigh braces", [across, from_above.moved((
        across.box_m[2] + 4.0 * letters_m - from_above.box_m[0],
        0.5 * (across.box_m[1] + across.box_m[3] - from_above.box_m[1] - from_above.box_m[3])))])


def _between(value_m):
    return f"between the boards {both_text_short(value_m)}"


def _board(one, x_m):
    """The board across there, to starboard: underside from the wall out, then its top."""
    low = np.array([one.edge_m(x_m), (one.outer_m, one.outer_z_m)])
    return np.concatenate([low, np.add(low[::-1], (0.0, THICK_M * one.slope))])


def _unit(one):
    """One unit outboard along the board's top."""
    run = np.array([one.outer_m - one.inner_m, one.outer_z_m - one.inner_z_m])
    return run / run[0]


def _pad(one, x_m):
    inner, outer = np.array(one.edge_m(x_m)), np.array([one.outer_m, one.outer_z_m])
    half = 0.5 * (np.array([one.inner_m, one.inner_z_m]) + outer)
    low = (0.0, one.pad_m * one.slope)
    return np.array([inner, half, half - low, inner - low])


def hip_view(assessed, bench, baseline_m, letters_m):
    """The boat across at the sitting bones with hips, spacers, boards and pads, from astern,
    heights over the strongback; None where there are none."""
    one, boat = bench.hip_pads, assessed.boat
    if one is None:
        return None
    hips = 0.5 * assessed.person.body.hip_sitting.value_m
    body = np.stack([hips * np.cos(AROUND), one.hips_z_m + HIP_HEIGHT_M * np.sin(AROUND)], axis=1)
    strokes = [*section_at(boat, sit_x_m(boat)), Path("hidden-body", body, closed=True)]
    shapes = dict(zip(("spacer", "board", "pad"), _hip_shapes(one), strict=True))
    for side in (1.0, -1.0):
        strokes += [Path(pen, shape * (side, 1.0), closed=True) for pen, shape in zip(
            ("cut", "cut", "block"), shapes.values(), strict=True)]
    right = 0.5 * boat.beam_m + letters_m
    for row, (text, shape) in enumerate(shapes.items()):
        up = one.high_m + (1.0 - 2.2 * row) * letters_m
        strokes += [label((right, up), text, letters_m),
                    line("extension", shape.mean(axis=0), (right - 0.4 * letters_m, up))]
    face = one.face_m(one.hips_z_m)
    high = float(boat.sections.z_m.max()) - letters_m
    strokes += measured((-face, high), (face, high), letters_m, _between, 1.2)
    strokes += [line("extension", (side * face, one.hips_z_m), (side * face, high))
                for side in (1.0, -1.0)]
    return Drawing("hip pads", tuple(strokes)).moved((0.0, baseline_m))


def _hip_shapes(one):
    """Across to starboard: the spacer, the board on its inner face, the pad on that."""
    _, middle, tall = one.spacer_m
    tall = 0.5 * tall * np.cos(np.radians(one.lean_deg))
    behind = hip_pads.THICK_M
    yield _leaning(one, middle - tall, middle + tall, behind, behind + one.thick_m)
    yield _leaning(one, one.low_m, one.high_m, 0.0, behind)
    yield _leaning(one, one.low_m, one.high_m, -one.pad_m, 0.0)


def _leaning(one, low, high, near, far):
    return np.array([(one.face_m(z, behind), z) for z, behind in (
        (low, near), (low, far), (high, far), (high, near))])


def thigh_board(one, letters_m):
    """The starboard board of ThighBraces, the bow on the left, outboard up."""
    aft, wide, corner = LONG_M, one.wide_m, float(one.flat_m[2, 1])
    strokes = [Path("block", one.post_flat_m, closed=True),
               Path("cut", nicked_m(one), closed=True),
               Path("hidden-body", one.pad_flat_m, closed=True)]
    strokes += [Circle("drill", hole, 0.5 * HOLE_M) for hole in one.holes_m]
    for nick, hole in zip(one.nicks_m, one.holes_m[:2], strict=True):
        strokes.append(line("here", nick, hole))
    for at, out in one.holes_m[2:]:
        strokes.append(line("here", (at, out), (at, wide)))
    right, low, left, high = aft + 3.2 * letters_m, -letters_m, -letters_m, wide + 2.2 * letters_m
    (after, out), (fore, _) = one.holes_m[2:]
    strokes += measured((aft - POST_LONG_M, low), (aft, low), letters_m, beside=-1.5)
    strokes += measured((0.0, high), (fore, high), letters_m)
    strokes += measured((after, high), (aft, high), letters_m)
    strokes += measured((left, out), (left, wide), letters_m)
    strokes += measured((aft + letters_m, corner), (aft + letters_m, 0.0), letters_m)
    rows = (("edge on the gunwale", wide - 0.4 * letters_m, (aft, wide)),
            (told("holes {}", size(HOLE_M)), wide - 2.2 * letters_m, (after, out)),
            ("post on the edge under", corner + 3.4 * letters_m, one.post_flat_m.mean(axis=0)),
            (told("the wall, nicked {}", size(NICK_M)), corner + 1.8 * letters_m, None))
    for text, up, spot in rows:
        strokes.append(label((right, up), text, letters_m))
        if spot is not None:
            strokes.append(line("extension", spot, (right - 0.4 * letters_m, up)))
    strokes.append(label((letters_m, 0.4 * wide), "BOW", letters_m))
    return Drawing("thigh board", tuple(strokes))
