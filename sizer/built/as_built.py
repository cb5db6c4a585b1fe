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


@dataclass(frozen=True)
class Along:
    """How frames stand along the boat: as they stand less as designed."""

    frames_m: tuple[tuple[str, float], ...] = ()  # frame, aft positive; those measured
    longer_m: float = 0.0  # over all, taken at the stern; our judgement


AS_MARKED = Along()


def sides_of(boat, drawn_for, standing, along=AS_MARKED):
    """The Sides of a Boat whose Points are `standing.points`, its frames standing `along` it so.

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
    stands = _slid(drawn, along)
    return Sides(**{which: _boat(stands if any(parts) else drawn, points, change, *parts)
                    for which, parts in weights.items()})


def means_of(boat, drawn_for, points, changes_m):
    """The mean Boat alone of each of some changes, (n, 2) of a Boat's Points. They are tried to
    learn what a change does: where sticks lie close, one may pass another."""
    drawn = redrawn(boat, boat.design.name, drawn_for)
    near = fair_lines(drawn, in_order=False)
    return [_boat(drawn, points, change, 0.5, 0.5, near) for change in changes_m]


def _slid(drawn, along):
    """A design with its frames, the sticks that end at them and its stern where they stand."""
    off, moved, frames = dict(along.frames_m), {}, []
    for frame in drawn.frames:
        moved[frame.x_m] = frame.x_m + off.get(frame.name, 0.0)
        frames.append(replace(frame, x_m=moved[frame.x_m]))

    def end(one):
        return one if one.x_m is None else replace(one, x_m=moved.get(one.x_m, one.x_m))

    stern = replace(
        drawn.stern, profile_m=drawn.stern.profile_m + np.array([along.longer_m, 0.0]),
        lands_m={name: at + along.longer_m for name, at in drawn.stern.lands_m.items()})
    return replace(drawn, frames=tuple(frames), stern=stern, stringers=tuple(
        replace(one, start=end(one.start), end=end(one.end)) for one in drawn.stringers))


def _boat(drawn, points, change, starboard, port, near=None):
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
    return scaled_boat(fair_lines(replace(drawn, frames=tuple(frames)), near, near is None),
                       Scaling())
