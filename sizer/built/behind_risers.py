"""What a riser stands in the way of at a dry fit: taped on the plywood's other face instead.

A riser's cheeks or hangers stand against the face that the mark is for, and a tape across or a
diagonal that passes there meets them. The sticks go on to the plywood's other face, where the tape
reads as much more or less as their curves tell.
"""

import numpy as np
from shapely.geometry import LineString, box

from sizer.built.asked import ACROSS, DIAGONAL
from sizer.hull.boat import moulded_points_m
from sizer.shop.risers import risers

BEHIND = "*"  # beside what a riser stands in the way of
OTHER_FACE = ("A riser stands in the way there: tape it on the plywood's other face, and write "
              "down")
INSTEAD = "Instead of a breadth across both half-breadths will do."
TAPE_M = 0.005  # from a cheek to the middle of a tape that still passes it; our judgement


def risers_of(job):
    up = job.setting_up
    return {one.frame: one for one in risers(up.stations, job.patterns.frames,
                                             up.baseline_height_m, job.shop.risers)}


def behind_risers(job, asked):
    """{Asked: m} of those asked for that a riser stands in the way of: what is added to the reading
    of a tape on the plywood's other face, so that it is that on the mark's face."""
    made = risers_of(job)
    far = {station.name: _far_points(job, index, station)
           for index, station in enumerate(job.setting_up.stations)}
    near = {station.name: station.points_m for station in job.setting_up.stations}
    return {one: _long_m(one, near) - _long_m(one, far) for one in asked
            if one.what in (ACROSS, DIAGONAL) and _is_met(one, near, made[one.frame])}


def more_words(more_m, said):
    """What is added to a reading on the other face or taken off it; `said` writes metres."""
    return f"{'+' if more_m >= 0.0 else '−'}{said(abs(more_m))}"


def written_words(more_m, said):
    """What is written down of a reading on the other face; `said` writes metres."""
    return f"{said(abs(more_m))} {'more' if more_m >= 0.0 else 'less'} than it says there"


def _far_points(job, index, station):
    """{stick: half-breadth and height} at the plywood's other face, over the strongback."""
    boat = job.fitted.assessed.boat
    base_x = float(boat.map.base_x_m(np.array([station.far_x_m]))[0])
    return {name: (y, z + job.setting_up.baseline_height_m) for name, (y, z) in moulded_points_m(
        boat, boat.design.frames[index].points_m, base_x).items()}


def _ends(one, points):
    """Both ends of an Asked, starboard positive, in the frame's plane."""
    y, z = points[one.frame][one.stringer]
    if one.what == ACROSS:
        return (y, z), (-y, z)
    low_y, low_z = points[one.frame][one.to[2]]
    return (y, z), (-low_y, low_z)


def _long_m(one, points):
    return float(np.hypot(*np.subtract(*_ends(one, points))))


def _is_met(one, points, riser):
    """Whether a straight tape meets a cheek or hanger of a Riser, to either side."""
    tape = LineString(_ends(one, points))
    inner, outer = riser.inner_m - TAPE_M, riser.outer_m + TAPE_M
    return any(tape.intersects(box(left, riser.low_m - TAPE_M, right, riser.height_m + TAPE_M))
               for left, right in ((inner, outer), (-outer, -inner)))
