"""The skin's area and cloth, and what cord the lashing takes."""

from dataclasses import dataclass
from math import ceil

import numpy as np

from sizer.hull.weight import own_weight
from sizer.shop.items import CORD_PER_LASHING_M, CORD_SPARE_SHARE
from sizer.shop.lashing import lashings_at
from sizer.shop.said import listed
from sizer.shop.settings import SHOP

PULL_M = 0.10  # of cloth over the girth, to hold and sew; our judgement
ENDS_M = 0.15  # of cloth beyond each end of the boat; our judgement
WIDTH_STEP_M = 0.05  # in which a wider cloth is asked for; our judgement
CORD_AT_STEM_M = 2.0  # of a lashing that takes both sides of the boat in one; our judgement


@dataclass(frozen=True)
class Skin:
    """The skin for the bench."""

    area_m2: float  # of the boat's skin, without the opening
    girth_m: float  # the greatest round a section, to the coaming's top beside the opening
    run_m: float  # along the bottom's centre line from end to end
    cloth_width_m: float
    lengths: int  # of cloth side by side: one goes round, two are hull and deck
    cloth_m: float  # to buy, of that width
    wider_m: float | None  # the least width that takes a length less; None where one goes round

    @property
    def spare_m(self):
        """Width of cloth left over along the whole boat beside the length that leaves most, at
        least: what is over of all, shared alike."""
        return self.cloth_width_m - (self.girth_m + PULL_M) / self.lengths


@dataclass(frozen=True)
class Lashing:
    """Every place where a stick is tied, and the cord for them."""

    frames: tuple[tuple[tuple[str, ...], tuple[str, ...], int], ...]  # sticks, frames, lashings
    along: tuple[tuple[str, str, int], ...]  # a stick that ends on another, its host, lashings
    at_stems: int
    cord_m: float  # with the spare

    @property
    def at_frames(self):
        """Those at the frames."""
        return sum(count for _, _, count in self.frames)

    @property
    def pockets(self):
        """Whether one lashing somewhere takes more sticks than one."""
        return any(len(sticks) > 1 for sticks, _, _ in self.frames)

    @property
    def at_ends(self):
        """Those round a stick's tapered end and its host, between frames."""
        return sum(count for _, _, count in self.along)

    @property
    def count(self):
        """All lashings of the boat."""
        return self.at_frames + self.at_ends + self.at_stems

    @property
    def says(self):
        """How many there are, and where."""
        ends = [f"{self.at_ends} round sticks that end on another"] if self.along else []
        return listed([f"{self.at_frames} lashings at the frames", *ends,
                       f"{self.at_stems} at the stems"])


def skin(boat, cloth_widths_m=SHOP.cloth_widths_m):
    """The Skin of a boat for cloth of that one of some widths of which the least area is bought.

    The area is that of the weight used afloat; cloth is bought by the greatest girth.
    """
    weight = next(part for part in own_weight(boat).parts if part.name == "skin")
    sections = boat.sections
    round_half = np.hypot(np.diff(sections.y_m, axis=1), np.diff(sections.z_m, axis=1))
    girth = 2.0 * float(round_half[:, :-1].sum(axis=1).max())  # the last step spans the opening
    run = float(np.hypot(np.diff(sections.x_m), np.diff(sections.z_m[:, 0])).sum())
    around = girth + PULL_M
    width = min(sorted(cloth_widths_m), key=lambda one: one * ceil(around / one))
    lengths = ceil(around / width)
    steps = ceil(around / max(lengths - 1, 1) / WIDTH_STEP_M - 1e-9)
    wider = None if lengths == 1 else round(steps * WIDTH_STEP_M, 3)
    return Skin(weight.mass_kg / boat.design.skin_kgpm2, girth, run, width, lengths,
                lengths * (run + 2.0 * ENDS_M), wider)


def lashing(boat, sticks, stems):
    """The Lashing of a boat: what is lashed at its frames, its Sticks' ends that lie on another,
    and what its StemPatterns are bored for, each of which takes both sides in one."""
    places = {}
    for index, frame in enumerate(boat.design.frames):
        for names, count in lashings_at(boat, index):
            places.setdefault(names, []).append((frame.name, count))
    order = [one.name for one in boat.design.stringers]
    rows = tuple((names, tuple(frame for frame, _ in found), sum(count for _, count in found))
                 for names, found in sorted(places.items(), key=lambda one: (
                     order.index(one[0][0]), len(one[0]))))
    along = tuple((stick.name, end.on, stick.stringer.count * len(places))
                  for stick in sticks for end, _, places in stick.ties)
    at_stems = sum(len(stem.lashings) for stem in stems)
    bare = (sum(row[2] for row in (*rows, *along)) * CORD_PER_LASHING_M
            + at_stems * CORD_AT_STEM_M)
    return Lashing(rows, along, at_stems, bare * (1.0 + CORD_SPARE_SHARE))
