"""Base design records, in SI units: the one declaration of a design and of its file.

Axes: x runs aft from the foremost point of the hull; y is half-breadth, positive to starboard; z is
up from the baseline, which is parallel to the strongback's top and to the gunwale in the cockpit.
Moulded lines are the inside of the skin; which point of a stringer's stock touches them is told by
MOULDED_POINT.

A field's type says what the file may hold there, in the file's own unit: `x_m` is `x_mm` in it.
`sizer.design.schema` makes the file's tables of these records.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import Annotated, Literal

import numpy as np
from pydantic import Field

from sizer.border import INSIDE
from sizer.design.allowed import (
    HIP_WIDTH_MM,
    MOST_GEAR_KG,
    STATURE_MM,
    WEIGHT_KG,
    GramsPerM2,
    Millimetres,
    Pair,
    Positive,
    Range,
    Stock,
    Text,
    Wood,
    between,
)

ROLES = ("keel", "chine", "gunwale", "deck", "ridge")  # in the order of a file
FRAME_KINDS = ("stem", "solid", "ring", "cockpit", "footbrace")
ENTRIES = ("slide", "sit")
SEAT_KINDS = ("panel", "slats", "sling")
WATERS = ("fresh", "salt")
# Of a stick, on its moulded line: where a builder measures it; our drawing, see sizer.shop.notches.
MOULDED_POINT = "the middle of its outer face, of a gunwale the outer face's upper corner"
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

    name: Text
    role: Literal[ROLES]
    width_m: Stock  # along the skin
    depth_m: Stock  # into the boat
    wood: Wood
    start: StringerEnd
    end: StringerEnd

    @property
    def count(self):
        """Sticks of this name in the boat."""
        return 1 if self.role in ("keel", "ridge") else 2

    @property
    def lies_flat(self):
        """Whether its outer face looks up or down: from the side it is as high as deep."""
        return self.role in ("keel", "deck", "ridge")


@dataclass(frozen=True)
class Frame:
    """One plywood frame; `points_m` holds (half-breadth, height) by stringer name."""

    name: Text
    kind: Literal[FRAME_KINDS]
    x_m: Millimetres  # of the reference face
    thickness_m: between(3, 40)
    points_m: Mapping[str, Pair]


@dataclass(frozen=True, eq=False)
class Stem:
    """The end piece in profile; `lands_m` holds the x at which each stringer lands on it."""

    thickness_m: between(3, 80)
    profile_m: np.ndarray  # (n_points, 2): x, z with x rising
    lands_m: Mapping[str, Millimetres]


@dataclass(frozen=True)
class Cockpit:
    """Opening, place of the seat, footbrace; rim heights are the top of the coaming."""

    front_x_m: Positive
    back_x_m: Positive
    width_m: Positive
    rim_front_z_m: Positive
    rim_back_z_m: Positive
    entry: Literal[ENTRIES]
    seat_x_m: Positive  # back of the paddler's buttocks
    seat_slide_m: Annotated[tuple[between(0, 300), ...],
                            Field(min_length=2, max_length=2)]  # forward, aft
    footbrace_reach_m: Range  # ahead of the back of the buttocks: nearest, farthest
    backband_height_m: Positive  # above the seat

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

    kind: Literal[SEAT_KINDS]
    thickness_m: between(1, 40)  # of panel, slat or webbing
    width_m: between(150, 600)  # over all
    length_m: between(150, 900)
    # Names: sticks for a panel, else two frames, fore then aft.
    stands_on: Annotated[tuple[Text, ...], Field(min_length=2)]
    clear_of_skin_m: between(12, 100)  # least distance from the skin, as drawn


@dataclass(frozen=True)
class DrawnFor:
    """The paddler, load and water that the base design was drawn for."""

    weight_kg: between(*WEIGHT_KG)
    stature_m: between(*STATURE_MM)
    hip_width_m: between(*HIP_WIDTH_MM)  # sitting
    gear_kg: between(0, MOST_GEAR_KG)
    use: Text
    water: Literal[WATERS]
    waterline_length_m: Positive
    draft_m: Positive


@dataclass(frozen=True)
class Limits:
    """Lowest and highest of each factor and of the cockpit opening."""

    length: Range
    beam: Range
    depth: Range
    crown: Range
    cockpit_length_m: Range
    cockpit_width_m: Range


@dataclass(frozen=True)
class Cloth:
    """What the skin is made of."""

    fabric_kgpm2: GramsPerM2  # before coating
    coating_kgpm2: GramsPerM2


@dataclass(frozen=True, eq=False)
class BaseDesign:
    """A base design as read: nothing scaled, every fault already refused."""

    name: Text
    character: Text
    # Uses, the one it was drawn for among them.
    suits: Annotated[tuple[Text, ...], Field(min_length=1)]
    drawn_for: DrawnFor
    lacks: Mapping[str, Text]  # what it lacks, by use that it does not suit
    limits: Limits
    skin: Cloth
    stringers: Annotated[tuple[Stringer, ...], Field(min_length=3, max_length=30)]  # keel to ridge
    frames: Annotated[tuple[Frame, ...], Field(min_length=3, max_length=60)]  # bow to stern
    bow: Stem
    stern: Stem
    cockpit: Cockpit
    seat: Seat
    # Sentences: what an older file does not say.
    assumed: tuple[str, ...] = field(default=(), metadata=INSIDE)

    @property
    def skin_kgpm2(self):
        """Fabric and coating together."""
        return self.skin.fabric_kgpm2 + self.skin.coating_kgpm2

    @cached_property
    def length_m(self):
        """Hull length, foremost to aftmost point of the stems."""
        return float(self.stern.profile_m[-1, 0])

    def stem(self, end):
        """The stem of an end, "bow" or "stern"."""
        return self.bow if end == "bow" else self.stern

    def stringer(self, name):
        return next(one for one in self.stringers if one.name == name)
