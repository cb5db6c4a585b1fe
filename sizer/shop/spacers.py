"""The spacers between neighbouring cockpit frames: what their mortises are for.

A spacer is a flat board of the frames' plywood, one a side, that keeps two frames apart and square
under the paddler's weight. It runs from mortise to mortise with a tenon at each end: right through
a frame that it is the only one at, half way where the next spacer meets it from the other side. It
is drawn to cut at full size, lying flat with the bow on the left.
"""

from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np

from sizer.drawing.record import LETTER_WIDTH, Drawing, Path, Text, joined
from sizer.drawing.told import in_mm, in_tenths, row_of, size, told
from sizer.hull.weight import PLYWOOD
from sizer.shop.items import Item
from sizer.shop.trade_sizes import sold_told

TENON_SPARE_M = 0.0005  # of a tenon's height in its mortise, and between two that meet
SHOULDER_M = 0.004  # of the board over and under its tenons; our drawing
SPACERS = "spacers"
LETTERS_M = 0.005  # of words on the pieces; our drawing
APART_M = 0.020  # between pieces; our drawing


@dataclass(frozen=True)
class Spacer:
    """The spacer from one cockpit frame to the next, port and starboard alike but mirrored."""

    fore: str
    aft: str
    between_m: float  # from shoulder to shoulder, along the board
    long_m: float  # over the tenons
    high_m: float  # of the board
    thickness_m: float
    tenons_m: tuple[tuple[float, float], tuple[float, float]]  # (length, height), fore and aft
    bevel_deg: float  # of its shoulders: the board from straight fore and aft
    wind_deg: float  # from mortise to mortise: so much the tenons are eased

    @property
    def name(self):
        """What it is called wherever it is listed."""
        return f"spacer {self.fore} to {self.aft}"

    @property
    def mass_kg(self):
        """Of both boards, port and starboard."""
        return 2.0 * self.area_m2 * self.thickness_m * PLYWOOD.density_kgpm3

    @property
    def eased_m(self):
        """What comes off a tenon's faces at its ends so that it enters mortises that wind: each
        takes half of the wind, and the board runs at its bevel through the plywood."""
        tall = max(high for _, high in self.tenons_m)
        return (0.5 * tall * float(np.sin(np.radians(0.5 * self.wind_deg)))
                + max(long for long, _ in self.tenons_m) * float(
                    np.tan(np.radians(self.bevel_deg))))

    @property
    def area_m2(self):
        """Of one board with its tenons."""
        return self.between_m * self.high_m + sum(long * high for long, high in self.tenons_m)


def spacers(patterns):
    """The Spacers of a boat's FramePatterns, from the bow, between neighbouring cockpit frames."""
    made = [(fore, aft) for fore, aft in pairwise(patterns) if fore.mortises and aft.mortises]
    shared = {fore.name for fore, _ in made} & {aft.name for _, aft in made}
    return tuple(_spacer(fore, aft, shared) for fore, aft in made)


def _spacer(fore, aft, shared):
    (spot, (_, high), turn), (other, (_, next_high), next_turn) = map(mortise_of, (fore, aft))
    run = np.array([min(aft.faces_x_m) - max(fore.faces_x_m), *(other - spot)])
    between = float(np.linalg.norm(run))
    tenons = tuple(
        ((0.5 if one.name in shared else 1.0) * one.thickness_m - (
            0.5 * TENON_SPARE_M if one.name in shared else 0.0), tall - TENON_SPARE_M)
        for one, tall in ((fore, high), (aft, next_high)))
    return Spacer(
        fore.name, aft.name, between, between + sum(long for long, _ in tenons),
        min(high, next_high) + 2.0 * SHOULDER_M, min(fore.thickness_m, aft.thickness_m), tenons,
        float(np.degrees(np.arctan2(np.hypot(*run[1:]), run[0]))), abs(next_turn - turn))


def ends_x_m(spacer, frames):
    """Where a Spacer's shoulders stand among its FramePatterns by name: aft of the bow, (2,) m."""
    return max(frames[spacer.fore].faces_x_m), min(frames[spacer.aft].faces_x_m)


def leaning_at(spacer, frames, x_m):
    """Half-breadth and height (m) of a Spacer's middle at an x between its ends, and how far its
    board leans from upright there, outward (degrees); `frames` as `ends_x_m`."""
    ends = ends_x_m(spacer, frames)
    share = (x_m - ends[0]) / (ends[1] - ends[0])
    (fore, _, turn), (aft, _, next_turn) = (mortise_of(frames[name])
                                            for name in (spacer.fore, spacer.aft))
    half, middle = (1.0 - share) * fore + share * aft
    return float(half), float(middle), 90.0 - float((1.0 - share) * turn + share * next_turn)


def face_m(leaning, z_m, inside_m):
    """Half-breadth at a height of a face that leans as a board does, so far inside its middle;
    `leaning` as `leaning_at` gives it."""
    half, middle, lean_deg = leaning
    lean = np.radians(lean_deg)
    return float(half + (z_m - middle) * np.tan(lean) - inside_m / np.cos(lean))


def mortise_of(pattern):
    """Middle, (width, height) and angle in degrees of a pattern's mortise to starboard."""
    slot = max(pattern.mortises, key=lambda one: one.centroid.x)
    sides = np.diff(np.asarray(slot.minimum_rotated_rectangle.exterior.coords), axis=0)
    tall = max(sides, key=lambda side: np.hypot(*side))
    tall = tall * (1.0 if tall[1] > 0.0 else -1.0)
    narrow = min(float(np.hypot(*side)) for side in sides)
    return (np.array(slot.centroid.coords[0]), (narrow, float(np.hypot(*tall))),
            float(np.degrees(np.arctan2(tall[1], tall[0]))))


def spacer_items(made):
    for one in made:
        yield Item("plywood", f"okoume plywood {one.name}: thickness, width, length "
                   "between the shoulders", 2, "pieces",
                   (one.thickness_m, one.high_m, one.between_m),
                   f"and its tenons; port and starboard, cut from the sheets; {one.mass_kg:.2f} kg "
                   "the pair")


def spacer_pieces(made):
    """The Drawing of a boat's Spacers, one of each; two are cut."""
    pieces = [_piece(one).moved((0.0, -row * (one.high_m + APART_M)))
              for row, one in enumerate(made)]
    return joined(SPACERS, pieces, tuple(spacer_notes(made)))


def spacer_boards(made):
    """A Drawing of every board that is cut, two of each Spacer."""
    return tuple(replace(_piece(one), name=one.name) for one in made for _ in range(2))


def _piece(one):
    (fore, low), (aft, high) = one.tenons_m
    right, top = one.between_m, 0.5 * one.high_m
    outline = np.array([
        (-fore, -0.5 * low), (0.0, -0.5 * low), (0.0, -top), (right, -top), (right, -0.5 * high),
        (right + aft, -0.5 * high), (right + aft, 0.5 * high), (right, 0.5 * high), (right, top),
        (0.0, top), (0.0, 0.5 * low), (-fore, 0.5 * low)])
    words = f"BOW, {one.fore}", f"{one.name}, 2 off", f"{one.aft}, STERN"
    letters = min(LETTERS_M, right / (LETTER_WIDTH * (len("".join(words)) + len(words) + 1)))
    edge = LETTER_WIDTH * letters
    return Drawing(one.fore, (
        Path("cut", outline, closed=True),
        *(Text("text", (at, 0.0), letters, text, anchor=anchor) for at, text, anchor in zip(
            (edge, 0.5 * right, right - edge), words, ("start", "middle", "end"), strict=True))))


def spacer_notes(made):
    """How each Spacer is made and fixed, in words."""
    for one in made:
        yield told("Spacer {} to {}, 2 off, {} plywood: {} between shoulders, {} high; tenons, "
                   "length x height, {} fore and {} aft. Shoulders bevelled {:.1f} degrees. The "
                   "two mortises are turned {:.1f} degrees against each other: file {} off the "
                   "tenons' faces where they bind.", one.fore, one.aft, sold_told(one.thickness_m),
                   size(one.between_m, form=in_tenths), in_mm(one.high_m),
                   *(row_of(list(map(in_tenths, sides)), " x ") for sides in one.tenons_m),
                   one.bevel_deg, one.wind_deg, size(one.eased_m, form=in_tenths))
    yield ("Mark BOW and STERN on each as drawn: where its tenons are unlike, it goes in one way "
           "only. Where a mortise's corners are left round, file the tenons' corners to that "
           "radius or square the mortise; the kit's files have reliefs in the corners and need "
           "neither. Join frames and spacers off the beam, as Order of work tells: no frame moves "
           "once it is on its riser; glue the tenons when the boat is put together again: no "
           "lashing holds them. Measure between the frames first: the boat's own figure counts.")
