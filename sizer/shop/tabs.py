"""Tabs that hold a part in its sheet while it is cut: stretches of its saw lines to leave standing.

They lie where the outline runs smooth, never in a notch or at a corner, where a stub would keep a
stick from its seat.
"""

import numpy as np

TAB_M = 0.006  # of wood left along the line; our judgement
APART_M = 0.30  # between tabs along a line, about; our judgement
LEAST_TABS = 3  # to a part's outside; our judgement
LEAST_RING_M = 0.40  # a shorter inner line's waste is too small to fly; our judgement
SMOOTH_M = (0.030, 0.015, 0.008)  # without a corner to each side of a tab, tried in order; ours
CORNER_DEG = 8.0  # a sharper turn is a corner; our judgement
STEP_M = 0.004  # of places tried


def tabs(ring, inside):
    """The tabs of a closed saw line, (n, 2) m each, along it: a ring without its first point
    repeated, `inside` where it is an opening's."""
    closed = np.concatenate([ring, ring[:1]])
    along = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(closed, axis=0).T))])
    length = along[-1]
    if inside and length < LEAST_RING_M:
        return []
    places = np.arange(0.0, length, STEP_M)
    corners = along[:-1][_turns_deg(ring) > CORNER_DEG]
    away = np.abs(places[:, None] - corners)
    off = np.minimum(away, length - away).min(axis=1, initial=length)
    free = next((places[off >= smooth] for smooth in SMOOTH_M if (off >= smooth).any()), places)
    count = max(LEAST_TABS, round(length / APART_M))
    wanted = (np.arange(count) + 0.5) * length / count
    apart = np.abs(free[None, :] - wanted[:, None])
    chosen = np.unique(free[np.minimum(apart, length - apart).argmin(axis=1)])
    return [_stretch(closed, along, middle) for middle in chosen]


def _turns_deg(ring):
    steps = np.roll(ring, -1, axis=0) - ring
    angle = np.degrees(np.arctan2(steps[:, 1], steps[:, 0]))
    return np.abs((angle - np.roll(angle, 1) + 180.0) % 360.0 - 180.0)


def _stretch(closed, along, middle):
    """The line from half a tab before a place to half a tab after it."""
    at = (middle + TAB_M * np.array([-0.5, 0.0, 0.5])) % along[-1]
    return np.stack([np.interp(at, along, column) for column in closed.T], axis=-1)
