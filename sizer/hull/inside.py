"""Where the plywood of a frame ends inside: its widths by kind, and how near a body comes to it.

The widths are our drawing. The patterns are sawn by them (`sizer.shop.ring`), the boat's weight is
taken from them, and the body has to clear them.
"""

import numpy as np

from sizer.compiled import compiled
from sizer.rows import flat

RING_WIDTH_M = 0.045  # of a ring frame, skin side to inside
COCKPIT_RING_WIDTH_M = 0.055  # frames that carry the coaming
SOLID_EDGE_M = 0.060  # round the hand hole of a solid frame, skin side to hole
FLOOR_M = 0.026  # of a cockpit frame over the bottom, low for the seat's and the thighs' sake
FLOOR_DEG = (30.0, 50.0)  # a skin panel flatter is the bottom, one steeper a side; between, between
DECK_BEAM_M = 0.030  # of a cockpit frame under the deck, for the legs' sake
RELIEF_M = 0.003  # of the plywood behind the skin, beside a stick
SIDE_HOLLOW_M = 0.003  # of a cockpit frame behind the skin of its side midway, over its relief
BEHIND_NOTCH_M = 0.016  # of plywood round every notch, towards the opening
ROUND_M = 0.012  # least radius of the opening's corners
SAME_PLACE_M = 1e-6  # nearer corners of a section are one
BOUND_M = 1e-9  # more than rounding, where an oval is taken as out of reach
NO_WAY_THROUGH_M = -0.1  # clearance that counts for a frame without an opening


def panel_widths_m(kind, skin_m, sheer):
    """Width of plywood behind each skin panel of one side of a frame of a kind, from keel to deck:
    (..., n - 1) m; None for a frame that stays whole.

    `skin_m` is (..., n, 2), half-breadth and height of the skin's corners from the keel up, `sheer`
    the row of the gunwale."""
    hull_m, deck_m = {
        "solid": (SOLID_EDGE_M, SOLID_EDGE_M), "ring": (RING_WIDTH_M, RING_WIDTH_M),
        "footbrace": (RING_WIDTH_M, RING_WIDTH_M),
        "cockpit": (COCKPIT_RING_WIDTH_M, DECK_BEAM_M), "stem": (None, None)}[kind]
    if hull_m is None:
        return None
    run, rise = np.moveaxis(np.diff(skin_m, axis=-2), -1, 0)
    widths = np.broadcast_to(np.where(np.arange(run.shape[-1]) < sheer, hull_m, deck_m), run.shape)
    if kind == "cockpit":
        steep = np.degrees(np.arctan2(rise, run))[..., :sheer]
        widths = np.concatenate([np.interp(steep, FLOOR_DEG, (FLOOR_M, hull_m)),
                                 widths[..., sheer:]], axis=-1)
    return widths


def side_middle_m(width_m):
    """How far behind the skin the middle of a cockpit frame's plywood lies half way up its side,
    which is `width_m` wide there from skin to inside: where the spacers' mortises are."""
    return 0.5 * (width_m + RELIEF_M + SIDE_HOLLOW_M)


def squares(skin_m, count):
    """Unit vectors into the boat, square to the first `count` sticks of a half-section.

    The keel lies flat; the others lie across the bisector of the skin panels beside them: between
    corners on one place, as a stick has that blends into another, there is no panel. Leading axes
    of `skin_m` (..., n, 2) are kept.
    """
    found = np.empty((*skin_m.shape[:-2], count, 2))
    compiled(_squares)(flat(skin_m.shape[:-2], skin_m, 2), found.reshape(-1, count, 2))
    return found


def _squares(skin_m, found):
    """Fills `found` (n, count, 2) from (n, n_corners, 2)."""
    last = skin_m.shape[1] - 2
    inward, there = np.empty((last + 1, 2)), np.empty(last + 1, np.bool_)
    for section in range(skin_m.shape[0]):
        for panel in range(last + 1):
            run = skin_m[section, panel + 1, 0] - skin_m[section, panel, 0]
            rise = skin_m[section, panel + 1, 1] - skin_m[section, panel, 1]
            length = np.sqrt(run * run + rise * rise)
            there[panel] = length > SAME_PLACE_M
            inward[panel, 0] = -rise / max(length, 1e-12)
            inward[panel, 1] = run / max(length, 1e-12)
        for stick in range(found.shape[1]):
            below, above = max(stick - 1, 0), min(stick, last)
            while below > 0 and not there[below]:
                below -= 1
            while above < last and not there[above]:
                above += 1
            across, up = inward[below, 0] + inward[above, 0], inward[below, 1] + inward[above, 1]
            if stick == 0:
                across, up = 0.0, 1.0
            length = max(np.sqrt(across * across + up * up), 1e-12)
            found[section, stick, 0], found[section, stick, 1] = across / length, up / length


def clear_of_frame_m(kind, skin_m, sheer, stock_m, ovals_m, around, most_m):
    """Least distance of ovals inside a frame from its plywood, on the safe side; negative in it;
    (n_boats,).

    Each skin panel is taken as endless, which is exact or on the safe side where the section bulges
    outwards. Round a stick the wood reaches BEHIND_NOTCH_M past its corners.

    Parameters
    ----------
    kind, skin_m, sheer : as `panel_widths_m`; the last row is on the centre line or the coaming.
        Of one boat (n, 2), or of each (n_boats, n, 2)
    stock_m : (n_sticks, 2) width and depth of the sticks at the first rows of `skin_m`
    ovals_m : (n_boats, n_ovals, 4) to starboard, as `sizer.paddler.legs.Legs.ovals_m`
    around : (n_points,) angles of the points of each oval that are asked
    most_m : (n_boats,) the answer where no point is nearer"""
    widths = panel_widths_m(kind, skin_m, sheer)
    if widths is None:
        return np.minimum(most_m, NO_WAY_THROUGH_M)
    start, (run, rise) = skin_m[..., :-1, :], np.moveaxis(np.diff(skin_m, axis=-2), -1, 0)
    length = np.hypot(run, rise)
    there = length > SAME_PLACE_M  # two sticks that lie on one place have no panel between them
    inward = np.stack([-rise, run], axis=-1) / np.where(there, length, 1.0)[..., None]
    inner = np.where(there, np.sum(start * inward, axis=-1) + widths, -np.inf)
    middle = skin_m[..., :len(stock_m), :] + 0.5 * stock_m[:, 1:] * squares(skin_m, len(stock_m))
    reach = 0.5 * np.hypot(*stock_m.T) + BEHIND_NOTCH_M
    clear = np.array(most_m, float)
    compiled(_least_clear)(
        *(one if skin_m.ndim == 3 else one[None] for one in (inward, inner, middle)), reach,
        np.ascontiguousarray(ovals_m), np.cos(around), np.sin(around), clear)
    return clear


def _least_clear(inward, inner_m, middle_m, reach_m, ovals_m, cosine, sine, clear_m):
    """Lowers `clear_m` (n,) to the least distance of the ovals' points from the panels' inner edges
    and round the sticks; NaN where one is. What the whole oval is farther from is passed over."""
    for boat in range(clear_m.size):
        frame = boat if inner_m.shape[0] > 1 else 0
        least = clear_m[boat]
        for oval in range(ovals_m.shape[1]):
            apart, half, height, tall = ovals_m[boat, oval]
            for panel in range(inner_m.shape[1]):
                across, up = inward[frame, panel]
                edge = inner_m[frame, panel]
                reach = np.hypot(half * across, tall * up) + BOUND_M
                if apart * across + height * up - edge - reach > least:
                    continue
                for point in range(cosine.size):
                    y, z = apart + half * cosine[point], height + tall * sine[point]
                    least = np.minimum(least, y * across + z * up - edge)
            around = max(abs(half), abs(tall)) + BOUND_M
            for stick in range(reach_m.size):
                across, up = middle_m[frame, stick]
                if np.hypot(apart - across, height - up) - around - reach_m[stick] > least:
                    continue
                for point in range(cosine.size):
                    y, z = apart + half * cosine[point], height + tall * sine[point]
                    least = np.minimum(least, np.hypot(y - across, z - up) - reach_m[stick])
        clear_m[boat] = least
