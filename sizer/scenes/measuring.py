"""How each body measure is taken: a line drawing with its dimension arrow.

Each is drawn from the middle of its floor with the stature as the unit (a foot: its length).
"""

from functools import cache

import numpy as np
from shapely import box as box_of

from sizer.drawing.marks import OVER, Window, box, broken_edge, line, picture, size_line, words
from sizer.drawing.record import Drawing, Path
from sizer.scenes import poses
from sizer.scenes.flesh import without

CELL, HEIGHT = 180.0, 222.0  # one drawing with its two lines of words, mm of paper
GAP = 6.0
FLOOR = 172.0
STANDING = 154.0  # mm of paper of the whole stature
SIDES = (1.0, -1.0)


@cache
def how_to_measure_all(narrow=False):
    """All measures in one picture: three a row, or two for a phone."""
    columns = 2 if narrow else 3
    rows = -(-len(_MEASURES) // columns)
    paper = Window(-0.5 * CELL, FLOOR, 1.0, columns * CELL, rows * (HEIGHT + GAP) - GAP)
    strokes = []
    for index, (name, cell) in enumerate(_MEASURES.items()):
        row, column = divmod(index, columns)
        strokes += Drawing(name, tuple(_cell(name, *cell))).moved(
            (column * CELL, -row * (HEIGHT + GAP))).strokes
    return picture("How to measure", f"How to take each measure: {', '.join(_MEASURES)}.",
                   [paper.on_paper(strokes)])


def _cell(name, draw, how, scale, middle, floor):
    """One figure, its name and how it is taken, in mm of paper."""
    figure = Drawing(name, tuple(draw(1.0 / scale))).scaled(scale).moved((middle, floor))
    return [*figure.strokes, words((0.0, -24.0), name, 1.0, pen="size"),
            words((0.0, -41.0), how, 1.0)]


def _floor(unit, middle=0.0):
    half = 0.5 * CELL - 22.0
    return line("ink", (-(half + middle) * unit, 0.0), ((half - middle) * unit, 0.0))


def _figure(outline, arms, turned=1.0):
    return [Path("body", outline * turned, closed=True),
            *(Path("body-line", arm * turned) for arm in arms)]


def _stature(unit):
    return [_floor(unit, -8.0), *_figure(*poses.standing()),
            box("block", -0.07, 1.0, 0.30, 1.022), size_line((0.27, 0.0), (0.27, 1.0), unit)]


def _inseam(unit):
    top = poses.CROTCH - 0.012
    return [_floor(unit, -8.0), *_figure(*poses.standing()),
            box("block", -0.022, top - 0.10, 0.022, top),
            line("extension", (0.03, top), (0.30, top)),
            size_line((0.27, 0.0), (0.27, top), unit)]


def _shoulder_width(unit):
    """The pose larger, its head at the usual height, cut off at the floor of the others."""
    (body, arms), low = poses.standing(), 1.0 - (STANDING + 6.0) * unit
    half = poses.SHOULDERS + 0.002
    return [Path("body-fill", np.maximum(body, (-np.inf, low)), closed=True),
            *(Path("body-line", run) for part in ([*body, body[0]], *arms)
              for run in without(part, box_of(-1, -1, 1, low))),
            *(line("extension", (side * half, 0.83), (side * half, 0.68)) for side in SIDES),
            size_line((-half, 0.745), (half, 0.745), unit)]


def _bench(left, right):
    return [line("edge", (left, poses.BENCH), (right, poses.BENCH)),
            *(line("wood", (x, poses.BENCH), (x, 0.0)) for x in (left + 0.03, right - 0.03))]


def _hip_width(unit):
    gap, low = poses.HIPS + 0.003, poses.BENCH
    return [_floor(unit), *_bench(-0.30, 0.30), *_figure(*poses.seated_front()),
            *(box("block", side * gap, low, side * (gap + 0.022), low + 0.11) for side in SIDES),
            size_line((-gap, low + 0.045), (gap, low + 0.045), unit)]


def _sitting_height(unit):
    top = poses.BENCH + poses.SITTING
    return [_floor(unit, 18.0), line("ink", (0.006, 0.0), (0.006, 0.86)), *_bench(-0.25, 0.004),
            *_figure(*poses.seated_side(), OVER),
            box("block", -0.13, top, 0.22, top + 0.018),
            line("extension", (0.0, poses.BENCH), (0.22, poses.BENCH)),
            size_line((0.19, poses.BENCH), (0.19, top), unit)]


def _foot_length(unit):
    shape, low = poses.foot() * OVER, -24.0 * unit
    return [line("ink", (-1.12, 0.0), (0.006, 0.0), (0.006, 0.88)), Path("body-fill", shape),
            Path("body-line", shape), broken_edge(shape[0], shape[-1], unit),
            *(line("extension", (x, -2.0 * unit), (x, low - 4.0 * unit)) for x in (-1.0, 0.0)),
            size_line((-1.0, low), (0.0, low), unit)]


# name: figure, how it is taken, mm of paper of its unit, where its middle and its floor stand
_MEASURES = {
    "height": (_stature, "no shoes, heels to a wall", STANDING, -8.0, 0.0),
    "hip width": (_hip_width, "sitting, between books", 1.22 * STANDING, 0.0, 0.0),
    "inseam": (_inseam, "floor to book at crotch", STANDING, -8.0, 0.0),
    "sitting height": (_sitting_height, "bench to top of head", 1.16 * STANDING, 18.0, 0.0),
    "foot length": (_foot_length, "heel to longest toe", 118.0, 59.0, 34.0),
    "shoulder width": (_shoulder_width, "widest, over the arms", 2.15 * STANDING, 0.0,
                       6.0 - 1.15 * STANDING),
}
