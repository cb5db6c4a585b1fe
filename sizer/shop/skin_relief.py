"""How far frames are sawn back for skin that the water presses in, and which it still touches.

Nothing is planed off a frame that is sawn. The frames of the cockpit are not sawn back farther than
they are drawn: their floors are as deep as they have to be under the paddler, with the legs close
over them, and their sides hold the spacers. Slack skin may so lie on them.
"""

import math
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np

from sizer.hull.inside import FLOOR_M, RELIEF_M, panel_widths_m
from sizer.hydro import skin_pressed
from sizer.shop.notches import frame_section
from sizer.shop.ring import MOST_HOLLOW_M, hollows_m
from sizer.shop.said import both, listed
from sizer.units import MM_PER_M

CLEAR_M = 0.002  # asked between the pressed skin and the plywood; our judgement
LEFT_M = FLOOR_M - RELIEF_M - MOST_HOLLOW_M  # behind it at least: as much as of a cockpit's floor


@dataclass(frozen=True)
class SkinTouch:
    """One strip of one frame where slack skin comes to the plywood."""

    frame: str
    place: str
    sawn_m: float  # how far the plywood stands back midway, as the pattern is sawn
    slack_m: float  # how far the water presses slack skin in there
    tight_m: float

    @property
    def told(self):
        """The place, how far it is sawn back, and whether tight skin touches too."""
        even = "; even tight skin touches" if self.tight_m > self.sawn_m else ""
        return f"{self.place}, sawn back {both(self.sawn_m)}{even}"


@dataclass(frozen=True)
class SkinUnderWater:
    """The pressed-in skin of one boat."""

    slack: skin_pressed.SkinPressed
    tight: skin_pressed.SkinPressed
    touches: tuple[SkinTouch, ...]

    @property
    def touched(self):
        """Where slack skin touches, and what is to be done about it, in sentences."""
        if not self.touches:
            return "It stays clear of every frame."
        alike = {}
        for one in self.touches:
            alike.setdefault(one.told, []).append(one)
        rows = [f"{listed([one.frame for one in some])}, {told}: pressed in "
                f"{both(math.ceil(max(one.slack_m for one in some) * MM_PER_M) / MM_PER_M)} midway"
                for told, some in alike.items()]
        return (f"Slack skin would touch the frames here: {'; '.join(rows)}. TAKE NOTHING OFF "
                "THESE FRAMES: no floor under a paddler can spare it. Their edges there are round "
                "and smooth since they were sawn; draw the skin tight.")

    @property
    def says(self):
        low, high = self.tight, self.slack
        return (f"The water presses the skin in between the sticks: {low.lost_l:.1f} litres lost "
                f"and {low.deeper_m * MM_PER_M:.0f} mm deeper with tight skin, {high.lost_l:.1f} "
                f"litres and {high.deeper_m * MM_PER_M:.0f} mm with slack skin, an estimate that "
                f"the other figures leave out. {self.touched}")


def skin_under_water(boat, afloat, water):
    return SkinUnderWater(*skin_pressed.slack_and_tight(boat, afloat, water),
                          tuple(_touches(boat, afloat, water)))


def stood_back(boat, index, afloat, water):
    """The Section of a frame, sawn back for pressed-in skin where its plywood can spare it."""
    section, kind = frame_section(boat, index), boat.design.frames[index].kind
    if kind == "cockpit":
        return section
    slack = np.array([one for one, _ in _pressed_m(boat, index, section, afloat, water)])
    wanted = np.where(slack > 0.0, slack + CLEAR_M, 0.0)
    widths = panel_widths_m(kind, section.skin_m, section.sheer)
    if widths is not None:
        wanted = np.minimum(wanted, widths[:section.sheer] - LEFT_M)
    return replace(section, stands_back_m=tuple(wanted.tolist()))


def _pressed_m(boat, index, section, afloat, water):
    """How far slack and tight skin is pressed in midway of each panel up to the gunwale."""
    slope = np.tan(np.radians(afloat.trim_deg))
    level = afloat.sinkage_m + slope * (boat.frame_x_m[index] - boat.sections.mid_x_m)
    for low, high in pairwise(section.skin_m[:section.sheer + 1]):
        pressure = skin_pressed.mean_pressure_pa(low[1], high[1], level, water.density_kgpm3)
        yield tuple(float(skin_pressed.pressed_in_m(pressure, np.hypot(*(high - low)), one))
                    for one in (skin_pressed.SLACK_NPM, skin_pressed.TIGHT_NPM))


def _touches(boat, afloat, water):
    for index, frame in enumerate(boat.design.frames):
        section = stood_back(boat, index, afloat, water)
        for (slack, tight), sawn, (below, above) in zip(
                _pressed_m(boat, index, section, afloat, water), hollows_m(section),
                pairwise(section.notches), strict=False):
            if slack > sawn:
                yield SkinTouch(frame.name, f"between {below.stringer} and {above.stringer}",
                                float(sawn), slack, tight)
