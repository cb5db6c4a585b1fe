"""How the skin is sewn: which way the cloth goes, where its seams run, the thread they take."""

from dataclasses import dataclass
from math import ceil

import numpy as np

from sizer.shop.coaming import SEWING_STEP_M, WALL_M
from sizer.shop.said import both, listed

PASSES = 2  # there and back, so that a broken thread opens no seam; common practice, no source
THREAD_SHARE = 2.5  # of thread over seam, each time along it, doubled under; our judgement
THREAD_SPARE_SHARE = 0.20  # our judgement
EASED_M = 0.010  # of a cloth's edge that is drawn in without a fold, an end and side; our judgement
LAP_M = 0.030  # of cloth that is left beyond a seam's line, to fold and lap; our judgement
STEM_LAP_M = 0.015  # the same beside a stem's seam; our judgement


@dataclass(frozen=True)
class StemSeam:
    """The seam down one stem, where the cloth's edges are longer than the boat there."""

    end: str  # bow or stern
    lost_m: float  # of each edge, against the cloth's middle
    long_m: float  # down the stem's edge from its top


@dataclass(frozen=True)
class Seams:
    """The seams of one boat's skin."""

    lengths: int  # of cloth side by side
    seam_m: float  # all seams but the coaming's
    coaming_m: float  # round the outside of the coaming's wall, where the stitches stand
    thread_m: float  # with the spare
    holes: int  # through the coaming's wall
    stems: tuple[StemSeam, ...]

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


    @property
    def down_stems(self):
        """How the cloth's ends are made to lie, in words."""
        if not self.stems:
            return ""
        lost, slit = (listed([f"{both(size)} at the {one.end}" for one, size in sizes])
                      for sizes in ([(one, one.lost_m) for one in self.stems],
                                    [(one, one.long_m) for one in self.stems]))
        return ("Round the stems the cloth's edges are longer than the boat, each side by "
                f"{lost}: no pull takes that out. The cloth drawn lengthwise and tacked, slit its "
                f"middle from its end to where the stem rises, {slit} down from its top along its "
                "edge; draw each half flat along its own side past the stem, pin both together "
                f"close to the stem's edge, sew there, trim to {both(STEM_LAP_M)}, fold that to "
                "one side and sew it down flat.")

    @property
    def trimmed(self):
        """When surplus is cut off, and what is left, in words."""
        return (f"Drawn and tacked all along, cut every edge to {both(LAP_M)} beyond the seam's "
                "line, not before.")


def stem_seams(boat, lengths):
    """The StemSeams of a boat whose cloth's edges meet on its deck or along its gunwales.

    The cloth's middle lies along the bottom; its edges run beside it, and what they need less
    gathers towards the ends. Each seam begins where an edge drawn in takes it no more.
    """
    sections = boat.sections
    bottom, edge = (_run_m(sections, column) for column in (
        0, -1 if lengths == 1 else sections.sheer))
    middle = len(bottom) // 2
    for end, way in (("bow", slice(middle, None, -1)), ("stern", slice(middle, None))):
        along, beside = (np.abs(one[way] - one[middle]) for one in (bottom, edge))
        lost = along - beside
        if lost[-1] > EASED_M:
            last = np.flatnonzero(lost <= EASED_M)[-1]
            yield StemSeam(end, float(lost[-1]), float(along[-1] - along[last]))


def _run_m(sections, column):
    """Length along a column of points from the bow to each section."""
    steps = np.sqrt(sum(np.diff(one) ** 2 for one in (
        sections.x_m, sections.y_m[:, column], sections.z_m[:, column])))
    return np.concatenate([[0.0], np.cumsum(steps)])


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
    stems = tuple(stem_seams(boat, cloth.lengths))
    along += sum(one.long_m for one in stems)
    outside = rim.girth_m + 2.0 * np.pi * WALL_M  # a smooth ring grows so by its wall
    thread = (PASSES * along + outside) * THREAD_SHARE * (1.0 + THREAD_SPARE_SHARE)
    return Seams(cloth.lengths, along, outside, thread, ceil(outside / SEWING_STEP_M), stems)
