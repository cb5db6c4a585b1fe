"""One scale for every picture of a whole boat, so that a short boat is drawn short; and its bar."""

from sizer.drawing.marks import paper_round, size_line, words
from sizer.units import MM_PER_FT, MM_PER_M

SHOWN_M = 5.7  # what a picture's width stands for, unless a boat is longer; our choice
# Round lengths in metric units and in feet, in m.
BARS_M = {"1 m": 1.0, "4 ft": 4.0 * MM_PER_FT / MM_PER_M}


def long_paper(box_m, width, beside, over, under):
    """The Window round a view of a whole boat, as `paper_round`, on the scale of all of them; a
    shorter boat stands in the middle."""
    left, low, right, top = box_m
    beyond = 0.5 * max(SHOWN_M - (right - left), 0.0)
    return paper_round((left - beyond, low, right + beyond, top), width, beside, over, under)


def beside_boat(paper, box_m, margin):
    """Left and right x, that many mm of paper outside the boat that a long paper is round."""
    return box_m[0] - margin * paper.unit_m, box_m[2] + margin * paper.unit_m


def scale_bar(place, unit_m, length_text):
    """A length of the boat as a bar, what it is beside it; `place` is its left end.

    `length_text`, from m to words, is in one unit: the bar is as long as is read shortest in it.
    """
    x, y = place
    said = min(BARS_M, key=lambda one: len(length_text(BARS_M[one])))
    end = x + BARS_M[said]
    return [size_line((x, y), (end, y), unit_m, "scale"),
            words((end + 8.0 * unit_m, y - 4.5 * unit_m), said, unit_m, "start")]
