"""A neutral drawing: strokes of named pens, recorded once and replayed on the page and on paper.

Coordinates are metres, first to the right, second up: those of the wood or the boat at true size,
or those of the paper after `scaled`. What each pen stands for is told in `pens.py`.
"""

from dataclasses import dataclass, replace
from functools import cached_property
from itertools import compress
from math import cos, radians, sin

import numpy as np

from sizer.drawing.told import READERS, Told, read

LETTER_WIDTH = 0.85  # of a letter over its height, widest usual case; our drawing
CAP_HEIGHT = 0.73  # of the capitals of the faces we use, over the font size
LINE_HEIGHT = 1.6  # of a line of text over its letters' height


@dataclass(frozen=True, eq=False)
class Path:
    """A polyline; a closed one does not repeat its first point."""

    pen: str
    points_m: np.ndarray  # (n, 2)
    closed: bool = False


@dataclass(frozen=True)
class Circle:
    """A full circle: a hole, or the rim of a countersink."""

    pen: str
    centre_m: tuple[float, float]
    radius_m: float


@dataclass(frozen=True)
class Text:
    """One line of text; height is that of its capitals, whose middle is on its place.

    Along its direction the place is its "middle", or its "start" or "end". A rim of paper keeps the
    lines behind off it.
    """

    pen: str
    at_m: tuple[float, float]
    height_m: float
    text: str
    angle_deg: float = 0.0
    anchor: str = "middle"
    rim: bool = False
    of_m: tuple[float, float] | None = None  # the place that it names, where a line leads there

    @property
    def width_m(self):
        """Room the line takes along its direction, on the generous side."""
        return LETTER_WIDTH * self.height_m * len(self.text)


@dataclass(frozen=True, eq=False)
class Drawing:
    """One piece, one sheet of pieces at true size, or one picture with the paper it is on."""

    name: str
    strokes: tuple[Path | Circle | Text, ...]
    notes: tuple[str, ...] = ()
    frame_m: tuple[float, float, float, float] | None = None  # the paper: left, bottom, right, top

    @cached_property
    def box_m(self):
        """Left, bottom, right, top of everything drawn."""
        paths = [one.points_m for one in self.strokes if isinstance(one, Path)]
        others = [corner for one in self.strokes if not isinstance(one, Path)
                  for corner in _corners(one)]
        corners = np.concatenate([np.reshape(others, (-1, 2)), *paths])
        low, high = corners.min(axis=0), corners.max(axis=0)
        return float(low[0]), float(low[1]), float(high[0]), float(high[1])

    @cached_property
    def boxes_m(self):
        """The same of each stroke, (n, 4)."""
        corners = [_extent(stroke) for stroke in self.strokes]
        starts = np.cumsum([0, *map(len, corners[:-1])])
        every = np.concatenate(corners)
        return np.hstack([np.minimum.reduceat(every, starts), np.maximum.reduceat(every, starts)])

    @property
    def width_m(self):
        """Breadth of everything drawn."""
        return self.box_m[2] - self.box_m[0]

    @property
    def height_m(self):
        return self.box_m[3] - self.box_m[1]

    def on(self, *pens):
        """The same drawing with only these pens' strokes."""
        return replace(self, strokes=tuple(one for one in self.strokes if one.pen in pens))

    def touching(self, box_m):
        """The same drawing without the strokes that lie wholly outside a box."""
        low, high = self.boxes_m[:, :2], self.boxes_m[:, 2:]
        touches = ((low <= box_m[2:]) & (high >= box_m[:2])).all(axis=1)
        return replace(self, strokes=tuple(compress(self.strokes, touches)))

    def read(self, unit):
        """The same drawing with its words as `told.read` writes them for a reader of a unit."""
        if unit == READERS[0]:
            return self
        return replace(self, notes=tuple(read(one, unit) for one in self.notes), strokes=tuple(
            replace(one, text=read(one.text, unit))
            if isinstance(one, Text) and isinstance(one.text, Told) else one
            for one in self.strokes))

    def moved(self, shift_m, turned=False):
        """The same drawing turned a quarter to the left if asked, then shifted."""
        def place(points):
            if turned:
                points = np.stack([-points[..., 1], points[..., 0]], axis=-1)
            return points + np.asarray(shift_m)

        return self._placed(place, turn_deg=90.0 if turned else 0.0)

    def mirrored(self):
        """The same drawing with left and right changed, its level words still to be read."""
        return self._placed(lambda points: points * (-1.0, 1.0))

    def turned(self, angle_deg):
        """The same drawing turned to the left about its origin."""
        if not angle_deg:
            return self
        across, up = cos(radians(angle_deg)), sin(radians(angle_deg))

        def place(points):
            x, y = points[:, 0], points[:, 1]
            return np.stack([across * x - up * y, up * x + across * y], axis=1)

        return self._placed(place, turn_deg=angle_deg)

    def scaled(self, factor):
        """The same drawing that much larger about its origin; pens keep their widths."""
        return self._placed(lambda points: points * factor, factor)

    def _placed(self, place, factor=1.0, turn_deg=0.0):
        frame = self.frame_m
        if frame is not None:
            corners = place(np.reshape(frame, (2, 2)))
            frame = (*corners.min(axis=0).tolist(), *corners.max(axis=0).tolist())
        points = [_points(stroke) for stroke in self.strokes]
        ends = np.cumsum([0, *map(len, points)])
        moved = place(np.concatenate([np.empty((0, 2)), *points]))
        return replace(self, frame_m=frame, strokes=tuple(
            _placed(stroke, moved[start:end], factor, turn_deg)
            for stroke, start, end in zip(self.strokes, ends[:-1], ends[1:], strict=True)))


def joined(name, drawings, notes=()):
    """Several drawings as one, where they stand."""
    return Drawing(name, tuple(stroke for one in drawings for stroke in one.strokes), tuple(notes))


def side_by_side(name, drawings, gap_m):
    """Several drawings in a row from left to right, standing on one line."""
    placed, right = [], 0.0
    for one in drawings:
        placed.append(one.moved((right - one.box_m[0], -one.box_m[1])))
        right += one.width_m + gap_m
    return joined(name, placed)


def in_rows(name, drawings, in_a_row, gap_m, under_m):
    """Several drawings in rows of so many, each row as far under the one before."""
    rows, low = [], 0.0
    for start in range(0, len(drawings), in_a_row):
        row = side_by_side("row", drawings[start:start + in_a_row], gap_m)
        low -= row.height_m + under_m
        rows.append(row.moved((0.0, low)))
    return joined(name, rows)


def text_corners_m(text):
    """The four corners of the room a Text takes, in order round it; (4, 2)."""
    return np.array(_text_corners(text))


def _text_corners(text):
    turn = radians(text.angle_deg)
    along_x, along_y = (0.5 * text.width_m * part for part in (cos(turn), sin(turn)))
    up_x, up_y = (0.5 * LINE_HEIGHT * text.height_m * part for part in (-sin(turn), cos(turn)))
    ahead = {"start": 1.0, "middle": 0.0, "end": -1.0}[text.anchor]
    x, y = text.at_m[0] + ahead * along_x, text.at_m[1] + ahead * along_y
    return ((x + (along_x + up_x), y + (along_y + up_y)),
            (x + (along_x - up_x), y + (along_y - up_y)),
            (x + (-along_x - up_x), y + (-along_y - up_y)),
            (x + (-along_x + up_x), y + (-along_y + up_y)))


def _extent(stroke):
    return stroke.points_m if isinstance(stroke, Path) else _corners(stroke)


def _corners(stroke):
    """Of what is no Path."""
    if isinstance(stroke, Text):
        return _text_corners(stroke)
    (x, y), radius = stroke.centre_m, stroke.radius_m
    return (x - radius, y - radius), (x + radius, y + radius)


def _points(stroke):
    """(n, 2) of what a stroke is drawn through, or stands on."""
    if isinstance(stroke, Path):
        return stroke.points_m
    if isinstance(stroke, Circle):
        return (stroke.centre_m,)
    return (stroke.at_m,) if stroke.of_m is None else (stroke.at_m, stroke.of_m)


def _placed(stroke, points, factor, turn_deg):
    if isinstance(stroke, Path):
        return Path(stroke.pen, points, stroke.closed)
    at = tuple(points[0].tolist())
    if isinstance(stroke, Circle):
        return Circle(stroke.pen, at, factor * stroke.radius_m)
    return Text(stroke.pen, at, factor * stroke.height_m, stroke.text,
                stroke.angle_deg + turn_deg, stroke.anchor, stroke.rim,
                None if stroke.of_m is None else tuple(points[1].tolist()))
