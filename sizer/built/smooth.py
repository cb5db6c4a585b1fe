"""How a boat may differ from its design before anything is measured: smoothly, along the length.

A change along one stick is a sum of waves along the boat, the shorter the smaller, and is nothing
at the stems, from which the bench is set up; scaled here to a greatest standard deviation. A boat's
change is the sum of such changes, each in its own manner: the whole boat hogged, winding, out of
line or wider, and each stick by itself, alike on both sides or not.
"""

import numpy as np

# One standard deviation of each manner where it is greatest, m; all our judgement.
HOG_M = 0.008
WIND_M = 0.008  # at the greatest half-breadth
SIDEWAYS_M = 0.005
WIDER_M = 0.006
STICK_M = 0.005
STICK_SIDES_M = 0.003
WAVES, SMOOTH = 8, 2.5  # and the power by which shorter waves are smaller; our judgement


def along_length(x_m, length_m):
    """Covariance, greatest variance 1, of a smooth change that is nothing at both ends.

    The sum over waves of k^-2p sin(k pi x / L) sin(k pi x' / L): a stick's own bending, the sum of
    its squared curvature, is p = 2; a stick lashed to many frames is smoother still.

    Parameters
    ----------
    x_m : (n,) of the frames
    length_m : L, of the hull

    Returns
    -------
    (n, n)
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


def _manner(along, way_y, way_z):
    """Covariance of a change that moves each point by its (way_y, way_z) times one curve."""
    ways = np.column_stack([way_y, way_z]).ravel()
    return np.kron(along, np.ones((2, 2))) * ways[:, None] * ways[None, :]
