"""Frame patterns at full size: what is sawn, bored, marked and written on each frame's plywood.

A pattern is drawn as one looks at the frame's reference face, which is its face nearer the boat's
own end and the one on which the stringers touch their moulded lines. On a face that looks to the
bow, starboard so is on the left. Edges are square-cut.
"""

from dataclasses import dataclass
from functools import cached_property

import shapely
from shapely.affinity import scale
from shapely.geometry import Polygon
from shapely.ops import unary_union

from sizer.design.check import TAPER_MM
from sizer.drawing.hull_lines import water_z_m
from sizer.shop.coaming import arm_holes
from sizer.shop.lashing import lashing_holes, mortises
from sizer.shop.notches import Section, cutouts, frame_section
from sizer.shop.ring import hollows, opening
from sizer.shop.shapes import length_on
from sizer.shop.skin_relief import stood_back
from sizer.shop.stations import setting_up
from sizer.units import MM_PER_M

SAW_LINE_M = 1e-6  # closer points of an outline are one: far below what a saw can follow


@dataclass(frozen=True, eq=False)
class FramePattern:
    """One frame's plywood; shapes in half-breadth to starboard and height, both sides."""

    name: str
    kind: str
    x_m: float
    thickness_m: float
    reference_face: str  # "forward" or "aft": where the reference face looks
    section: Section
    wood: Polygon  # after all sawing
    holes: tuple[tuple[str, tuple[float, float]], ...]  # lashing holes' middles, by what is lashed
    mortises: tuple[Polygon, ...]
    opening: Polygon | None  # None: the frame stays whole inside
    scrap_m2: float  # largest piece that sawing cuts off the frame
    blending: tuple[str, ...]  # sticks planed to a taper here, near where they blend
    water_z_m: float | None  # height of the water at this frame

    @property
    def right_sign(self):
        """Factor from half-breadth to the drawing's right: starboard is right seen from astern."""
        return -1.0 if self.reference_face == "forward" else 1.0

    @property
    def faces_x_m(self):
        """x of the reference face and of the other."""
        return self.x_m, self.x_m - self.right_sign * self.thickness_m

    @property
    def shared_notches(self):
        """Pairs of stringers whose notches are cut as one pocket."""
        return tuple((one.stringer, other.stringer) for one, other in self.section.shared)

    def held_m(self):
        """{stringer: (longer wall, floor)} of its notch, as much as is left in the plywood."""
        lines = [(*notch.walls(), notch.floor()) for notch in self.section.notches]
        left = length_on(shapely.get_coordinates(lines).reshape(-1, 2, 2), self.wood.boundary,
                         SAW_LINE_M).reshape(-1, 3).tolist()
        return {notch.stringer: (max(low, high), floor)
                for notch, (low, high, floor) in zip(self.section.notches, left, strict=True)}

    @cached_property
    def seen(self):
        """The wood as it lies in the drawing."""
        return scale(self.wood, xfact=self.right_sign, origin=(0.0, 0.0))


def frame_patterns(boat, particulars=None, water=None):
    """The FramePattern of every frame of a boat, bow to stern; its Particulars give the waterline,
    and with the Water how far frames are sawn back from pressed-in skin. `pattern_checks` says
    whether the wood holds."""
    return tuple(_pattern(boat, index, station, particulars, water)
                 for index, station in enumerate(setting_up(boat).stations))


def _pattern(boat, index, station, particulars, water):
    section = (frame_section(boat, index) if water is None
               else stood_back(boat, index, particulars, water))
    taken = cutouts(section.notches)
    inside = opening(section, station.kind, taken)
    slots = mortises(section, station.kind, station.thickness_m)
    whole = section.outline().difference(
        unary_union([hollows(section), taken, *slots, *([] if inside is None else [inside])]))
    pieces = sorted(getattr(whole, "geoms", [whole]), key=lambda piece: piece.area)
    wood = pieces[-1].simplify(SAW_LINE_M)
    holes = lashing_holes(wood, section.notches)
    water = None if particulars is None else float(water_z_m(boat, particulars, station.x_m))
    return FramePattern(
        name=station.name, kind=station.kind, x_m=station.x_m, thickness_m=station.thickness_m,
        reference_face=station.reference_face, section=section, wood=wood,
        holes=(*holes, *arm_holes(wood, section, holes)), mortises=tuple(slots),
        opening=inside, scrap_m2=sum(piece.area for piece in pieces[-2:-1]),
        blending=_blending(boat, index), water_z_m=water)


def _blending(boat, index):
    """Sticks that blend into another so near this frame that they may be planed to a taper."""
    x = boat.frame_base_x_m[index]
    return tuple(one.name for one in boat.design.stringers
                 if any(end.kind == "into" and abs(end.x_m - x) <= TAPER_MM / MM_PER_M
                        for end in (one.start, one.end)))
