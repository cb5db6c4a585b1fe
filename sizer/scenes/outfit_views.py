"""Footbrace and thigh braces: the rail with its holes, and the section where the thigh pads are."""

import numpy as np

from sizer.drawing.marks import box, line
from sizer.drawing.measured import both_text_short, label, measured, mm_text
from sizer.drawing.record import Circle, Drawing, Path, joined
from sizer.scenes.sections import section_at
from sizer.shop.coaming import BELOW_DECK_M, WALL_M
from sizer.shop.foot_rails import (
    AHEAD_M,
    BLOCK_M,
    BOLT_MM,
    BOLTS_M,
    CHEEK_M,
    INNER_M,
    STOP_M,
    STRAP_M,
)
from sizer.shop.leg_room import legs_in
from sizer.shop.outfit import PIN_M, PINS_AFT_M, RAIL_OVER_M, RAIL_PAST_M
from sizer.shop.seat_parts import RAIL_M
from sizer.shop.thigh import THICK_M
from sizer.units import MM_PER_M


def footbrace_view(bench, letters_m):
    """One rail from inside the boat, bow on the left, with every hole and the paddler's pedal on
    it; and the pedal from astern."""
    rails = bench.foot_rails
    high = RAIL_M[1]
    strokes = [box("cut", 0.0, 0.0, rails.long_m, high),
               *(Circle("drill", (at, 0.5 * high), 0.5 * PIN_M) for at in rails.holes_m),
               *_frames_beside(bench), *_pedal_beside(rails)]
    foot = 0.5 * RAIL_M[1] - rails.low_m  # a plate's lower edge
    over = foot + rails.pedal_m[2]
    strokes += [line("extension", (rails.set_m, over), (rails.set_m, over + 1.4 * letters_m)),
                label((rails.set_m, over + 2.2 * letters_m), f"sole, this paddler "
                      f"{both_text_short(rails.set_m)}", letters_m)]
    first, last = rails.holes_m[0], rails.holes_m[-1]
    low = foot - 1.2 * letters_m
    strokes += measured((0.0, low), (first, low), letters_m, beside=-1.0)
    strokes += measured((first, low), (last, low), letters_m,
                        lambda value: f"{len(rails.holes_m)} holes, {both_text_short(value)}",
                        -1.2)
    low -= 3.6 * letters_m
    strokes += measured((0.0, low), (rails.long_m, low), letters_m, both_text_short, -1.2)
    strokes += [label((-letters_m, 0.5 * high), f"at {rails.fore}", letters_m, "end"),
                label((rails.long_m + letters_m, 0.5 * high), f"at {rails.aft}", letters_m)]
    return joined("footbrace", [
        Drawing("rail", tuple(strokes)),
        _pedal_behind(rails, letters_m).moved((rails.long_m + 12.0 * letters_m, 0.0))])


def _frames_beside(bench):
    """The plywood of both frames behind the rail with the grooves beside it, and the stop behind it
    against the after one."""
    rails = bench.foot_rails
    thick = {one.name: one.thickness_m for one in bench.frames}
    aft = rails.long_m - RAIL_PAST_M
    for left, wide in ((RAIL_OVER_M, thick[rails.fore]), (aft - thick[rails.aft], thick[rails.aft]),
                       (aft, STOP_M[1])):
        yield box("extension", left, 0.0, left + wide, RAIL_M[1])
    for left, right in rails.grooves_m:
        yield box("fine", left, 0.0, right, RAIL_M[1])


def _pedal_beside(rails):
    """The pedal on the rail, its plate's after face at the paddler's place: cheek, plate, pins."""
    sole, low = rails.set_m, 0.5 * RAIL_M[1] - rails.low_m
    fore, up = sole - rails.pedal_m[0], 0.5 * (RAIL_M[1] - CHEEK_M[2])
    yield box("block", sole - AHEAD_M, up, sole - AHEAD_M + CHEEK_M[1], up + CHEEK_M[2])
    yield box("block", sole - AHEAD_M, up, fore, up + CHEEK_M[2])
    yield box("block", fore, low, sole, low + rails.pedal_m[2])
    for aft in PINS_AFT_M:
        yield Circle("here", (sole + aft, 0.5 * RAIL_M[1]), 0.5 * PIN_M)


def _pedal_behind(rails, letters):
    """Rail, cheek, block and plate to port from astern, and the strap across both plates."""
    high, low, lean = rails.pedal_m[2], -rails.low_m, np.radians(rails.lean_deg)
    up, inward = np.array([-np.sin(lean), np.cos(lean)]), np.array([np.cos(lean), np.sin(lean)])

    def leaning(pen, near, far, tall):
        corners = [(near, -tall), (far, -tall), (far, tall), (near, tall)]
        return Path(pen, np.array([0.5 * along * up + out * inward for out, along in corners]),
                    closed=True)

    rail, cheek = RAIL_M[0], RAIL_M[0] + CHEEK_M[0]
    middle, right = rails.half_m, rails.half_m - INNER_M  # the boat's, and the plate's edge
    lower, upper = (right - wide for wide in rails.plate_wide_m)
    strap = low + 0.5 * (high - STRAP_M[2])
    return Drawing("pedal", (
        leaning("cut", 0.0, rail, RAIL_M[1]), leaning("cut", rail, cheek, CHEEK_M[2]),
        leaning("guide", cheek, cheek + BLOCK_M[1], CHEEK_M[2]),
        Path("cut", np.array([(lower, low), (right, low), (right, low + high),
                              (upper, low + high)]), closed=True),
        box("guide", middle - 0.5 * STRAP_M[1], strap, middle + 0.5 * STRAP_M[1],
            strap + STRAP_M[2]),
        *(Circle("drill", (middle + side * out, low + 0.5 * high), 0.5 * BOLT_MM[0] / MM_PER_M)
          for out in BOLTS_M for side in (1.0, -1.0)),
        line("centre", (middle, low - letters), (middle, low + high + letters)),
        *measured((lower, low - 1.2 * letters), (right, low - 1.2 * letters), letters,
                  mm_text, -1.2),
        *measured((middle + 0.5 * STRAP_M[1] + 1.2 * letters, low),
                  (middle + 0.5 * STRAP_M[1] + 1.2 * letters, low + high), letters, mm_text, -1.2),
        label((upper, low + high + 1.6 * letters), "port pedal and strap from astern",
              letters))).moved((0.0, 0.5 * RAIL_M[1]))


def thigh_view(assessed, bench, baseline_m, letters_m):
    """The boat across at the thigh braces' after end, where they meet the coaming, from astern,
    heights over the strongback; None where there are none."""
    one, boat = bench.thigh, assessed.boat
    if one is None:
        return None
    middle = one.aft_x_m
    legs = legs_in(assessed)
    oval = legs.outlines_m(np.array([boat.seat_x_m - middle]), boat.seat_z_m)[0]
    deck_z = float(np.interp(middle, (boat.opening.front_x_m, boat.opening.back_x_m),
                             boat.opening.deck_z_m))
    rim_z = float(np.interp(middle, (boat.opening.front_x_m, boat.opening.back_x_m),
                            boat.opening.rim_z_m))
    wall = float(boat.opening.half_width_m(np.array([middle]))[0])
    board, pad = _board(one), _pad(one)
    strokes = [*section_at(boat, middle, seat=False)]
    for side in (1.0, -1.0):
        strokes += [Path("hidden-body", oval * (side, 1.0), closed=True),
                    Path("cut", board * (side, 1.0), closed=True),
                    Path("block", pad * (side, 1.0), closed=True),
                    box("fine", side * wall, deck_z - BELOW_DECK_M, side * (wall + WALL_M), rim_z)]
    high = max(rim_z, float(boat.sections.z_m.max())) + 1.0 * letters_m
    at, right = 0.5 * (board[0] + board[1]), 0.5 * boat.beam_m + letters_m
    for text, spot in (("board", at), ("pad", pad.mean(axis=0))):
        up = (high + letters_m) if text == "board" else float(pad[:, 1].min()) - letters_m
        strokes += [label((right, up), text, letters_m),
                    line("extension", spot, (right - 0.4 * letters_m, up))]
    strokes += measured((-one.inner_m, high), (one.inner_m, high), letters_m, both_text_short, 1.2)
    return Drawing("thigh braces", tuple(strokes)).moved((0.0, baseline_m))


def _board(one):
    """The board across, to starboard: underside from the wall to the gunwale, then its top."""
    low = np.array([(one.inner_m, one.inner_z_m), (one.outer_m, one.outer_z_m)])
    return np.concatenate([low, np.add(low[::-1], (0.0, THICK_M))])


def _pad(one):
    """The pad under the board's inner half."""
    inner = np.array([one.inner_m, one.inner_z_m])
    outer = np.array([one.outer_m, one.outer_z_m])
    half = 0.5 * (inner + outer)
    return np.array([inner, half, half - (0.0, 0.5 * one.pad_m), inner - (0.0, one.pad_m)])
