"""The boat as it stands taken as a design of its own.

A design file knows one half-section, so a base is drawn through the mean of both sides; the two
sides by themselves, as designs alike on both sides, serve to float what differs between them.
"""

from dataclasses import dataclass, replace

import numpy as np

from sizer.hull.boat import Boat, scaled_boat
from sizer.hull.lines import fair_lines
from sizer.hull.redraw import redrawn
from sizer.hull.scale import Scaling


@dataclass(frozen=True, eq=False)
class Sides:
    """The boat as designed and as it stands: the mean of its sides, and each side twice."""

    designed: Boat
    mean: Boat
    starboard: Boat
    port: Boat


def sides_of(boat, drawn_for, standing):
    """The Sides of a Boat whose Points are `standing.points`.

    All four are drawn through frame points in one way, so that they differ by what was measured.

    Raises
    ------
    BadInput, where sticks cross in the boat as it stands.
    """
    name = f"{boat.design.name}, as built"
    drawn = redrawn(boat, name, drawn_for)
    points, change = standing.points, standing.change_m
    weights = {"designed": (0.0, 0.0), "mean": (0.5, 0.5), "starboard": (1.0, 0.0),
               "port": (0.0, 1.0)}
    return Sides(**{which: _boat(drawn, points, change, *parts)
                    for which, parts in weights.items()})


def _boat(drawn, points, change, starboard, port):
    frames = []
    for frame in drawn.frames:
        moved = {}
        for name, at in frame.points_m.items():
            first, second = (points.index(side, frame.name, name) for side in
                             ("starboard", "port"))
            parts = starboard * change[first] + port * change[second]
            y, z = np.asarray(at) + parts
            moved[name] = (max(float(y), 0.0) if at[0] > 0.0 else at[0], float(z))
        frames.append(replace(frame, points_m=moved))
    return scaled_boat(fair_lines(replace(drawn, frames=tuple(frames))), Scaling())
