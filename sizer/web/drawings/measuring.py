"""How each body measure is taken: a line drawing with its dimension arrow."""

from functools import cache

import numpy as np

from sizer.web.drawings import poses
from sizer.web.drawings.marks import (
    BODY_FILL,
    BODY_LINE,
    BODY_SHAPE,
    EXTENSION_LINE,
    INK_LINE,
    WOOD_BLOCK,
    WOOD_EDGE,
    WOOD_LINE,
    View,
    broken_edge,
    dimension,
    drawing,
    path,
    paths,
    words,
)

CELL, HEIGHT = 180.0, 222.0  # one drawing with its two lines of words
FLOOR = 172.0
MIDDLE = CELL / 2.0
STANDING = 154.0  # picture units of the whole stature
HEAD_ROOM = FLOOR - STANDING

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
def how_to_measure_all_svg(narrow=False):
    """All MEASURES in one picture: three a row, or two for a phone."""
    columns = 2 if narrow else 3
    parts = []
    for index, measure in enumerate(MEASURES):
        row, column = divmod(index, columns)
        parts += _cell(measure, column * CELL, row * (HEIGHT + 6.0))
    rows = -(-len(MEASURES) // columns)
    names = ", ".join(name for name, _, _ in _WORDS.values())
    return drawing(columns * CELL, rows * (HEIGHT + 6.0) - 6.0, "How to measure",
                   f"How to take each measure: {names}.", parts)


def _cell(measure, left, top):
    name, how, _ = _WORDS[measure]
    drawn = _DRAWN[measure]()
    return [f'<g transform="translate({left:g} {top:g})">', *drawn,
            words((MIDDLE, FLOOR + 24.0), name, mark="sz-size"),
            words((MIDDLE, FLOOR + 41.0), how), "</g>"]


def _view(middle=MIDDLE, scale=STANDING):
    return View(0.0, 0.0, middle, FLOOR, scale)


def _floor(left=22.0, right=CELL - 22.0):
    return path(np.array([(left, FLOOR), (right, FLOOR)]), INK_LINE)


def _block(view, left, right, low, high):
    """A book or board."""
    return path(view.at(np.array([left, right, right, left]), np.array([low, low, high, high])),
                WOOD_BLOCK, closed=True)


def _upright(view, at, low, high):
    """A vertical dimension with its extension lines back to the body."""
    ends = view.at(at, np.array([low, high]))
    return dimension(*ends)


def _stature():
    view = _view(MIDDLE - 8.0)
    return [_floor(), path(view.at(*poses.standing().T), BODY_SHAPE, closed=True),
            _block(view, -0.07, 0.30, 1.0, 1.022), _upright(view, 0.27, 0.0, 1.0)]


def _inseam():
    view = _view(MIDDLE - 8.0)
    top = poses.CROTCH - 0.012
    line = view.at(np.array([0.03, 0.30]), top)
    return [_floor(), path(view.at(*poses.standing().T), BODY_SHAPE, closed=True),
            _block(view, -0.022, 0.022, top - 0.10, top), path(line, EXTENSION_LINE),
            _upright(view, 0.27, 0.0, top)]


def _shoulder_width():
    scale = 2.15 * STANDING
    view = View(0.0, 1.0, MIDDLE, HEAD_ROOM - 6.0, scale)
    body = view.at(*poses.standing().T)
    cut = np.minimum(body, (np.inf, FLOOR))
    shown = body[:, 1] < FLOOR
    runs = np.split(body, np.flatnonzero(np.diff(shown.astype(int))) + 1)
    kept = [run for run in runs if run[0, 1] < FLOOR]
    kept = [np.concatenate([kept[-1], kept[0]]), *kept[1:-1]]  # over the top of the head
    half = poses.SHOULDERS + 0.002
    ends = view.at(np.array([-half, half]), 0.745)
    sides = [view.at(side * half, np.array([0.83, 0.68])) for side in (-1.0, 1.0)]
    return [path(cut, BODY_FILL, closed=True), paths(kept, BODY_LINE),
            paths(sides, EXTENSION_LINE), dimension(*ends)]


def _bench(view, left, right):
    top = view.at(np.array([left, right]), poses.BENCH)
    legs = [view.at(x, np.array([poses.BENCH, 0.0])) for x in (left + 0.03, right - 0.03)]
    return [path(top, WOOD_EDGE), paths(legs, WOOD_LINE)]


def _hip_width():
    view = _view(scale=1.22 * STANDING)
    gap = poses.HIPS + 0.003
    ends = view.at(np.array([-gap, gap]), poses.BENCH + 0.045)
    return [_floor(), *_bench(view, -0.30, 0.30),
            path(view.at(*poses.seated_front().T), BODY_SHAPE, closed=True),
            *(_block(view, side * gap, side * (gap + 0.022), poses.BENCH, poses.BENCH + 0.11)
              for side in (-1.0, 1.0)),
            dimension(*ends)]


def _sitting_height():
    view = _view(MIDDLE + 18.0, 1.16 * STANDING)
    outline, arm = poses.seated_side()
    top = poses.BENCH + poses.SITTING
    wall = view.at(0.006, np.array([0.0, 0.86]))
    lines = [view.at(np.array([0.0, 0.22]), poses.BENCH)]
    return [_floor(), path(wall, INK_LINE), *_bench(view, -0.25, 0.004),
            path(view.at(*(outline * (-1.0, 1.0)).T), BODY_SHAPE, closed=True),
            path(view.at(*(arm * (-1.0, 1.0)).T), BODY_LINE),
            _block(view, -0.13, 0.22, top, top + 0.018), paths(lines, EXTENSION_LINE),
            _upright(view, 0.19, poses.BENCH, top)]


def _foot_length():
    long = 118.0
    view = View(0.0, 0.0, MIDDLE + long / 2.0, FLOOR - 34.0, long)
    shape = view.at(*(poses.foot() * (-1.0, 1.0)).T)
    ends = np.add(view.at(np.array([-1.0, 0.0]), 0.0), (0.0, 24.0))
    drops = [np.add(end, [(0.0, -22.0), (0.0, 4.0)]) for end in ends]
    ground = view.at(np.array([-1.12, 0.006]), 0.0)
    wall = view.at(0.006, np.array([0.0, 0.88]))
    return [path(ground, INK_LINE), path(wall, INK_LINE), path(shape, BODY_FILL),
            path(shape, BODY_LINE), broken_edge(shape[0], shape[-1]),
            paths(drops, EXTENSION_LINE), dimension(*ends)]


_DRAWN = {"stature": _stature, "hip_width": _hip_width, "inseam": _inseam,
          "sitting_height": _sitting_height, "foot_length": _foot_length,
          "shoulder_width": _shoulder_width}
