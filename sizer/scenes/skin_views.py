"""The skin: where its seams run from above, and how the cloth lies round the boat across."""

import numpy as np

from sizer.drawing.hull_lines import top_lines
from sizer.drawing.marks import MIRROR, unit_of
from sizer.drawing.measured import label
from sizer.drawing.record import Circle, Drawing, Path, joined
from sizer.hull.boat import sections_at
from sizer.scenes.hull_views import plan_hull
from sizer.shop.boards import sticks_at
from sizer.shop.shapes import ring_path

LARGER = 2.5  # of the section over the plan; our drawing
OFF_M = 0.006  # of the cloth from the skin's line as drawn, so that both show


def skin_drawing(boat, sewn, letters_m):
    """The Drawing of a boat's Seams; the section is LARGER times the plan's scale."""
    hull, lines = plan_hull(boat, unit_of(letters_m)), top_lines(boat)
    seams = [one for line in _seams(boat, lines, sewn) for one in line]
    plan = Drawing("plan", (*hull.wood, *hull.outline, *(Path("bar", one) for one in seams)))
    across = _across(boat, sewn, letters_m / LARGER).scaled(LARGER)
    left = 0.5 * (boat.length_m - across.box_m[0] - across.box_m[2])
    drop = plan.box_m[1] - across.box_m[3] - 1.5 * letters_m
    return joined("skin", [plan, across.moved((left, drop))])


def _seams(boat, lines, sewn):
    if sewn.lengths > 1:
        yield (lines.sheer, lines.sheer * MIRROR)
    else:
        opening = boat.opening
        yield (np.array([(0.0, 0.0), (opening.front_x_m, 0.0)]),
               np.array([(opening.back_x_m, 0.0), (boat.length_m, 0.0)]))
    yield (np.concatenate([lines.coaming, lines.coaming[:1]]),)


def _across(boat, sewn, letters):
    """A section behind the opening, seen from astern."""
    x = boat.opening.back_x_m + 0.10
    there = sections_at(boat, np.array([x]))
    skin = np.stack([there.y_m[0], there.z_m[0]], axis=1)
    top, sheer = skin[-1], skin[there.sheer]
    away = skin + OFF_M * _outward(skin)
    strokes = [ring_path("block", one.exterior) for one in sticks_at(boat, x).geoms]
    strokes += [Path("here", away * side) for side in ((1.0, 1.0), (-1.0, 1.0))]
    spots = ([sheer, sheer * (-1.0, 1.0)] if sewn.lengths > 1 else [top])
    strokes += [Circle("ink", tuple(map(float, spot)), 1.5 * letters) for spot in spots]
    words = "seam, deck lapped over the hull" if sewn.lengths > 1 else "seam on the ridge, lapped"
    strokes.append(label((0.0, float(top[1]) + 3.0 * letters), words, letters, "middle"))
    return Drawing("across", tuple(strokes))


def _outward(skin):
    run = np.gradient(skin, axis=0)
    out = np.column_stack([run[:, 1], -run[:, 0]])
    return out / np.maximum(np.hypot(*out.T), 1e-9)[:, None]
