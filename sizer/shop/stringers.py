"""The stringer list: how long each stick is, how its ends are cut, where it is joined and marked.

Lengths and marks run along the moulded line, so along the stick's outer face, from its finished
forward end. Every stick is cut longer by ALLOWANCE_M at each end and trimmed in the dry fit.
"""

from dataclasses import dataclass

import numpy as np

from sizer.design.records import Stringer
from sizer.design.woods import CAREFUL_BEND_RATIO, EASY_BEND_RATIO
from sizer.hull.stick_curves import stick_curves
from sizer.shop.notches import frame_section
from sizer.shop.scarfs import Joints, joints
from sizer.shop.stick_ends import StickEnd, stick_ends

ALLOWANCE_M = 0.050  # over the finished stick at each end; our judgement
DEFAULT_STOCK_M = 3.6  # length of the stock, where none is said; our judgement
STRAIGHT_RADIUS_M = 1000.0  # longer is told as straight
BENDS = ("bends easily", "bends with care", "steam, laminate or split")


@dataclass(frozen=True)
class Bend:
    """The tightest bend of a stick on one axis; None in its place where it is straight."""

    radius_m: float
    x_m: float
    along_m: float  # from the finished forward end
    thickness_m: float  # of the stick, the way it is bent
    ratio: float  # radius over thickness
    verdict: str  # one of BENDS


@dataclass(frozen=True)
class Crossing:
    """Where a stick crosses a frame's reference face."""

    frame: str
    along_m: float  # from the finished forward end
    angle_deg: float  # of its outer face in the section, 0 flat, 90 upright


@dataclass(frozen=True)
class Stick:
    """One stringer for the bench; a pair is alike but mirrored."""

    stringer: Stringer
    length_m: float  # finished, along the moulded line
    cut_m: float  # with the allowance at both ends
    forward: StickEnd
    after: StickEnd
    crossings: tuple[Crossing, ...]  # from forward
    plan: Bend | None
    profile: Bend | None
    twist_deg: float  # of the outer face from the first frame to the last, positive turning upright
    joints: Joints

    @property
    def name(self):
        """The stringer's name."""
        return self.stringer.name

    @property
    def verdict(self):
        """The harder of the two bends' verdicts."""
        return max((bend.verdict for bend in (self.plan, self.profile) if bend),
                   key=BENDS.index, default=BENDS[0])


def stringer_list(boat, stock_m=DEFAULT_STOCK_M):
    """The Sticks of a boat, in the design's order, cut from stock of one length."""
    angles = _face_angles_deg(boat)
    return tuple(_stick(boat, curve, angles[curve.name], stock_m) for curve in stick_curves(boat))


def _stick(boat, curve, angles, stock_m):
    one = curve.stringer
    crossings = tuple(
        Crossing(boat.design.frames[index].name,
                 float(curve.along_at_x_m(boat.frame_x_m[index])), angle)
        for index, angle in angles)
    faces = np.unwrap([crossing.angle_deg for crossing in crossings] or [0.0], period=360.0)
    across, upright = bent_thickness_m(one)
    strain = np.maximum(np.abs(curve.bend_per_m[:, 0]) * across,
                        np.abs(curve.bend_per_m[:, 1]) * upright)
    cut = curve.length_m + 2.0 * ALLOWANCE_M
    forward, after = stick_ends(boat, curve)
    return Stick(
        one, curve.length_m, cut, forward, after, crossings,
        _bend(curve, 0, across), _bend(curve, 1, upright), float(faces[-1] - faces[0]),
        joints(curve.along_m, strain, cut, ALLOWANCE_M, min(one.width_m, one.depth_m), stock_m))


def bent_thickness_m(stringer):
    """Thickness of a stick as bent in plan and in profile.

    Keel and ridge lie flat: bent over their depth in profile. The others stand: over their depth
    in plan and over their width in profile.
    """
    if stringer.role in ("keel", "ridge"):
        return stringer.width_m, stringer.depth_m
    return stringer.depth_m, stringer.width_m


def bend_verdict(ratio):
    """What a radius over thickness asks for; the limits are said in `sizer.design.woods`."""
    if ratio >= EASY_BEND_RATIO:
        return BENDS[0]
    return BENDS[1] if ratio >= CAREFUL_BEND_RATIO else BENDS[2]


def _bend(curve, axis, thickness):
    bend = np.abs(curve.bend_per_m[:, axis])
    row = int(bend.argmax())
    if bend[row] < 1.0 / STRAIGHT_RADIUS_M:
        return None
    radius = 1.0 / float(bend[row])
    return Bend(radius, float(curve.points_m[row, 0]), float(curve.along_m[row]), thickness,
                radius / thickness, bend_verdict(radius / thickness))


def _face_angles_deg(boat):
    """{stringer: [(frame index, angle of its outer face)]} from the notches."""
    angles = {one.name: [] for one in boat.design.stringers}
    for index in range(len(boat.design.frames)):
        for notch in frame_section(boat, index).notches:
            across, up = notch.along
            angles[notch.stringer].append((index, float(np.degrees(np.arctan2(up, across)))))
    return angles
