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
BEHIND_NOTCH_M = 0.016  # of plywood round every notch, towards the opening
ROUND_M = 0.012  # least radius of the opening's corners
SAME_PLACE_M = 1e-6  # nearer corners of a section are one
NO_WAY_THROUGH_M = -0.1  # clearance that counts for a frame without an opening


def panel_widths_m(kind, skin_m, sheer):
    """Width of plywood behind each skin panel of one side, from keel to deck: (..., n - 1) m.

    Parameters
    ----------
    kind : of the frame
    skin_m : (..., n, 2) half-breadth and height of the skin's corners, from the keel up
    sheer : row of the gunwale

    None for a frame that stays whole.
    """
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


def squares(skin_m, count):
    """Unit vectors into the boat, square to the first `count` sticks of a half-section.

    The keel lies flat; the others lie across the bisector of the skin panels beside them. Leading
    axes of `skin_m` (..., n, 2) are kept.
    """
    along = np.diff(skin_m, axis=-2)
    along = along / np.maximum(np.linalg.norm(along, axis=-1, keepdims=True), 1e-12)
    inward = np.stack([-along[..., 1], along[..., 0]], axis=-1)
    last = inward.shape[-2] - 1
    rows = np.arange(count)
    both = inward[..., np.maximum(rows - 1, 0), :] + inward[..., np.minimum(rows, last), :]
    both[..., 0, :] = (0.0, 1.0)
    return both / np.maximum(np.linalg.norm(both, axis=-1, keepdims=True), 1e-12)


def clear_of_frame_m(kind, skin_m, sheer, stock_m, points_m):
    """Least distance from points inside a frame to its plywood, on the safe side; negative in it.

    Each skin panel is taken as endless, which is exact or on the safe side where the section bulges
    outwards. Round a stick the wood reaches BEHIND_NOTCH_M past its corners.

    Parameters
    ----------
    kind, skin_m, sheer : as `panel_widths_m`; the last row is on the centre line or the coaming.
        Leading axes stand against those of the groups of points.
    stock_m : (n_sticks, 2) width and depth of the sticks at the first rows of `skin_m`
    points_m : (..., n_points, 2) half-breadth and height, to starboard

    Returns
    -------
    (...) of each group of points
    """
    widths = panel_widths_m(kind, skin_m, sheer)
    if widths is None:
        return np.full(points_m.shape[:-2], NO_WAY_THROUGH_M)
    start, (run, rise) = skin_m[..., :-1, :], np.moveaxis(np.diff(skin_m, axis=-2), -1, 0)
    length = np.hypot(run, rise)
    there = length > SAME_PLACE_M  # two sticks that lie on one place have no panel between them
    inward = np.stack([-rise, run], axis=-1) / np.where(there, length, 1.0)[..., None]
    inner = np.where(there, np.sum(start * inward, axis=-1) + widths, -np.inf)
    middle = skin_m[..., :len(stock_m), :] + 0.5 * stock_m[:, 1:] * squares(skin_m, len(stock_m))
    reach = 0.5 * np.hypot(*stock_m.T) + BEHIND_NOTCH_M
    lead = np.broadcast_shapes(inner.shape[:-1], points_m.shape[:-2])
    clear = np.full(int(np.prod(lead)), np.inf)
    compiled(_least_clear)(flat(lead, inward, 2), flat(lead, inner, 1), flat(lead, middle, 2),
                           reach, flat(lead, points_m, 2), clear)
    return clear.reshape(lead)[()]


def _least_clear(inward, inner_m, middle_m, reach_m, points_m, clear_m):
    """Lowers `clear_m` (n,) to the least distance of each group of points from its panels' inner
    edges and round its sticks; NaN where one is."""
    for group in range(clear_m.size):
        for point in range(points_m.shape[1]):
            y, z = points_m[group, point]
            for panel in range(inner_m.shape[1]):
                past = (y * inward[group, panel, 0] + z * inward[group, panel, 1]
                        - inner_m[group, panel])
                clear_m[group] = np.minimum(clear_m[group], past)
            for stick in range(reach_m.size):
                gap = np.hypot(y - middle_m[group, stick, 0],
                               z - middle_m[group, stick, 1]) - reach_m[stick]
                clear_m[group] = np.minimum(clear_m[group], gap)
