"""The points of a boat that a tape can reach: each stick at each frame, on each side.

Changes are counted in a vector with two entries a point, half-breadth then height, in metres.
Half-breadths are positive outwards on either side.
"""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from sizer.hull.boat import frame_points_m

SIDES = ("starboard", "port")
CENTRE = "centre"
# How a stick that is off stands at a frame, and what mends it: half-breadth, then height.
_STANDS = (("stands out", "file the notch deeper", "stands in", "pack the notch out"),
           ("stands high", "lower it", "stands low", "raise it"))


@dataclass(frozen=True, eq=False)
class Points:
    """Every point of a boat as designed."""

    frames: tuple[str, ...]
    frame_x_m: np.ndarray  # (n_frames,)
    length_m: float
    keys: tuple[tuple[str, str, str], ...]  # (n,) side, frame, stringer
    at: np.ndarray  # (n, 2) half-breadth, height over the baseline, m
    frame: np.ndarray  # (n,) index of the frame
    sign: np.ndarray  # (n,) +1 starboard, -1 port, 0 centre

    def index(self, side, frame, stringer):
        """Place of a point; a stick on the centre line stands once, whatever the side."""
        key = (side, frame, stringer)
        return self.keys.index(key if key in self.keys else (CENTRE, frame, stringer))

    @property
    def place_m(self):
        """(n, 3) x, y to starboard, z."""
        return np.column_stack([self.frame_x_m[self.frame], self.sign * self.at[:, 0],
                                self.at[:, 1]])


@lru_cache(maxsize=8)
def points_of(boat):
    keys, at, of = [], [], []
    for index, frame in enumerate(boat.design.frames):
        for name, point in frame_points_m(boat, index).items():
            single = boat.design.stringer(name).count == 1
            for side in (CENTRE,) if single else SIDES:
                keys.append((side, frame.name, name))
                at.append(point)
                of.append(index)
    sign = np.array([{"starboard": 1.0, "port": -1.0, CENTRE: 0.0}[key[0]] for key in keys])
    return Points(tuple(frame.name for frame in boat.design.frames), np.asarray(boat.frame_x_m),
                  float(boat.length_m), tuple(keys), np.array(at), np.array(of), sign)


def stands(axis, off):
    """How a stick stands that is off by so much, and what mends it; `axis` 0 is half-breadth."""
    return _STANDS[axis][:2] if off > 0.0 else _STANDS[axis][2:]
