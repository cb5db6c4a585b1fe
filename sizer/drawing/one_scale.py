"""One scale for every picture of a whole boat, so that a short boat is drawn short; and its bar."""

from sizer.drawing.marks import paper_round, size_line, words

SHOWN_M = 5.7  # what a picture's width stands for, unless a boat is longer; our choice
BAR_M = 1.0
BAR_WORDS, SHORT_WORDS = "1 m = 3 ft 3 3/8 in", "1 m"


def long_paper(box_m, width, beside, over, under):
    """The Window round a view of a whole boat, as `paper_round`, on the scale of all of them; a
    shorter boat stands in the middle."""
    left, low, right, top = box_m
    beyond = 0.5 * max(SHOWN_M - (right - left), 0.0)
    return paper_round((left - beyond, low, right + beyond, top), width, beside, over, under)


def beside_boat(paper, box_m, margin):
    """Left and right x, that many mm of paper outside the boat that a long paper is round."""
    return box_m[0] - margin * paper.unit_m, box_m[2] + margin * paper.unit_m


def scale_bar(place, unit_m, text=BAR_WORDS):
    """A metre of the boat as a bar, what it is beside it; `place` is its left end."""
    x, y = place
    return [size_line((x, y), (x + BAR_M, y), unit_m, "scale"),
            words((x + BAR_M + 8.0 * unit_m, y - 4.5 * unit_m), text, unit_m, "start")]
