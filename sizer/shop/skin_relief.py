"""Frames that pressed-in skin would touch, and how far their plywood has to stand back for it."""

import math
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from sizer.hydro.skin_pressed import (
    SLACK_NPM,
    TIGHT_NPM,
    SkinPressed,
    mean_pressure_pa,
    pressed_in_m,
    slack_and_tight,
)
from sizer.shop.notches import frame_section
from sizer.shop.ring import hollow_m
from sizer.units import MM_PER_M

CLEAR_M = 0.002  # asked between the pressed skin and the plywood; our judgement


@dataclass(frozen=True)
class SkinTouch:
    """One strip of one frame where slack skin comes to the plywood."""

    frame: str
    place: str
    drawn_m: float  # how far the plywood stands back midway, as the pattern is drawn
    slack_m: float  # how far the water presses slack skin in there
    tight_m: float

    @property
    def needed_m(self):
        """How far the plywood should stand back midway."""
        return self.slack_m + CLEAR_M

    @property
    def says(self):
        """The frame, the place and what to relieve."""
        even = " (tight skin touches it too)" if self.tight_m > self.drawn_m else ""
        return (f"{self.frame}, {self.place}: stand the plywood back "
                f"{math.ceil(self.needed_m * MM_PER_M)} mm midway, drawn "
                f"{self.drawn_m * MM_PER_M:.0f}{even}")


@dataclass(frozen=True)
class SkinUnderWater:
    """The pressed-in skin of one boat."""

    slack: SkinPressed
    tight: SkinPressed
    touches: tuple[SkinTouch, ...]

    @property
    def says(self):
        """All of it in sentences."""
        low, high = self.tight, self.slack
        text = (f"The water presses the skin in between the sticks: {low.lost_l:.1f} litres lost "
                f"and {low.deeper_m * MM_PER_M:.0f} mm deeper with tight skin, {high.lost_l:.1f} "
                f"litres and {high.deeper_m * MM_PER_M:.0f} mm with slack skin, an estimate that "
                "the other figures leave out.")
        if not self.touches:
            return f"{text} It stays clear of every frame."
        return (f"{text} Slack skin would touch the frames here: "
                f"{'; '.join(one.says for one in self.touches)}.")


def skin_under_water(boat, afloat, water):
    """The SkinUnderWater of a boat upright at rest with these Particulars."""
    return SkinUnderWater(*slack_and_tight(boat, afloat, water),
                          tuple(_touches(boat, afloat, water)))


def _touches(boat, afloat, water):
    slope = np.tan(np.radians(afloat.trim_deg))
    for index, frame in enumerate(boat.design.frames):
        section = frame_section(boat, index)
        level = afloat.sinkage_m + slope * (boat.frame_x_m[index] - boat.sections.mid_x_m)
        sides = list(pairwise(zip(section.skin_m[:section.sheer + 1], section.notches,
                                  strict=False)))
        for (low, below), (high, above) in sides:
            width = float(np.hypot(*(high - low)))
            pressure = mean_pressure_pa(low[1], high[1], level, water.density_kgpm3)
            slack, tight = (float(pressed_in_m(pressure, width, one))
                            for one in (SLACK_NPM, TIGHT_NPM))
            if slack > hollow_m(width):
                yield SkinTouch(frame.name, f"between {below.stringer} and {above.stringer}",
                                hollow_m(width), slack, tight)
