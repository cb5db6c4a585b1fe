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
from functools import lru_cache

import numpy as np

from sizer.built.as_built import means_of
from sizer.built.measures import reading_spread_m, row_of
from sizer.built.points import points_of
from sizer.built.smooth import left_m2
from sizer.design.check import HULL_ROLES
from sizer.fit.assess import assess_many, refusal
from sizer.hydro.immersion import half_outline, immersed, up_vectors
from sizer.rows import side_by_side

WANTED = (0.007, 0.002)  # share of the displacement, m of GM
STEP_M = 0.002  # of one point, for slopes


@dataclass(frozen=True, eq=False)
class Slopes:
    """What a metre of each change of the Points adds."""

    share: np.ndarray  # (2 n,) of displacement at the designed draft, per m
    gm: np.ndarray  # (2 n,) m per m


@lru_cache(maxsize=4)  # a second's work for a page and two sheets of one boat
def slopes_of(assessed, drawn_for):
    """The Slopes of an Assessed boat's Points, by central differences of the mean of its sides.

    Central, since GM has a kink where a chine lies at the water.
    """
    points = points_of(assessed.boat)
    asked = [(index, axis) for index, (side, _, _) in enumerate(points.keys) if side != "port"
             for axis in range(0 if points.sign[index] else 1, 2)]
    changes = np.zeros((1 + 2 * len(asked), len(points.keys), 2))
    for row, (index, axis) in enumerate(asked):
        changes[1 + 2 * row:3 + 2 * row, index, axis] = STEP_M, -STEP_M
    told = _told(assessed, means_of(assessed.boat, drawn_for, points, changes))
    found = np.zeros((2, 2 * len(points.keys)))
    for row, (index, axis) in enumerate(asked):
        slope = (told[:, 1 + 2 * row] - told[:, 2 + 2 * row]) / (2.0 * STEP_M)
        found[:, 2 * index + axis] = slope
        if points.sign[index]:
            _, frame, name = points.keys[index]
            found[:, 2 * points.index("port", frame, name) + axis] = slope
    found[0, 1::2] -= _by_the_plane(points, assessed.boat.design, found[0, 1::2])
    return Slopes(found[0] / told[0, 0], found[1])


def _told(assessed, boats):
    """(2, n) m3 at the designed draft and trim, m of GM of each of some boats."""
    many = assess_many(side_by_side(boats), assessed.person, seat_held=True)  # anew: the seat
    if not many.floats.all():  # stands on what has moved
        raise refusal(many.one(int(many.floats.argmin())))
    level, trim = (np.full(len(boats), one) for one in assessed.start)
    volume = immersed(half_outline(many.boat.sections), up_vectors(0.0 * trim, trim), level)
    return np.array([volume.volume_m3, many.upright.gm_m])


def _by_the_plane(points, design, per_height):
    """(n,) what each height adds by the plane fitted to the hull's sticks (least squares)."""
    hull = np.array([design.stringer(name).role in HULL_ROLES for _, _, name in points.keys])
    ways = np.column_stack([np.ones(hull.size), points.frame_x_m[points.frame]])
    return hull * (np.linalg.pinv(ways * hull[:, None]).T @ (ways.T @ per_height))


def spreads(slopes, covariance_m2):
    """(share of displacement, m of GM): one standard deviation of each that stays unknown."""
    return tuple(float(np.sqrt(max(row @ covariance_m2 @ row, 0.0)))
                 for row in (slopes.share, slopes.gm))


def most_telling(points, slopes, cover_m2, asked, tape_m, count):
    """The `count` of what can be asked that tell most, the most telling first, each taken once at
    most; marks and the length tell nothing here. `cover_m2` is (2 n, 2 n), of the changes before
    any of these is measured, `tape_m` one standard deviation of a reading."""
    asked, rows, noise_m2 = _read(points, asked, tape_m)
    aims = np.array([slopes.share / WANTED[0], slopes.gm / WANTED[1]])
    cover, chosen, free = cover_m2, [], np.ones(len(asked), bool)
    for _ in range(min(count, len(asked))):
        across = rows @ cover
        own = (across * rows).sum(axis=1) + noise_m2
        gain = np.where(free, ((across @ aims.T) ** 2).sum(axis=1) / own, -np.inf)
        best = int(gain.argmax())
        chosen.append(asked[best])
        free[best] = False
        cover = cover - np.outer(across[best], across[best]) / own[best]
    return tuple(chosen)


def spreads_after(points, slopes, cover_m2, asked, tape_m):
    """`spreads` once these Asked are read; parameters as in `most_telling`."""
    _, rows, noise_m2 = _read(points, asked, tape_m)
    return spreads(slopes, left_m2(cover_m2, rows, np.diag(noise_m2)))


def _read(points, asked, tape_m):
    """The Asked that tell of points, their rows, and the variance of each reading."""
    pairs = [(one, reach) for one in asked  # from which datum a height is counted tells nothing
             if (reach := one.reach(one.designed_m, 0.0)) is not None]
    return ([one for one, _ in pairs],
            np.reshape([row_of(points, reach)[0] for _, reach in pairs], (len(pairs), -1)),
            np.array([reading_spread_m(reach, tape_m) ** 2 for _, reach in pairs]))
