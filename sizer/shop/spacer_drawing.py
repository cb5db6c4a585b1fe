"""The spacers to cut at full size, lying flat with the bow on the left."""

from dataclasses import replace

import numpy as np

from sizer.drawing.record import LETTER_WIDTH, Drawing, Path, Text, joined
from sizer.units import MM_PER_M

SPACERS = "spacers"
LETTERS_M = 0.005  # of words on the pieces; our drawing
APART_M = 0.020  # between pieces; our drawing


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
        yield (f"Spacer {one.fore} to {one.aft}, 2 off, {one.thickness_m * MM_PER_M:g} mm plywood: "
               f"{one.between_m * MM_PER_M:.1f} mm between shoulders, {one.high_m * MM_PER_M:.0f} "
               f"high; tenons, length x height, {_tenon(one.tenons_m[0])} fore and "
               f"{_tenon(one.tenons_m[1])} aft. "
               f"Shoulders bevelled {one.bevel_deg:.1f} degrees. The two mortises are "
               f"turned {one.wind_deg:.1f} degrees against each other: file "
               f"{one.eased_m * MM_PER_M:.1f} mm off the tenons' faces where they bind.")
    yield ("Mark BOW and STERN on each as drawn: where its tenons are unlike, it goes in one way "
           "only. Where a mortise's corners are left round, file the tenons' corners to that "
           "radius or square the mortise; the kit's files have reliefs in the corners and need "
           "neither. Fit each spacer with its two frames before they are clamped; glue its tenons "
           "when the boat is put together again: no lashing holds them. Measure between the frames "
           "first: the boat's own figure counts.")


def _tenon(size):
    return " x ".join(f"{side * MM_PER_M:.1f}" for side in size)
