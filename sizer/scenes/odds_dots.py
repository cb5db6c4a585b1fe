"""Odds as a picture: a hundred dots, as many of them full as of a hundred such paddlers are met."""

from sizer.drawing.record import Circle, Drawing
from sizer.units import MM_PER_M

ACROSS, DOWN = 20, 5
APART, RADIUS = 7.0, 2.4  # mm of the picture
TOGETHER = 5  # dots between wider gaps, to be counted by
GAP = 2.5


def odds_dots(full, said):
    """A Drawing of a hundred dots, `full` of them filled from the first row on."""
    circles = []
    for index in range(ACROSS * DOWN):
        row, column = divmod(index, ACROSS)
        pen = "odds-met" if index < full else "odds-missed"
        circles.append(Circle(pen, (APART * (column + 0.5) + GAP * (column // TOGETHER),
                                    APART * (DOWN - row - 0.5)), RADIUS))
    width = APART * ACROSS + GAP * ((ACROSS - 1) // TOGETHER)
    return Drawing(said, tuple(circles), (f"{said}.",),
                   (0.0, 0.0, width, APART * DOWN)).scaled(1.0 / MM_PER_M)
