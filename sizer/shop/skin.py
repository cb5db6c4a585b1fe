"""The skin's area and cloth, which way it goes and how it is sewn, its coating; and what cord the
lashing takes."""

from dataclasses import dataclass
from math import ceil

import numpy as np

from sizer.errors import BadInput, Fault
from sizer.hull.weight import own_weight
from sizer.shop.coaming import SEWING_STEP_M, WALL_M
from sizer.shop.items import CORD_PER_LASHING_M, CORD_SPARE_SHARE
from sizer.shop.lashing import lashings_at
from sizer.shop.said import both, both_range, listed
from sizer.shop.settings import SHOP
from sizer.shop.shapes import along_m
from sizer.units import KG_PER_LB, both_volume

PULL_M = 0.10  # of cloth over the girth, to hold and sew; our judgement
ENDS_M = 0.15  # of cloth beyond each end of the boat; our judgement
WIDTH_STEP_M = 0.05  # in which a wider cloth is asked for; our judgement
CORD_AT_STEM_M = 2.0  # of a lashing that takes both sides of the boat in one; our judgement
PASSES = 2  # there and back, so that a broken thread opens no seam; common practice, no source
STITCHES = both_range(8, 10)  # from one to the next; common practice, no source
THREAD_SHARE = 2.5  # of thread over seam, each time along it, doubled under; our judgement
THREAD_SPARE_SHARE = 0.20  # our judgement
EASED_M = 0.010  # of a cloth's edge that is drawn in without a fold, an end and side; our judgement
LAP_M = 0.030  # of cloth that is left beyond a seam's line, to fold and lap; our judgement
FOLD_M = 0.020  # of that, folded in under: the rest lies past the stitches; our judgement
# Of the seam's line under a gunwale's upper outer corner: both folds then lie on its outer face,
# the least of which is 34 mm high; our judgement
SEAM_UNDER_M = 0.015
# Of the tacks until it is sewn: the hull's in the gunwale's upper face, in from its outer corner,
# the deck's in its outer face, under that corner: neither where stitches go; our judgement
HULL_TACK_M, DECK_TACK_M = 0.008, 0.025
STEM_LAP_M = 0.015  # the same beside a stem's seam; our judgement
STEM_SEAM_M = 0.003  # of a stem's seam past its edge; our judgement
COATS = 3  # common practice, no source
# Of a sort as bought what stays on the cloth, by weight, and kg a litre of it in the tin; common
# practice, no source: each tin tells its own.
SOLIDS = (("two-part polyurethane without solvent", 1.0, 1.05), ("the same with solvent", 0.6, 1.0),
          ("oil-based varnish", 0.5, 0.9))


@dataclass(frozen=True)
class Skin:
    """The skin for the bench."""

    area_m2: float  # of the boat's skin, without the opening
    girth_m: float  # the greatest round a section, to the coaming's top beside the opening
    over_m: tuple[float, ...]  # the greatest that each length goes over, from seam to seam
    run_m: float  # along the bottom's centre line from end to end
    cloth_width_m: float
    lengths: int  # of cloth side by side: one goes round, two are hull and deck
    cloth_m: float  # to buy, of that width
    wider_m: float | None  # the least width that takes a length less; None where one goes round

    @property
    def spare_m(self):
        """Width of cloth left over along the whole boat beside the length that leaves most."""
        return self.cloth_width_m - min(self.over_m) - PULL_M


@dataclass(frozen=True)
class Lashing:
    """Every place where a stick is tied, and the cord for them."""

    frames: tuple[tuple[tuple[str, ...], tuple[str, ...], int], ...]  # sticks, frames, lashings
    along: tuple[tuple[str, str, int], ...]  # a stick that ends on another, its host, lashings
    at_stems: int
    cord_m: float  # with the spare

    @property
    def at_frames(self):
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
        return self.at_frames + self.at_ends + self.at_stems

    @property
    def says(self):
        ends = [f"{self.at_ends} round sticks that end on another"] if self.along else []
        return listed([f"{self.at_frames} lashings at the frames", *ends,
                       f"{self.at_stems} at the stems"])


def skin(boat, cloth_widths_m=SHOP.cloth_widths_m):
    """The Skin of a boat for cloth of that one of some widths of which the least area is bought.

    The area is that of the weight used afloat; cloth is bought by the greatest girth. Raises
    BadInput where no width goes over the hull, the wider of two lengths.
    """
    weight = next(part for part in own_weight(boat).parts if part.name == "skin")
    sections = boat.sections
    round_half = np.hypot(np.diff(sections.y_m, axis=1), np.diff(sections.z_m, axis=1))
    half = round_half[:, :-1]  # the last step spans the opening
    girth = 2.0 * float(half.sum(axis=1).max())
    run = float(np.hypot(np.diff(sections.x_m), np.diff(sections.z_m[:, 0])).sum())
    hull_and_deck = tuple(2.0 * float(part.sum(axis=1).max()) for part in (
        half[:, :sections.sheer], half[:, sections.sheer:]))
    ways = [(len(over), width, over) for over in ((girth,), hull_and_deck)
            for width in cloth_widths_m if width >= max(over) + PULL_M]
    if not ways:
        raise BadInput([Fault("cloth", listed([both(one) for one in sorted(cloth_widths_m)]),
                              f"{both(_up(max(hull_and_deck)))} wide or more: it goes over hull "
                              "and deck in a length each and is joined nowhere else")])
    lengths, width, over = min(ways, key=lambda one: (one[0] * one[1], one[0]))
    return Skin(weight.mass_kg / boat.design.skin_kgpm2, girth, over, run, width, lengths,
                lengths * (run + 2.0 * ENDS_M), None if lengths == 1 else _up(girth))


def _up(over_m):
    """The least width, in steps, of a cloth that goes over so much."""
    return round(ceil((over_m + PULL_M) / WIDTH_STEP_M - 1e-9) * WIDTH_STEP_M, 3)


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
        return (f"Two seams, one along the outside of each gunwale, {both(SEAM_UNDER_M)} under its "
                "upper corner, the deck lapped over the hull so that water runs off it.")

    @property
    def folded(self):
        """Where tacks go and how the edges are folded, in words."""
        tacked = (f"the hull's in each gunwale's upper face, {both(HULL_TACK_M)} in, the deck's "
                  f"in its outer face, {both(DECK_TACK_M)} under the corner, half-way between the "
                  "hull's" if self.lengths > 1 else
                  "one edge's in the ridge, then the other's between them")
        return (f"Tacks, {tacked}. As the needle comes draw both, fold {both(FOLD_M)} of each edge "
                f"in under itself: {both(LAP_M - FOLD_M)} of each lies past the stitches, which go "
                "through all four layers.")

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
                f"middle from its end, {slit} down from the stem's top along the stem's edge; draw "
                "each half flat along its own side past the stem, pin both together "
                f"{both(STEM_SEAM_M)} off the stem's edge, sew there, trim to {both(STEM_LAP_M)}, "
                "fold that to one side and sew it down flat.")

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
    bottom, edge = (along_m(np.column_stack([
        sections.x_m, sections.y_m[:, column], sections.z_m[:, column]])) for column in (
            0, -1 if lengths == 1 else sections.sheer))
    middle = len(bottom) // 2
    for end, way in (("bow", slice(middle, None, -1)), ("stern", slice(middle, None))):
        along, beside = (np.abs(one[way] - one[middle]) for one in (bottom, edge))
        lost = along - beside
        if lost[-1] > EASED_M:
            last = np.flatnonzero(lost <= EASED_M)[-1]
            yield StemSeam(end, float(lost[-1]), float(along[-1] - along[last]))


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


def wet(dry_kg):
    """(sort, kg, litres to buy wet) of so much coating as it dries."""
    return tuple((sort, dry_kg / share, dry_kg / share / heavy) for sort, share, heavy in SOLIDS)


def most_wet(dry_kg):
    """(kg, litres): the most to buy wet, of the sort with the fewest solids."""
    return max((kg, litres) for _, kg, litres in wet(dry_kg))


def wet_words(dry_kg):
    sorts = [f"{kg:.2f} kg ({kg / KG_PER_LB:.1f} lb), about {both_volume(litres)}, of {sort}"
             for sort, kg, litres in wet(dry_kg)]
    return (f"bought wet {listed(sorts, 'or')}: the dry weight over the share of solids, and the "
            "litres, that the tin tells")
