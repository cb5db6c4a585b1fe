"""Which measures tell most of how the boat floats, and how well those that were taken tell it.

The displacement at the designed draft and the GM are linear in small changes of the points. Draft
is counted from the boat itself: the water plane goes up, down and tilts with the hull's sticks,
keel to gunwale, at large. A boat that stands 2 mm high on its blocks floats no higher, though under
a plane at a fixed height over the strongback it would lose 3 % of its displacement. Afloat the
weight is given, and 1 % of displacement is 0.6 to 0.8 mm that the boat floats too deep.

Each next measure is the one that takes most from what is still unknown of both, counted in what is
wanted of them (greedy A-optimal design, e.g. Pukelsheim, Optimal Design of Experiments, 1993).
"""

from dataclasses import dataclass

import numpy as np

from sizer.built.as_built import mean_of
from sizer.built.measures import row_of
from sizer.design.check import HULL_ROLES
from sizer.fit.assess import assess_boat
from sizer.hydro.immersion import half_outline, immersed, up_vectors

WANTED = (0.007, 0.002)  # share of the displacement, m of GM
STEP_M = 0.002  # of one point, for slopes


@dataclass(frozen=True, eq=False)
class Slopes:
    """What a metre of each change of the Points adds."""

    share: np.ndarray  # (2 n,) of displacement at the designed draft, per m
    gm: np.ndarray  # (2 n,) m per m


def slopes_of(points, assessed, drawn_for):
    """The Slopes of an Assessed boat, by central differences of the mean of its sides.

    Central, since GM has a kink where a chine lies at the water.
    """

    level, trim = (np.array([float(one)]) for one in assessed.start)
    up = up_vectors(np.zeros(1), trim)

    def told(change):
        boat = mean_of(assessed.boat, drawn_for, points, change)
        volume = immersed(half_outline(boat.sections), up, level).volume_m3[0]
        return np.array([volume, assess_boat(  # anew: the seat stands on what has moved
            boat, assessed.person, seat_held=True).upright.gm_m])

    none = np.zeros((len(points.keys), 2))
    found = np.zeros((2, none.size))
    for index, (side, frame, name) in enumerate(points.keys):
        for axis in range(0 if points.sign[index] else 1, 2):
            if side == "port":
                continue
            moved = none.copy()
            moved[index, axis] = STEP_M
            slope = (told(moved) - told(-moved)) / (2.0 * STEP_M)
            found[:, 2 * index + axis] = slope
            if points.sign[index]:
                found[:, 2 * points.index("port", frame, name) + axis] = slope
    found[0, 1::2] -= _by_the_plane(points, assessed.boat.design, found[0, 1::2])
    return Slopes(found[0] / told(none)[0], found[1])


def _by_the_plane(points, design, per_height):
    """(n,) what each height adds by the plane fitted to the hull's sticks (least squares)."""
    hull = np.array([design.stringer(name).role in HULL_ROLES for _, _, name in points.keys])
    ways = np.column_stack([np.ones(hull.size), points.frame_x_m[points.frame]])
    return hull * (np.linalg.pinv(ways * hull[:, None]).T @ (ways.T @ per_height))


def spreads(slopes, covariance_m2):
    """(share of displacement, m of GM): one standard deviation of each that stays unknown."""
    return tuple(float(np.sqrt(max(row @ covariance_m2 @ row, 0.0)))
                 for row in (slopes.share, slopes.gm))


def most_telling(points, slopes, cover_m2, reaches, noise_m, count):
    """Indices of the `count` reaches that tell most, the most telling first.

    Parameters
    ----------
    cover_m2 : (2 n, 2 n) of the changes before anything is measured
    reaches : sequence of Reach, each taken once at most
    noise_m : (len(reaches),) standard deviation of each reading
    """
    rows = np.array([row_of(points, one)[0] for one in reaches])
    aims = np.array([slopes.share / WANTED[0], slopes.gm / WANTED[1]])
    cover, chosen, free = cover_m2, [], np.ones(len(reaches), bool)
    for _ in range(min(count, len(reaches))):
        across = rows @ cover
        own = (across * rows).sum(axis=1) + np.square(noise_m)
        gain = np.where(free, ((across @ aims.T) ** 2).sum(axis=1) / own, -np.inf)
        best = int(gain.argmax())
        chosen.append(best)
        free[best] = False
        cover = cover - np.outer(across[best], across[best]) / own[best]
    return tuple(chosen)
