"""How a boat may differ from its design before anything is measured: smoothly, along the length.

A change along one stick is a sum of waves along the boat, the shorter the smaller, and is nothing
at the stems, from which the bench is set up; scaled here to a greatest standard deviation. A boat's
change is the sum of such changes, each in its own manner: the whole boat hogged, winding, out of
line or wider, and each stick by itself, alike on both sides or not. A frame may also be set up high
or low by itself, and a stick lie off in its notch, which is not smooth.

How large the changes of one boat are is learnt from its own measures: see `size_of`.
"""

from functools import lru_cache

import numpy as np
from scipy.linalg import eigh
from scipy.optimize import minimize_scalar

# One standard deviation of each manner where it is greatest, m, together 6 mm of a gunwale's height
# amidships: two of them are the 12 mm up to which such a boat is off. All our judgement.
HOG_M = 0.004
WIND_M = 0.004  # at the greatest half-breadth
SIDEWAYS_M = 0.0025
WIDER_M = 0.003
STICK_M = 0.0025
STICK_SIDES_M = 0.0015
FRAME_M = 0.0015  # of a frame's height by itself, not found as an odd one
NOTCH_M = 0.0015  # of a stick in one notch by itself, either way, the same
WILD = 2.0  # times as far off is a boat that still accuses no frame and no measure
SIZE_SD = np.log(2.0)  # of the log of a boat's own size: half or twice in a third of boats
WAVES, SMOOTH = 8, 2.5  # and the power by which shorter waves are smaller; our judgement


def along_length(x_m, length_m):
    """(n, n) covariance, greatest variance 1, of a smooth change that is nothing at both ends.

    The sum over waves of k^-2p sin(k pi x / L) sin(k pi x' / L): a stick's own bending, the sum of
    its squared curvature, is p = 2; a stick lashed to many frames is smoother still. x are the
    frames' places, (n,), and L the hull's length.
    """
    wave = np.arange(1, WAVES + 1)
    shapes = np.sin(np.pi * np.outer(np.asarray(x_m) / length_m, wave)) * wave**-SMOOTH
    cover = shapes @ shapes.T
    return cover / cover.diagonal().max()


def prior(points):
    """(2 n, 2 n) covariance, m2, of the changes of all Points."""
    along = along_length(points.frame_x_m, points.length_m)[np.ix_(points.frame, points.frame)]
    y, z = points.at.T
    none, one, sign = np.zeros_like(y), np.ones_like(y), points.sign
    beside = np.abs(sign)  # nothing on the centre line has a half-breadth that changes
    arm = z - 0.5 * (z.min() + z.max())
    widest = y.max()
    total = sum(sd**2 * _manner(along, *ways) for sd, ways in (
        (HOG_M, (none, one)),
        (WIND_M, (-sign * arm / widest, sign * y / widest)),
        (SIDEWAYS_M, (sign, none)),
        (WIDER_M, (beside, none))))
    names = np.array([key[2] for key in points.keys])
    same = names[:, None] == names[None, :]
    for sd, ways in ((STICK_M, (beside, none)), (STICK_M, (none, one)),
                     (STICK_SIDES_M, (sign, none)), (STICK_SIDES_M, (none, sign))):
        total = total + sd**2 * _manner(along * same, *ways)
    return total


def by_itself(points):
    """(2 n, 2 n) covariance, m2, of what is not smooth: each frame high or low, each notch off."""
    same = (points.frame[:, None] == points.frame[None, :]).astype(float)
    moves = np.column_stack([np.abs(points.sign), 1.0 + 0.0 * points.sign]).ravel()
    return (FRAME_M**2 * _manner(same, 0.0 * points.sign, 1.0 + 0.0 * points.sign)
            + NOTCH_M**2 * np.diag(moves))


@lru_cache(maxsize=4)  # asked for with every measure that is typed, and by the sheets
def before(points):
    """(2 n, 2 n) covariance, m2, of a boat of which nothing is known yet; to be read alone."""
    return prior(points) + by_itself(points)


def gain_of(cover_m2, rows, noise_m2):
    """(2 n, m) by how much each change is known from each measure: K H' (H K H' + T)^-1."""
    return np.linalg.solve(rows @ cover_m2 @ rows.T + noise_m2, rows @ cover_m2).T


def left_m2(cover_m2, rows, noise_m2):
    """(2 n, 2 n) what stays unknown of the changes once measures of these rows are read."""
    return cover_m2 - gain_of(cover_m2, rows, noise_m2) @ (rows @ cover_m2)


def _manner(along, way_y, way_z):
    """Covariance of a change that moves each point by its (way_y, way_z) times one curve."""
    ways = np.column_stack([way_y, way_z]).ravel()
    return np.kron(along, np.ones((2, 2))) * ways[:, None] * ways[None, :]


def size_of(wide_m2, noise_m2, off_m):
    """How many times larger than by the prior a boat's changes are, most likely by its measures.

    The greatest of the marginal likelihood of off ~ N(0, s^2 wide + noise) times that of log s,
    N(0, SIZE_SD^2): with the eigenvalues a of wide against noise and off = V z in their vectors,
    -2 log is the sum of log(1 + s^2 a) + z^2 / (1 + s^2 a), and (log s / SIZE_SD)^2.

    Parameters
    ----------
    wide_m2, noise_m2 : (m, m) covariance of the measures by the prior, and of what is beside it
    off_m : (m,) measured less designed
    """
    along, vectors = eigh(wide_m2, noise_m2)
    along, squares = np.maximum(along, 0.0), (vectors.T @ off_m) ** 2

    def unlikely(log_size):
        total = 1.0 + np.exp(2.0 * log_size) * along
        return (np.log(total) + squares / total).sum() + (log_size / SIZE_SD) ** 2

    return float(np.exp(minimize_scalar(unlikely, bounds=(-5.0 * SIZE_SD, 5.0 * SIZE_SD),
                                        method="bounded").x))
