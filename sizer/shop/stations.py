"""The station list: where each frame stands on the strongback and how far out each stringer is.

A frame is marked at its reference face, the face nearer the boat's own end: the hull narrows
towards the ends, so a square-cut frame touches the stringers at that face. Distances are one tape
pull from the strongback's forward end, never added up from spacings.
"""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from sizer.hull.boat import frame_points_m

FIRST_MARK_M = 0.10  # least strongback ahead of the first mark and behind the last; our judgement
BASELINE_OVER_STRONGBACK_M = 0.10  # room for risers and clamps under the keel; our judgement
PAST_MOUTH_M = 0.20  # of strongback beyond the keel's ends, for the stems' posts; our judgement
STEP_M = 0.01  # the strongback's forward end stands on a whole centimetre of x


@dataclass(frozen=True, eq=False)
class Station:
    """One frame on the strongback."""

    name: str
    kind: str
    x_m: float  # of the reference face, from the boat's foremost point
    reference_face: str  # "forward" or "aft"
    plywood_lies: str  # "aft" or "forward" of the mark
    strongback_m: float  # of the mark, from the strongback's forward end
    spacing_m: float  # from the mark before; from the strongback's end for the first
    gunwale_height_m: float  # over the strongback's top
    keel_height_m: float  # over the strongback's top
    thickness_m: float
    points_m: dict[str, tuple[float, float]]  # half-breadth, height over the strongback

    @property
    def far_x_m(self):
        """x of the plywood's other face."""
        return self.x_m + self.thickness_m * (1.0 if self.plywood_lies == "aft" else -1.0)

    @property
    def faces_x_m(self):
        """x of the plywood's two faces, the forward one first."""
        return min(self.x_m, self.far_x_m), max(self.x_m, self.far_x_m)


@dataclass(frozen=True)
class SettingUp:
    """The strongback and the stations on it."""

    strongback_start_x_m: float  # of the strongback's forward end, from the boat's foremost point
    strongback_length_m: float
    baseline_height_m: float  # over the strongback's top
    stations: tuple[Station, ...]


def plywood_aft(boat):
    """Whether each frame's plywood lies aft of its mark: from the bow to the widest section."""
    widest_x = boat.sections.x_m[int(boat.sections.y_m.max(axis=1).argmax())]
    return boat.frame_x_m <= widest_x


def through_m(boat, index):
    """From a frame's reference face to its other face along the boat, aft positive."""
    thick = boat.design.frames[index].thickness_m
    return thick if plywood_aft(boat)[index] else -thick


@lru_cache(maxsize=16)
def setting_up(boat):
    keel_ends = boat.map((boat.lines.lines[0].start_x_m, boat.lines.lines[0].end_x_m))
    first = min(boat.frame_x_m[0] - FIRST_MARK_M, keel_ends[0] - PAST_MOUTH_M)
    last = max(boat.frame_x_m[-1] + FIRST_MARK_M, keel_ends[1] + PAST_MOUTH_M)
    start = np.floor(first / STEP_M) * STEP_M
    length = np.ceil((last - start) / STEP_M) * STEP_M
    stations, before = [], 0.0
    keel = boat.lines.lines[0].stringer.name
    gunwale = boat.lines.gunwale.stringer.name
    for index, (frame, ahead) in enumerate(zip(boat.design.frames, plywood_aft(boat),
                                               strict=True)):
        x = float(boat.frame_x_m[index])
        points = {name: (y, z + BASELINE_OVER_STRONGBACK_M)
                  for name, (y, z) in frame_points_m(boat, index).items()}
        mark = x - float(start)
        bottom = points[keel][1] if keel in points else min(z for _, z in points.values())
        stations.append(Station(
            frame.name, frame.kind, x, "forward" if ahead else "aft",
            "aft" if ahead else "forward", mark, mark - before,
            points[gunwale][1], bottom, frame.thickness_m, points))
        before = mark
    return SettingUp(float(start), float(length), BASELINE_OVER_STRONGBACK_M, tuple(stations))
