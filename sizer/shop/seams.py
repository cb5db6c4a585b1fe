"""How the skin is sewn: which way the cloth goes, where its seams run, the thread they take."""

from dataclasses import dataclass
from math import ceil

import numpy as np

from sizer.shop.coaming import SEWING_STEP_M, WALL_M

PASSES = 2  # there and back, so that a broken thread opens no seam; common practice, no source
THREAD_SHARE = 2.5  # of thread over seam, each time along it, doubled under; our judgement
THREAD_SPARE_SHARE = 0.20  # our judgement


@dataclass(frozen=True)
class Seams:
    """The seams of one boat's skin."""

    lengths: int  # of cloth side by side
    seam_m: float  # all seams but the coaming's
    coaming_m: float  # round the outside of the coaming's wall, where the stitches stand
    thread_m: float  # with the spare
    holes: int  # through the coaming's wall

    @property
    def way(self):
        """How the cloth lies, in words."""
        if self.lengths == 1:
            return ("One length round the boat: its middle along the keel, the boat upside down; "
                    "then turned, and drawn together along the deck's centre line.")
        return ("Two lengths: one over the hull, its middle along the keel, the boat upside down; "
                "the other over the deck; they meet along both gunwales.")

    @property
    def where(self):
        """Where the seams run, in words."""
        if self.lengths == 1:
            return ("One seam along the deck's centre line, from each stem to the coaming: the two "
                    "edges lapped over the ridge.")
        return ("Two seams, one along the outside of each gunwale under its upper corner, the deck "
                "lapped over the hull so that water runs off it.")


def seams(boat, sticks, cloth, rim):
    """The Seams of a boat with its Sticks, its Skin and its Coaming."""
    if cloth.lengths == 1:
        sections, opening = boat.sections, boat.opening
        steps = np.hypot(np.diff(sections.x_m), np.diff(sections.z_m[:, -1]))
        middle = 0.5 * (sections.x_m[1:] + sections.x_m[:-1])
        open_ = (opening.front_x_m < middle) & (middle < opening.back_x_m)
        along = float(steps[~open_].sum())
    else:
        along = 2.0 * next(one.length_m for one in sticks if one.stringer.role == "gunwale")
    outside = rim.girth_m + 2.0 * np.pi * WALL_M  # a smooth ring grows so by its wall
    thread = (PASSES * along + outside) * THREAD_SHARE * (1.0 + THREAD_SPARE_SHARE)
    return Seams(cloth.lengths, along, outside, thread, ceil(outside / SEWING_STEP_M))
