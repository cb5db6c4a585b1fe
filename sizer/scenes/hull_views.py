"""The boat's own lines with their pens: from the side, from above, its frames across.

Strokes in boat metres, x aft to the right; from above starboard is up.
"""

from dataclasses import dataclass

import numpy as np

from sizer.drawing.hull_lines import side_lines, top_lines
from sizer.drawing.marks import MIRROR, apart, broken_edge, line, words
from sizer.drawing.record import Circle, Path
from sizer.hull.sections import half_section_at

LABEL_STEP = 15.0  # least distance between two frames' names, mm of paper
RING = 7.0  # radius of the ring round a hollow or bump, mm of paper


@dataclass(frozen=True)
class HullView:
    """One view of a boat: what lies under the body that sits in it, and what over it."""

    wood: tuple  # frames and sticks, the ridge
    frames: tuple  # of them, the frames alone, from the bow
    outline: tuple
    bottom: Path | None = None  # of it, from the side
    deck: Path | None = None


def side_hull(boat, unit_m, span_m=None):
    """The HullView of a boat from the side, cut off at a span of x where one is given."""
    lines = side_lines(boat, span_m)
    cuts = [] if span_m is None else [
        broken_edge(lines.bottom[end], lines.deck[end], unit_m) for end in (0, -1)]
    frames = _paths("wood", lines.frames)
    bottom, deck, coaming = _paths("ink", (lines.bottom, lines.deck, lines.coaming))
    return HullView((*frames, *_paths("wood", lines.sticks)), frames,
                    (Path("thin", lines.sheer), bottom, deck, coaming, *cuts), bottom,
                    deck)


def plan_hull(boat, unit_m, span_m=None):
    """The HullView of a boat from above, as `side_hull`."""
    lines = top_lines(boat, span_m)
    sheers = _both(lines.sheer)
    cuts = [] if span_m is None else [
        broken_edge(sheers[0][end], sheers[1][end], unit_m) for end in (0, -1)]
    ridge = lines.deck[:, 0]
    ridges = [lines.deck[there] for there in (
        ridge <= boat.opening.front_x_m, ridge >= boat.opening.back_x_m) if there.any()]
    frames = _paths("wood", lines.frames)
    return HullView(
        (*frames, *_paths("wood", [side for one in lines.sticks for side in _both(one)]),
         *_paths("centre", ridges)), frames,
        (Path("ink", lines.coaming, closed=True), *_paths("ink", sheers), *cuts))


def side_pencil(boat, span_m=None, shift_m=0.0):
    """A base's outline from the side, moved aft by a shift."""
    lines = side_lines(boat, span_m, shift_m)
    return _paths("pencil", (lines.bottom, lines.sheer, lines.deck, lines.coaming))


def plan_pencil(boat, span_m=None, shift_m=0.0):
    """A base's outline from above, moved aft by a shift."""
    lines = top_lines(boat, span_m, shift_m)
    return (*_paths("pencil", _both(lines.sheer)), Path("pencil", lines.coaming, closed=True))


def body_plan(boat, paper, column, base=None, chosen=None):
    """Half-sections at the frames, forward ones to the right, their names in columns so many mm
    from the edges of a Window, the boat's middle on its own; the base in pencil below, if it is
    given, and the frame of one index heavier."""
    corners, unit_m = _halves(boat), paper.unit_m
    sheer, heights = corners[:, boat.sections.sheer], corners[..., 1]
    strokes = [line("centre", (0.0, heights.max() + 0.03), (0.0, heights.min() - 0.01))]
    if base is not None:
        strokes += _paths("pencil", _halves(base))
    low = paper.frame_m[1] + 8.0 * unit_m
    for side, text, anchor in ((1.0, "forward frames", "start"), (-1.0, "after frames", "end")):
        x = side * (0.5 * paper.width - column) * unit_m
        strokes += [*_names(boat, sheer, side, x, unit_m),
                    words((side * 8.0 * unit_m, low), text, unit_m, anchor)]
    strokes += _paths("fine", corners)
    strokes += [line("dot", stick, np.add(stick, (0.1 * unit_m, 0.0)))
                for stick in corners[:, 1:boat.sections.sheer + 1].reshape(-1, 2)]
    return strokes if chosen is None else [*strokes, Path("edge", corners[chosen])]


def rings(unfair, axis, unit_m, pen="dimension", sign=""):
    """A ring at every Unfairness of one axis, "profile" or "plan", with a sign and its number."""
    for number, found in enumerate(unfair, start=1):
        if found.axis == axis:
            x, y, z = found.point_m
            at = np.array([x, y if axis == "plan" else z])
            yield Circle(pen, tuple(at.tolist()), RING * unit_m)
            yield words((x, at[1] + (RING + 3.0) * unit_m), f"{sign}{number}", unit_m,
                        rim=True)


def _paths(pen, lines):
    return tuple(Path(pen, line) for line in lines if len(line))


def _both(line):
    return line, line * MIRROR


def _halves(boat):
    """Half-breadth (aft frames' negative) and height at the frames, without the inner end."""
    side = np.where(boat.frame_x_m < 0.5 * boat.length_m, 1.0, -1.0)
    y, z = half_section_at(boat.sections, boat.frame_x_m)
    return np.stack([side[:, None] * y, z], axis=-1)[:, :-1]


def _names(boat, sheer, side, x, unit_m):
    """The frames' names on one side in a column at x, each with a line to its sheer."""
    here = np.flatnonzero(np.sign(sheer[:, 0]) == side)
    order = here[np.argsort(sheer[here, 1])]
    heights = apart(sheer[order, 1], LABEL_STEP * unit_m)
    for index, height in zip(order, heights, strict=True):
        yield line("extension", sheer[index], (x - 4.0 * side * unit_m, height))
        yield words((x, height - 4.5 * unit_m), boat.design.frames[index].name, unit_m,
                    "start" if side > 0 else "end")
