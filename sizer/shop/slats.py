"""Seats between two frames: slats on their floors, or straps that hang.

Slats lie clear of the plywood that stands up behind the notches. Straps hang so little under the
floors that they pull the two frames together with far more than the paddler's weight.
"""

import numpy as np

from sizer.hull.inside import BEHIND_NOTCH_M, SAME_PLACE_M, panel_widths_m, squares
from sizer.hull.seat import OVER_KEEL_M, SEATED_SHARE, SIT_APART_M
from sizer.shop.boards import Board, ends_m, hull_at, sit_x_m, stands_m, strip_m, thick_m
from sizer.units import STANDARD_GRAVITY_MPS2

SLAT_M = 0.075  # a slat is no wider; our drawing
LEAST_SLAT_M = 0.025  # narrower places stay empty; our drawing
GAP_M = 0.006  # between slats or straps; our drawing
FOOT_M = 0.005  # a slat keeps this far from the plywood behind a notch; our drawing
STRAP_M = 0.050  # width of webbing, a common size
TIE_SHARES = (0.25, 0.75)  # of a slat's width, where its lashings are; our drawing
TIE_IN_M = 0.010  # from a frame's inner face to the middle of a lashing's hole; our drawing
CUT_M = (0.004, 0.005)  # width and depth of the saw cut in a slat's end for each; our drawing


def slats(boat, x_m):
    """Slats from frame to frame, side by side where both floors are free of notches."""
    front, back = ends_m(boat)
    floors = _floors_m(boat)
    thick = boat.design.seat.thickness_m
    ahead, behind = (one.thickness_m + TIE_IN_M for one in stands_m(boat))
    for low, high in _free_m(boat):
        count = int(np.ceil((high - low) / SLAT_M))
        wide = (high - low + GAP_M) / count - GAP_M
        for number in range(count):
            inner = low + number * (wide + GAP_M)
            edges = np.array([inner, inner + wide])
            yield Board(
                "seat slat", strip_m(front, back, *edges),
                thick_m(np.column_stack([edges, _between(boat, x_m, floors(edges))]), thick),
                strip_m(0.0, back - front, 0.0, wide),
                tuple((float(at), share * float(wide)) for at in (ahead, back - front - behind)
                      for share in TIE_SHARES))


def straps(boat, x_m):
    """Straps of webbing side by side; each follows the bottom as far off as the seat is drawn."""
    seat = boat.design.seat
    front, back = ends_m(boat)
    skin = hull_at(boat, [x_m])[0]
    keel = boat.design.stringers[0]
    level = max(np.interp(SIT_APART_M, *skin.T) + seat.clear_of_skin_m,
                skin[0, 1] + keel.depth_m + OVER_KEEL_M)
    for number in range(max(1, round(0.5 * seat.width_m / (STRAP_M + GAP_M)))):
        inner = number * (STRAP_M + GAP_M) + 0.5 * GAP_M
        across = np.unique(np.clip([inner, SIT_APART_M, inner + STRAP_M], inner, inner + STRAP_M))
        under = np.maximum(np.interp(across, *skin.T) + seat.clear_of_skin_m, level)
        yield Board("seat strap", strip_m(front, back, inner, inner + STRAP_M),
                    thick_m(np.column_stack([across, under]), seat.thickness_m),
                    strip_m(0.0, back - front, 0.0, STRAP_M))


def sag_under_m(boat):
    """How far straps hang under the line from floor to floor of their frames, where one sits."""
    line = _between(boat, sit_x_m(boat), _floors_m(boat)(np.array([SIT_APART_M])))[0]
    return float(line - (boat.seat_z_m - boat.design.seat.thickness_m))


def pull_n(boat, body_kg):
    """Pull of all straps together on each of their frames, N: F a b / ((a + b) s), a line with one
    load F between two ends, a and b from it, that hangs s; endless where it does not hang.

    Source: any handbook of statics. Where webbing gives, it hangs lower and pulls less, and the
    paddler sits on the skin.
    """
    force = SEATED_SHARE * body_kg * STANDARD_GRAVITY_MPS2
    fore, aft = (abs(one.x_m - sit_x_m(boat)) for one in stands_m(boat))
    sag = sag_under_m(boat)
    return force * fore * aft / ((fore + aft) * sag) if sag > 0.0 else np.inf


def _floors_m(boat):
    """Heights of the two frames' floors at some half-breadths, as a function: (2, n)."""
    stands = stands_m(boat)
    skins = hull_at(boat, [one.x_m for one in stands])

    def heights(y_m):
        found = []
        for stand, skin in zip(stands, skins, strict=True):
            run, rise = np.diff(skin, axis=0).T
            row = np.clip(np.searchsorted(skin[:, 0], y_m) - 1, 0, len(run) - 1)
            deep = panel_widths_m(stand.kind, skin, len(run))[row]
            found.append(np.interp(y_m, *skin.T) + deep * np.hypot(
                1.0, rise[row] / np.maximum(run[row], SAME_PLACE_M)))
        return np.array(found)

    return heights


def _between(boat, x_m, heights):
    """Straight from the floor of the one frame to that of the other."""
    fore, aft = (one.x_m for one in stands_m(boat))
    share = (x_m - fore) / (aft - fore)
    return (1.0 - share) * heights[0] + share * heights[1]


def _free_m(boat):
    """Half-breadths between which neither frame has plywood standing up behind a notch."""
    half = 0.5 * boat.design.seat.width_m
    taken = []
    for skin in hull_at(boat, [one.x_m for one in stands_m(boat)]):
        stock = boat.lines.stock_m[:len(skin)]
        middle = skin + 0.5 * stock[:, 1:] * squares(skin, len(skin))
        reach = 0.5 * np.hypot(*stock.T) + BEHIND_NOTCH_M + FOOT_M
        taken += list(zip(middle[:, 0] - reach, middle[:, 0] + reach, strict=True))
    free, low = [], 0.0
    for start, end in sorted(taken):
        if min(start, half) - low >= LEAST_SLAT_M:
            free.append((low, min(start, half)))
        low = max(low, end)
    return [*free, (low, half)] if half - low >= LEAST_SLAT_M else free
