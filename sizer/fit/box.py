"""Least squares in four numbers between bounds, for many side by side and without a search."""

from itertools import product

import numpy as np

WIDTH = 4
HELD = 1e-12  # bounds nearer to each other hold a number
# Each number at its lower bound, free, or at its upper bound: all 81 ways.
_SIDES = np.array(list(product((-1, 0, 1), repeat=WIDTH)))


def least_in_box(rows, aims, low, high):
    """Least squares |rows x - aims| between bounds, for each of n: (n, 4).

    Free where that lies inside the bounds; else the best of all ways of standing at them.

    Parameters
    ----------
    rows : (n, k, 4); no number that is held has a slope in them
    aims : (n, k)
    low, high : (n, 4)
    """
    gram, pull = np.einsum("nki,nkj->nij", rows, rows), np.einsum("nki,nk->ni", rows, aims)
    unit = np.eye(low.shape[1])
    held = high - low < HELD
    loose = ~held[:, :, None] & ~held[:, None, :]
    gram = np.where(loose, gram, unit)
    pull = np.where(held, low, pull)
    found = np.linalg.solve(gram, pull[..., None])[..., 0]
    out = np.flatnonzero(((found < low) | (found > high)).any(axis=1))
    if out.size:
        found[out] = _at_bounds(gram[out], pull[out], low[out], high[out])
    return np.clip(found, low, high)


def _at_bounds(gram, pull, low, high):
    """Of all 81 ways of standing free or at a bound, the best that lies between the bounds."""
    free = _SIDES == 0
    bound = np.where(_SIDES < 0, low[:, None], high[:, None])  # (n, 81, 4)
    matrix = np.where(free[:, :, None], gram[:, None], np.eye(low.shape[1]))
    there = np.linalg.solve(matrix, np.where(free, pull[:, None], bound)[..., None])[..., 0]
    room = 1e-9
    inside = ((there >= low[:, None] - room) & (there <= high[:, None] + room)).all(axis=-1)
    cost = (0.5 * np.einsum("nsi,nij,nsj->ns", there, gram, there)
            - np.einsum("nsi,ni->ns", there, pull))
    return there[np.arange(len(low)), np.where(inside, cost, np.inf).argmin(axis=1)]
