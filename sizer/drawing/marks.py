"""Words, dimensions and the other marks of pictures, and where pictures stand on their paper.

`unit_m` is a millimetre of the picture's paper in metres of what is drawn: marks keep their size on
paper whatever the scale of the boat.
"""

from dataclasses import dataclass, replace

import numpy as np

from sizer.drawing.record import CAP_HEIGHT, Drawing, Path, Text, joined
from sizer.units import MM_PER_M

WIDE, NARROW = 860.0, 360.0  # widths of a picture for a desk and for a phone, mm of its paper
PAPER_M = 1.0 / MM_PER_M  # the unit of what is drawn in the paper's own metres
TEXT = 13.0  # font size in both, so that a phone shows it at 11 px or more
PAGE_MARGIN = 10.0  # round a piece of the shop's on the page
TICK = 4.0  # half a dimension tick's reach, mm of paper
STATUS_MARK = 13.0  # size of a status shape in a picture
CURVE_STEPS = 6  # straight pieces from one point of a smooth outline to the next
MIRROR = np.array([1.0, -1.0])  # of points in the plan: the other side
OVER = -MIRROR  # of points in a section: the other side; of a shape from the side: turned about
STATUS_SHAPES = {  # in a square of 16, up positive: (points, closed)
    "pass": ((((2.5, 7.5), (6.5, 3.5), (13.5, 12.0)), False),),
    "caution": ((((8.0, 14.0), (14.5, 2.5), (1.5, 2.5)), True),
                (((8.0, 9.8), (8.0, 6.4)), False), (((8.0, 4.6), (8.0, 4.4)), False)),
    "fail": ((((2.5, 13.5), (13.5, 13.5), (13.5, 2.5), (2.5, 2.5)), True),
             (((5.0, 11.0), (11.0, 5.0)), False), (((11.0, 11.0), (5.0, 5.0)), False)),
}


@dataclass(frozen=True)
class Window:
    """A piece of paper laid over a view in metres, its upper left corner on a place of it."""

    left_m: float
    top_m: float
    unit_m: float
    width: float  # mm of paper, as is `below`
    below: float

    @property
    def frame_m(self):
        """Left, bottom, right, top in the view's metres."""
        return (self.left_m, self.top_m - self.below * self.unit_m,
                self.left_m + self.width * self.unit_m, self.top_m)

    def at(self, right, down):
        """The place in the view that many mm of paper from the upper left corner."""
        return np.array([self.left_m + right * self.unit_m, self.top_m - down * self.unit_m])

    def water(self, level_m):
        """Water from a level down, over the whole width: the tone and the line."""
        left, bottom, right, _ = self.frame_m
        return water_over([(left, level_m), (right, level_m)], bottom)

    def on_paper(self, strokes):
        """Strokes of the view as a Drawing in the paper's own metres."""
        return Drawing("", tuple(strokes), (), self.frame_m).scaled(PAPER_M / self.unit_m)


def paper_round(box_m, width, beside, over, under):
    """The Window of a width round a box in metres, with so many mm beside, over and under it."""
    left, low, right, top = box_m
    unit = (right - left) / (width - 2.0 * beside)
    return Window(left - beside * unit, top + over * unit, unit, width,
                  over + (top - low) / unit + under)


def picture(name, sentence, views):
    """Drawings on paper, one under the other, as one with its name and its sentence."""
    placed, low = [], 0.0
    for view in views:
        left, _, right, top = view.frame_m
        placed.append(view.moved((-left, low - top)))
        low = placed[-1].frame_m[1]
    return Drawing(name, joined(name, placed).strokes, (sentence,), (0.0, low, right - left, 0.0))


def unit_of(letters_m):
    """The millimetre of paper of a drawing whose letters are so high, as words of ours are."""
    return letters_m / (CAP_HEIGHT * TEXT)


def on_page(drawing, sentence):
    """A Drawing at true size as a picture for a desk, described by a sentence."""
    left, bottom, right, top = drawing.box_m
    factor = (WIDE - 2.0 * PAGE_MARGIN) * PAPER_M / (right - left)
    edge = PAGE_MARGIN * PAPER_M / factor
    frame = (left - edge, bottom - edge, right + edge, top + edge)
    return replace(drawing, notes=(sentence,), frame_m=frame).scaled(factor)


def smooth(points, closed=True):
    """A curve through control points: Catmull and Rom's spline, cut into short straight pieces.

    Parameters: points (n, 2). Returns (n * CURVE_STEPS, 2) when closed.
    """
    points = np.asarray(points, float)
    if closed:
        rings = np.concatenate([points[-1:], points, points[:2]])
    else:
        rings = np.concatenate([points[:1], points, points[-1:]])
    t = (np.arange(CURVE_STEPS) / CURVE_STEPS)[None, :, None]
    before, start, end, after = (rings[i:len(rings) - 3 + i, None, :] for i in range(4))
    curve = 0.5 * (2 * start + (end - before) * t
                   + (2 * before - 5 * start + 4 * end - after) * t**2
                   + (3 * start - before - 3 * end + after) * t**3).reshape(-1, 2)
    return curve if closed else np.concatenate([curve, points[-1:]])


def heeled(points, heel_deg, about):
    """Points across a boat, (n, 2), turned about one of them, to the right where positive."""
    c, s = np.cos(np.radians(heel_deg)), np.sin(np.radians(heel_deg))
    return (np.asarray(points) - about) @ np.array([[c, -s], [s, c]]) + about


def line(pen, *points):
    return Path(pen, np.array(points, float))


def box(pen, left, low, right, high):
    return Path(pen, np.array([(left, low), (right, low), (right, high), (left, high)]),
                closed=True)


def water_over(surface, bottom):
    """Water from its surface, (2, 2), down to a level: the tone and the line."""
    (left, _), (right, _) = surface
    tone = np.concatenate([surface, [(right, bottom), (left, bottom)]])
    return [Path("water", tone, closed=True), Path("waterline", np.asarray(surface))]


def apart(wanted, step):
    """The places, moved as little as keeps neighbours one step apart; `wanted` rises."""
    order = np.arange(len(wanted)) * step
    free = np.asarray(wanted) - order
    blocks = []  # of equal shift: the mean of what they want, merged while they would cross
    for value in free:
        blocks.append([value, 1])
        while len(blocks) > 1 and blocks[-2][0] > blocks[-1][0]:
            (one, count), (other, more) = blocks[-2:]
            blocks[-2:] = [[(one * count + other * more) / (count + more), count + more]]
    return np.repeat([value for value, _ in blocks], [count for _, count in blocks]) + order


def words(place, text, unit_m, anchor="middle", pen="text", rim=False):
    """Text that stands on `place`."""
    height = CAP_HEIGHT * TEXT * unit_m
    return Text(pen, (float(place[0]), float(place[1]) + height / 2.0), height, text,
                anchor=anchor, rim=rim)


def legend(place, unit_m):
    x, y = place
    high = y + 4.0 * unit_m
    return [line("pencil", (x, high), (x + 22.0 * unit_m, high)),
            words((x + 28.0 * unit_m, y), "base design", unit_m, "start")]


def size_line(start, end, unit_m, pen="dimension"):
    """A dimension's line with a slanted tick at each end, as one stroke; its ends third, fourth."""
    start, end = np.asarray(start, float), np.asarray(end, float)
    run = end - start
    along = run / (np.hypot(*run) or 1.0)
    slant = TICK * unit_m * (along + np.array([-along[1], along[0]])) / 2**0.5
    return Path(pen, np.array([start - slant, start + slant, start, end, end - slant, end + slant]))


def dimension(start, end, unit_m, text, place, anchor="middle", rim=False):
    """A dimension's line and its text, which stands on `place`."""
    return [size_line(start, end, unit_m), words(place, text, unit_m, anchor, "size", rim)]


def broken_edge(low, high, unit_m):
    """The waved line of a part cut off, from one place to the other."""
    share = np.linspace(0.0, 1.0, 13)[:, None]
    along = np.asarray(high) - np.asarray(low)
    across = np.array([along[1], -along[0]]) / (np.hypot(*along) or 1.0)
    wave = 3.0 * unit_m * np.sin(2.0 * np.pi * share) * across
    return Path("thin", np.asarray(low) + share * along + wave)


def status_mark(place, status, unit_m, size=STATUS_MARK):
    """The shape of a status, its lower left corner on `place`."""
    return [Path(f"shape-{status}", np.asarray(points) * size / 16.0 * unit_m + place, closed)
            for points, closed in STATUS_SHAPES[status]]
