"""How the end of a chine or gunwale lies at a stem's side: twisted to it, or planed to it.

The skin there holds the stem's edge, so a stick whose outer face is to lie in it winds from the
nearest frame's notch to the edge. Where that is easily twisted it is: its inner face is bevelled,
alike along both its edges. Where it is not, the stick runs on as it comes out of that frame, and
its lean is planed off it: the stem's side is cut aslant into its inner face, farther along the one
edge than along the other, and what of the outer face stands outside the skin comes off too.

Ways are (3,): inboard, out, up, from where the moulded line lands; a place in the stick is told
across its outer face, positive upwards, and into it from there.
"""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from sizer.shop.notches import frame_section
from sizer.shop.twists import BREAKS_STRAIN, CARE_SHARE, shear_strain


@dataclass(frozen=True, eq=False)
class StemLay:
    """One end of a stick on a stem's side."""

    run: np.ndarray  # unit, along the stick, inboard
    edge: np.ndarray  # unit, along the stem's edge, inboard
    across: np.ndarray  # unit, in the outer face, square to the run, upwards
    inward: np.ndarray  # unit, square to the outer face, into the boat
    lean_deg: float  # of the outer face from the skin, positive where its upper edge stands out
    frame: str  # the nearest, whose notch holds it
    turn_deg: float  # that it would be twisted from there, in the section, to lie in the skin
    share: float  # of the strain that breaks it cold, if it were
    edges_m: tuple[float, float]  # across, of its lower and its upper edge
    depth_m: float

    @property
    def twisted(self):
        """Whether it is twisted into the skin, which is easy."""
        return self.share < CARE_SHARE

    def out_m(self, across_m, into_m):
        """Along the stick from its mark, where a line so far across and in comes out of the stem's
        side; negative ahead of it."""
        return float(-(across_m * self.across[1] + into_m * self.inward[1]) / self.run[1])

    @property
    def inner_m(self):
        """(2,) `out_m` of its inner face's lower and upper edge: where the bevel ends."""
        return tuple(self.out_m(one, self.depth_m) for one in self.edges_m)

    @property
    def outer_m(self):
        """(2,) the same of its outer face's: where that begins on the stem's side."""
        return tuple(self.out_m(one, 0.0) for one in self.edges_m)

    @property
    def inner_seen_m(self):
        """(2, 2) inboard and up of both ends of the bevel's inner end, from the mark."""
        return np.array([(out * self.run + one * self.across + self.depth_m * self.inward)[[0, 2]]
                         for one, out in zip(self.edges_m, self.inner_m, strict=True)])

    @property
    def opens(self):
        """How fast its inner face leaves the stem's side, past the bevel and square to its end."""
        return float(np.hypot(self.inward[0], self.inward[2]) / -self.inward[1])

    @property
    def under_m(self):
        """How far its inner face lies under its line, square to the stem's side."""
        return self.depth_m if self.twisted else -self.depth_m * float(self.inward[1])

    @property
    def reach_m(self):
        """How far in any of it lies under its line, so."""
        return self.depth_m if self.twisted else max(
            one * -float(self.across[1]) for one in self.edges_m) + self.under_m

    def seen_up(self, way):
        """How far a way goes up from its line, seen from the side and square to it."""
        return float(_seen(self.run, way) / np.hypot(self.run[0], self.run[2]))

    @property
    def proud_m(self):
        """(2,) square down its lower and its upper side from the outer face, what stands outside
        the skin at the stem."""
        steep = float(np.tan(np.radians(self.lean_deg)))
        return tuple(max(0.0, one * steep) for one in self.edges_m)

    @property
    def bevel_deg(self):
        """Between the stem's side and its inner face, seen on its edges."""
        return float(np.degrees(np.arctan2(self.run[1], abs(self.inward[1]))))

    @property
    def cut(self):
        """Unit, on its outer face, along its end cut to the stem's edge, upwards."""
        way = _seen(self.across, self.edge) * self.run - _seen(self.run, self.edge) * self.across
        return way / np.linalg.norm(way) * np.sign(way @ self.across)


@lru_cache(maxsize=256)
def stem_lay(boat, end, name):
    """The StemLay of a boat's stringer that ends on the side of its "bow" or "stern" stem."""
    line = boat.lines.line(name)
    stick, bow = line.stringer, end == "bow"
    base_x = line.start_x_m if bow else line.end_x_m
    profile = boat.lines.bow_profile if bow else boat.lines.stern_profile
    along = float(boat.map.stretch(base_x))
    (out, up), rise = line.curve(base_x, 1), float(profile(base_x, 1))
    beam, depth = boat.scaling.beam, boat.scaling.depth
    inboard = 1.0 if bow else -1.0  # of x, along which the slopes are
    run = _unit(along, inboard * beam * out, inboard * depth * up)
    edge = _unit(along, 0.0, inboard * depth * rise)
    row = 0 if bow else len(boat.frame_x_m) - 1
    notch = next((one for one in frame_section(boat, row).notches if one.stringer == name), None)
    upright = edge * run[0] - run * edge[0]  # in the section and in the skin
    upright *= np.sign(upright[2])
    skin = _across(run, upright)
    face = _across(run, np.array([0.0, *notch.along])) if notch else skin
    turn = _section_deg(upright[1:]) - _section_deg(notch.along) if notch else 0.0
    far = abs(float(boat.frame_x_m[row]) - float(boat.map(base_x))) / run[0]
    share = shear_strain((stick.width_m, stick.depth_m), np.radians(turn), far) / BREAKS_STRAIN
    across = skin if share < CARE_SHARE else face
    inward = np.cross(run, across)
    lean = np.arctan2(np.cross(across, skin) @ run, across @ skin)
    wide = stick.width_m
    return StemLay(
        run, edge, across, -inward * np.sign(inward[1]), float(np.degrees(lean)),
        boat.design.frames[row].name, abs(turn), share,
        (-wide, 0.0) if stick.role == "gunwale" else (-0.5 * wide, 0.5 * wide), stick.depth_m)


def _unit(*way):
    return np.array(way, float) / np.linalg.norm(way)


def _across(run, way):
    """Unit, of the plane through both, square to the run."""
    return _unit(*(way - (way @ run) * run))


def _section_deg(along):
    return float(np.degrees(np.arctan2(along[1], along[0])))


def _seen(one, other):
    """How far two ways turn from each other, seen from the side."""
    return one[0] * other[2] - one[2] * other[0]
