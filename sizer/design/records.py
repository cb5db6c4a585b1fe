"""Base design records, in SI units.

Axes: x runs aft from the foremost point of the hull; y is half-breadth, positive to starboard; z is
up from the baseline, which is parallel to the strongback's top and to the gunwale in the cockpit.
Moulded lines are the inside of the skin, that is the outer corner of each stringer.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

import numpy as np

ROLES = ("keel", "chine", "gunwale", "deck", "ridge")
FRAME_KINDS = ("stem", "solid", "ring", "cockpit", "footbrace")
ENTRIES = ("slide", "sit")
SEAT_KINDS = ("panel", "slats", "sling")
SIT_AHEAD_M = 0.10  # sitting bones ahead of the back of the buttocks; our judgement


@dataclass(frozen=True)
class StringerEnd:
    """Where a stringer starts or ends: on a stem, at the coaming, at an x, or into another one.

    `x_m` is None on a stem and at the coaming; those places are found from the stem and cockpit.
    """

    kind: str  # "stem", "coaming", "free", "into"
    x_m: float | None = None
    into: str | None = None


@dataclass(frozen=True)
class Stringer:
    """One stick, or a pair of them port and starboard; keel and ridge are single."""

    name: str
    role: str
    width_m: float  # along the skin
    depth_m: float  # into the boat
    wood: str
    start: StringerEnd
    end: StringerEnd

    @property
    def count(self):
        """Sticks of this name in the boat."""
        return 1 if self.role in ("keel", "ridge") else 2


@dataclass(frozen=True)
class Frame:
    """One plywood frame; `points_m` holds (half-breadth, height) by stringer name."""

    name: str
    kind: str
    x_m: float  # of the reference face
    thickness_m: float
    points_m: Mapping[str, tuple[float, float]]


@dataclass(frozen=True, eq=False)
class Stem:
    """The end piece in profile; `lands_m` holds the x at which each stringer lands on it."""

    thickness_m: float
    profile_m: np.ndarray  # (n_points, 2): x, z with x rising
    lands_m: Mapping[str, float]


@dataclass(frozen=True)
class Cockpit:
    """Opening, place of the seat, footbrace; rim heights are the top of the coaming."""

    front_x_m: float
    back_x_m: float
    width_m: float
    rim_front_z_m: float
    rim_back_z_m: float
    entry: str
    seat_x_m: float  # back of the paddler's buttocks
    seat_slide_m: tuple[float, float]  # forward, aft
    footbrace_reach_m: tuple[float, float]  # ahead of the back of the buttocks: nearest, farthest
    backband_height_m: float  # above the seat

    @property
    def length_m(self):
        """Length of the opening."""
        return self.back_x_m - self.front_x_m


@dataclass(frozen=True)
class Seat:
    """The seat as it is built; its height follows from what it stands on.

    A panel is bent to the bottom and lies on sticks, the keel and then chines going outward. Slats
    run lengthwise on the floors of two frames; a sling of webbing hangs between two.
    """

    kind: str
    thickness_m: float  # of panel, slat or webbing
    width_m: float  # over all
    length_m: float
    stands_on: tuple[str, ...]  # names: sticks for a panel, else two frames, fore then aft
    clear_of_skin_m: float  # least distance from the skin, as drawn


@dataclass(frozen=True)
class DrawnFor:
    """The paddler, load and water that the base design was drawn for."""

    weight_kg: float
    stature_m: float
    hip_width_m: float  # sitting
    gear_kg: float
    use: str
    water: str
    waterline_length_m: float
    draft_m: float


@dataclass(frozen=True)
class Limits:
    """Lowest and highest of each factor and of the cockpit opening."""

    length: tuple[float, float]
    beam: tuple[float, float]
    depth: tuple[float, float]
    crown: tuple[float, float]
    cockpit_length_m: tuple[float, float]
    cockpit_width_m: tuple[float, float]


@dataclass(frozen=True, eq=False)
class BaseDesign:
    """A base design as read: nothing scaled, every fault already refused."""

    name: str
    character: str
    drawn_for: DrawnFor
    limits: Limits
    stringers: tuple[Stringer, ...]  # keel to ridge
    frames: tuple[Frame, ...]  # bow to stern
    bow: Stem
    stern: Stem
    cockpit: Cockpit
    seat: Seat
    suits: tuple[str, ...]  # uses, the one it was drawn for among them
    lacks: Mapping[str, str]  # what it lacks, by use that it does not suit
    fabric_kgpm2: float  # skin before coating
    coating_kgpm2: float
    assumed: tuple[str, ...] = ()  # sentences: what an older file does not say

    @property
    def skin_kgpm2(self):
        """Fabric and coating together."""
        return self.fabric_kgpm2 + self.coating_kgpm2

    @cached_property
    def length_m(self):
        """Hull length, foremost to aftmost point of the stems."""
        return float(self.stern.profile_m[-1, 0])

    def stringer(self, name):
        """The stringer of this name."""
        return next(one for one in self.stringers if one.name == name)
