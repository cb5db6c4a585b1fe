"""The stringer list: how long each stick is, how its ends are cut, where it is joined and marked.

Lengths and marks run along the moulded line, so along the stick's outer face, from its finished
forward end: the feather tip where it is planed to one. Every stick is cut longer by ALLOWANCE_M at
each end and trimmed in the dry fit.
"""

from dataclasses import dataclass
from functools import partial

import numpy as np

from sizer.design.records import Stringer
from sizer.design.woods import CAREFUL_BEND_RATIO, EASY_BEND_RATIO
from sizer.hull.stick_curves import stick_curves
from sizer.shop.notches import frame_section
from sizer.shop.scarfs import Joints, joints
from sizer.shop.settings import SHOP
from sizer.shop.stations import setting_up
from sizer.shop.stick_ends import StickEnd, stick_ends
from sizer.shop.tapers import ties_from_tip_m

ALLOWANCE_M = 0.050  # over the finished stick at each end; our judgement
FAR_M = 1000.0  # beyond every stick's end
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
    far_m: float  # of the plywood's other face
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
    joints: Joints  # of the only stick, or of the one to port
    starboard: Joints  # of a pair, the one to starboard: its scarfs stand elsewhere

    @property
    def name(self):
        return self.stringer.name

    @property
    def sides(self):
        """{"": Joints} of a single stick, {"port": Joints, "starboard": Joints} of a pair."""
        return ({"": self.joints} if self.stringer.count == 1
                else {"port": self.joints, "starboard": self.starboard})

    def left_m(self, along_m):
        """Its width at a place on the tape, less where a taper runs."""
        return min([self.stringer.width_m, *(
            end.taper.left_m(along_m if end is self.forward else self.length_m - along_m)
            for end in (self.forward, self.after) if end.taper)])

    @property
    def ties(self):
        """(StickEnd, frame it is held at or None, places on the tape) of each end that is lashed to
        its host, between its feather tip and where a frame holds both."""
        found = []
        for end, forward in ((self.forward, True), (self.after, False)):
            if end.taper is None:
                continue
            frame, free = self._held(end.taper, forward)
            tips = ties_from_tip_m(free)
            found.append((end, frame, tuple(
                tips if forward else (self.length_m - one for one in reversed(tips)))))
        return tuple(found)

    def _held(self, taper, forward):
        """The frame nearest to a taper's tip and how far off its plywood is; None and the taper's
        length where stick and host have parted before it."""
        near = [(min(one.along_m, one.far_m) if forward
                 else self.length_m - max(one.along_m, one.far_m), one.frame)
                for one in self.crossings]
        free, frame = min(near, default=(taper.length_m, None))
        return (frame, free) if free < taper.length_m else (None, taper.length_m)

    @property
    def says(self):
        """What of its scarfs' rules could not be kept, each once, in words."""
        return tuple(dict.fromkeys(one.says for one in (self.joints, self.starboard) if one.says))

    @property
    def twists_deg(self):
        """How the outer face winds from each frame to the next, positive turning upright."""
        faces = np.unwrap([crossing.angle_deg for crossing in self.crossings] or [0.0],
                          period=360.0)
        return tuple(np.diff(faces).tolist())

    @property
    def twist_deg(self):
        """The most that it winds one way from one frame to another, `twisted_between`.

        Positive where it turns upright going aft.
        """
        return self._most_twisted[0]

    @property
    def twisted_between(self):
        """The two frames, the fore one first, between which it winds so; with fewer, none."""
        return tuple(self.crossings[row].frame for row in self._most_twisted[1]) if len(
            self.crossings) > 1 else ()

    @property
    def _most_twisted(self):
        """(how far, of which crossings)."""
        faces = np.concatenate([[0.0], np.cumsum(self.twists_deg)])
        between = np.triu(faces[None, :] - faces[:, None])
        rows = np.unravel_index(np.abs(between).argmax(), between.shape)
        return float(between[rows]), tuple(map(int, rows))

    @property
    def verdict(self):
        """The harder of the two bends' verdicts."""
        return max((bend.verdict for bend in (self.plan, self.profile) if bend),
                   key=BENDS.index, default=BENDS[0])


def stringer_list(boat, stock_lengths_m=SHOP.stock_lengths_m, gunwale_ties_x_m=()):
    """The Sticks of a boat, in the design's order, cut from stock of some lengths; what is lashed
    to the gunwales between frames is there along the boat."""
    angles, stations = _face_angles_deg(boat), setting_up(boat).stations
    made, port, starboard = [], [], []  # of each stick before, the bays it is joined in
    for curve in stick_curves(boat):
        stick, along = _stick(
            boat, curve, angles[curve.name], stations, stock_lengths_m, (port, starboard),
            gunwale_ties_x_m if curve.stringer.role == "gunwale" else ())
        made.append(stick)
        for before, side in ((port, stick.joints), (starboard, stick.starboard)):
            at = np.interp(side.middles_m, along, curve.points_m[:, 0])
            before.append(np.unique(np.searchsorted([one.x_m for one in stations], at)))
    return tuple(made)


def _bays_m(before, stations, x, along):
    """(first, last) place along a stick of the bays where the one before it is joined, then of
    those where the others are."""
    edges = np.interp([-FAR_M, *(one.x_m for one in stations), FAR_M], x, along)
    return tuple([(edges[bay], edges[bay + 1]) for bays in some for bay in bays]
                 for some in (before[-1:], before[:-1]))


def _stick(boat, curve, angles, stations, stock_lengths_m, before, ties_x_m):
    """The Stick, its scarfs in other bays than those before it on each side and clear of what is
    tied to it; and the places along it of its curve's points."""
    one = curve.stringer
    forward, after = stick_ends(boat, curve)
    along = curve.along_m + forward.past_m  # from the stick's own end, not its line's
    length = curve.length_m + forward.past_m + after.past_m
    crossings = tuple(_crossing(curve, along, stations[index], angle) for index, angle in angles)
    across, upright = bent_thickness_m(one)
    strain = np.maximum(np.abs(curve.bend_per_m[:, 0]) * across,
                        np.abs(curve.bend_per_m[:, 1]) * upright)
    plywood = [sorted((one.along_m, one.far_m)) for one in crossings]
    cut = length + 2.0 * ALLOWANCE_M
    join = partial(joints, along, strain, cut, ALLOWANCE_M, min(one.width_m, one.depth_m),
                   max(stock_lengths_m), plywood,
                   lashed_m=np.interp(ties_x_m, curve.points_m[:, 0], along))
    bays = [_bays_m(side, stations, curve.points_m[:, 0], along) for side in before]
    port = join((), *bays[0])
    return Stick(
        one, length, cut, forward, after, crossings,
        _bend(curve, along, length, 0, across), _bend(curve, along, length, 1, upright), port,
        join(port.middles_m, *bays[1]) if one.count > 1 else port), along


def _crossing(curve, along, station, angle):
    """A stick may end at a frame's reference face, its line too: the far face is told beyond it."""
    x = curve.points_m[:, 0]
    at = float(np.interp(station.x_m, x, along))
    steep = float(np.interp(station.x_m, x, np.hypot(1.0, np.hypot(*curve.slope.T))))
    return Crossing(station.name, at, at + steep * (station.far_x_m - station.x_m), angle)


def bent_thickness_m(stringer):
    """Thickness of a stick as bent in plan and in profile.

    Keel, ridge and deck stringer lie flat: bent over their depth in profile. The others stand: over
    their depth in plan and over their width in profile.
    """
    if stringer.lies_flat:
        return stringer.width_m, stringer.depth_m
    return stringer.depth_m, stringer.width_m


def bend_verdict(ratio):
    """What a radius over thickness asks for; the limits are said in `sizer.design.woods`."""
    if ratio >= EASY_BEND_RATIO:
        return BENDS[0]
    return BENDS[1] if ratio >= CAREFUL_BEND_RATIO else BENDS[2]


def _bend(curve, along, length, axis, thickness):
    on_it = (along >= 0.0) & (along <= length)  # a drawn line runs on past a feather tip
    bend = np.where(on_it, np.abs(curve.bend_per_m[:, axis]), 0.0)
    row = int(bend.argmax())
    if bend[row] < 1.0 / STRAIGHT_RADIUS_M:
        return None
    radius = 1.0 / float(bend[row])
    return Bend(radius, float(curve.points_m[row, 0]), float(along[row]), thickness,
                radius / thickness, bend_verdict(radius / thickness))


def _face_angles_deg(boat):
    """{stringer: [(frame index, angle of its outer face)]} from the notches."""
    angles = {one.name: [] for one in boat.design.stringers}
    for index in range(len(boat.design.frames)):
        for notch in frame_section(boat, index).notches:
            across, up = notch.along
            angles[notch.stringer].append((index, float(np.degrees(np.arctan2(up, across)))))
    return angles
