"""Legs of many paddlers against the frames of one boat, as `sizer.fit.assess` does it for one."""

import numpy as np

from sizer.fit.assess import NOTHING_NEAR_M
from sizer.hull.inside import clear_of_frame_m
from sizer.hull.sections import half_section_at
from sizer.paddler.legs import AROUND


def legs_clear_m(boat, legs, seat_x_m, seat_z_m, floor_m):
    """Least distance from each body's legs to the frames between hips and soles: (n,).

    Parameters
    ----------
    boat : Boat
    legs : LegsOfMany
    seat_x_m, seat_z_m : (n,) back of the buttocks and seat's top
    floor_m : (n,) under the heels, over the baseline
    """
    found = np.full(seat_x_m.shape, NOTHING_NEAR_M)
    y, z = half_section_at(boat.sections, boat.frame_x_m)
    for index, frame in enumerate(boat.design.frames):
        ahead = seat_x_m - boat.frame_x_m[index] - 0.5 * frame.thickness_m
        beyond = ahead > legs.ahead_m[:, -1]
        found[beyond] = np.minimum(found, ahead - 0.5 * frame.thickness_m - legs.sole_m)[beyond]
        passed = np.flatnonzero((ahead >= legs.ahead_m[:, 0]) & ~beyond)
        if passed.size:
            corners = np.stack([y[index, :-2], z[index, :-2]], axis=1)
            for face in (-0.5, 0.5):
                ovals = _ovals_m(legs, passed, ahead[passed] + face * frame.thickness_m,
                                 seat_z_m[passed], (floor_m - seat_z_m)[passed])
                found[passed] = np.minimum(found[passed], clear_of_frame_m(
                    frame.kind, corners, boat.sections.sheer, boat.lines.stock_m, ovals))
    return found


def _ovals_m(legs, rows, ahead_m, seat_m, floor_m):
    """Ovals (n, n_around, 2) across the legs of some bodies, one place for each."""
    places, here = legs.ahead_m[rows], np.arange(rows.size)
    after = np.clip(np.sum(places < ahead_m[:, None], axis=1), 1, places.shape[1] - 1)
    low, high = places[here, after - 1], places[here, after]
    share = (ahead_m - low) / (high - low)

    def at(values):
        return (1.0 - share) * values[here, after - 1] + share * values[here, after]

    lifted = legs.per_floor[rows] * floor_m[:, None]
    under, top = at(legs.under_m[rows] + lifted), at(legs.top_m[rows] + lifted)
    apart, half = at(legs.apart_m[rows]), at(legs.half_width_m[rows])
    return np.stack([
        apart[:, None] + half[:, None] * np.cos(AROUND),
        (seat_m + 0.5 * (top + under))[:, None] + (0.5 * (top - under))[:, None] * np.sin(AROUND),
    ], axis=-1)
