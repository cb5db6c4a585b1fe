"""How each body measure is taken: a line drawing with its dimension arrow.

Each stands on the middle of its floor; a pose's stature is the unit until it is drawn.
"""

from functools import cache

import numpy as np

from sizer.drawing.marks import Window, box, broken_edge, line, picture, size_line, words
from sizer.drawing.record import Drawing, Path
from sizer.scenes import poses

CELL, HEIGHT = 180.0, 222.0  # one drawing with its two lines of words, mm of paper
GAP = 6.0
FLOOR = 172.0
STANDING = 154.0  # mm of paper of the whole stature

# measure: (name, how, sentence)
_WORDS = {
    "stature": ("stature", "no shoes, heels to a wall",
                "Stand without shoes against a wall; measure from the floor to a book held level "
                "on the head."),
    "hip_width": ("hip width", "sitting, between books",
                  "Sit on a hard bench with a book upright against each hip; measure between the "
                  "books."),
    "inseam": ("inseam", "floor to book at crotch",
               "Stand without shoes with a book held level up against the crotch; measure from "
               "the floor to its upper edge."),
    "sitting_height": ("sitting height", "bench to top of head",
                       "Sit tall on a hard bench against a wall; measure from the bench to a book "
                       "held level on the head."),
    "foot_length": ("foot length", "heel to longest toe",
                    "Stand with the bare heel against a wall; measure from the wall to the tip of "
                    "the longest toe."),
    "shoulder_width": ("shoulder width", "widest, over the arms",
                       "Sit or stand with the arms hanging; measure the widest breadth over both "
                       "upper arms."),
}
MEASURES = tuple(_WORDS)


@cache
def how_to_measure_all(narrow=False):
    """All MEASURES in one picture: three a row, or two for a phone."""
    columns = 2 if narrow else 3
    rows = -(-len(MEASURES) // columns)
    paper = Window(-0.5 * CELL, FLOOR, 1.0, columns * CELL, rows * (HEIGHT + GAP) - GAP)
    strokes = []
    for index, measure in enumerate(MEASURES):
        row, column = divmod(index, columns)
        strokes += Drawing(measure, tuple(_cell(measure))).moved(
            (column * CELL, -row * (HEIGHT + GAP))).strokes
    names = ", ".join(name for name, _, _ in _WORDS.values())
    return picture("How to measure", f"How to take each measure: {names}.",
                   [paper.on_paper(strokes)])


def _cell(measure):
    name, how, _ = _WORDS[measure]
    return [*_DRAWN[measure](), words((0.0, -24.0), name, 1.0, pen="size"),
            words((0.0, -41.0), how, 1.0)]


def _floor():
    return line("ink", (22.0 - 0.5 * CELL, 0.0), (0.5 * CELL - 22.0, 0.0))


def _placed(points, middle=0.0, scale=STANDING, floor=0.0):
    """Points of a pose on the paper."""
    return np.asarray(points, float) * scale + (middle, floor)


def _block(left, right, low, high, *place):
    """A book or board."""
    (left, low), (right, high) = _placed([(left, low), (right, high)], *place)
    return box("block", left, low, right, high)


def _line(pen, start, end, *place):
    return Path(pen, _placed([start, end], *place))


def _size(start, end, *place):
    return size_line(*_placed([start, end], *place), 1.0)


def _stature():
    at = (-8.0,)
    return [_floor(), Path("body", _placed(poses.standing(), *at), closed=True),
            _block(-0.07, 0.30, 1.0, 1.022, *at), _size((0.27, 0.0), (0.27, 1.0), *at)]


def _inseam():
    at, top = (-8.0,), poses.CROTCH - 0.012
    return [_floor(), Path("body", _placed(poses.standing(), *at), closed=True),
            _block(-0.022, 0.022, top - 0.10, top, *at),
            _line("extension", (0.03, top), (0.30, top), *at),
            _size((0.27, 0.0), (0.27, top), *at)]


def _shoulder_width():
    """The pose larger, its head at the usual height, cut off at the floor."""
    scale = 2.15 * STANDING
    at = (0.0, scale, STANDING + 6.0 - scale)
    body = _placed(poses.standing(), *at)
    shown = body[:, 1] > 0.0
    runs = np.split(body, np.flatnonzero(np.diff(shown.astype(int))) + 1)
    kept = [run for run in runs if run[0, 1] > 0.0]
    kept = [np.concatenate([kept[-1], kept[0]]), *kept[1:-1]]  # over the top of the head
    half = poses.SHOULDERS + 0.002
    return [Path("body-fill", np.maximum(body, (-np.inf, 0.0)), closed=True),
            *(Path("body-line", run) for run in kept),
            *(_line("extension", (side * half, 0.83), (side * half, 0.68), *at)
              for side in (-1.0, 1.0)),
            _size((-half, 0.745), (half, 0.745), *at)]


def _bench(left, right, *place):
    return [_line("edge", (left, poses.BENCH), (right, poses.BENCH), *place),
            *(_line("wood", (x, poses.BENCH), (x, 0.0), *place)
              for x in (left + 0.03, right - 0.03))]


def _hip_width():
    at, gap = (0.0, 1.22 * STANDING), poses.HIPS + 0.003
    high = poses.BENCH + 0.045
    return [_floor(), *_bench(-0.30, 0.30, *at),
            Path("body", _placed(poses.seated_front(), *at), closed=True),
            *(_block(side * gap, side * (gap + 0.022), poses.BENCH, poses.BENCH + 0.11, *at)
              for side in (-1.0, 1.0)),
            _size((-gap, high), (gap, high), *at)]


def _sitting_height():
    at = (18.0, 1.16 * STANDING)
    outline, arm = (line * (-1.0, 1.0) for line in poses.seated_side())
    top = poses.BENCH + poses.SITTING
    return [_floor(), _line("ink", (0.006, 0.0), (0.006, 0.86), *at), *_bench(-0.25, 0.004, *at),
            Path("body", _placed(outline, *at), closed=True), Path("body-line", _placed(arm, *at)),
            _block(-0.13, 0.22, top, top + 0.018, *at),
            _line("extension", (0.0, poses.BENCH), (0.22, poses.BENCH), *at),
            _size((0.19, poses.BENCH), (0.19, top), *at)]


def _foot_length():
    long, floor = 118.0, 34.0
    at = (long / 2.0, long, floor)
    shape = _placed(poses.foot() * (-1.0, 1.0), *at)
    toe, heel = np.array([(-long / 2.0, floor - 24.0), (long / 2.0, floor - 24.0)])
    drops = np.array([(0.0, 22.0), (0.0, -4.0)])
    return [_line("ink", (-1.12, 0.0), (0.006, 0.0), *at),
            _line("ink", (0.006, 0.0), (0.006, 0.88), *at), Path("body-fill", shape),
            Path("body-line", shape), broken_edge(shape[0], shape[-1], 1.0),
            Path("extension", toe + drops), Path("extension", heel + drops),
            size_line(toe, heel, 1.0)]


_DRAWN = {"stature": _stature, "hip_width": _hip_width, "inseam": _inseam,
          "sitting_height": _sitting_height, "foot_length": _foot_length,
          "shoulder_width": _shoulder_width}
