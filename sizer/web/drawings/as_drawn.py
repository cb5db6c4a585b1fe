"""A design as drawn, to edit it by: side, plan and frames, with rings where sticks are not fair."""

import numpy as np

from sizer.hull.sections import half_section_at
from sizer.web.drawings.fair_marks import RING
from sizer.web.drawings.hull_lines import side_lines, top_lines
from sizer.web.drawings.marks import (
    CENTRE_LINE,
    EXTENSION_LINE,
    FINE_LINE,
    INK_LINE,
    SIZE_LINE,
    THIN_LINE,
    WOOD_DOT,
    WOOD_EDGE,
    WOOD_LINE,
    View,
    drawing,
    path,
    paths,
    words,
)

WIDTH = 460.0
MARGIN = 12.0
HEAD = 22.0  # over a view, for numbers and names
GAP = 16.0
LABEL_STEP = 14.0  # least distance between two frame names
COLUMN = 34.0  # room beside the sections for the names
MIRROR = np.array([1.0, -1.0])


def as_drawn_svg(boat, unfair, frame=None):
    """Side over plan over frames of an unscaled Boat, a numbered ring at each Unfairness.

    Parameters
    ----------
    boat : Boat
    unfair : tuple of Unfairness
    frame : name of the frame to draw heavier, or None
    """
    scale = (WIDTH - 2.0 * MARGIN) / boat.length_m
    top, low = float(boat.sections.z_m.max()), float(boat.sections.z_m.min())
    half = 0.5 * boat.beam_m
    side = View(0.0, top, MARGIN, HEAD, scale)
    plan = View(0.0, half, MARGIN, float(side.at(0.0, low)[1]) + GAP + HEAD, scale)
    large = (0.5 * WIDTH - MARGIN - COLUMN) / half
    across = View(0.0, top, 0.5 * WIDTH, float(plan.at(0.0, -half)[1]) + GAP + HEAD, large)
    height = float(across.at(0.0, low)[1]) + 26.0
    index = next((at for at, one in enumerate(boat.design.frames) if one.name == frame), None)
    parts = [*_long_views(boat, side, plan, index), *_across(boat, across, index),
             *_rings(unfair, side, plan),
             words((across.left - 8.0, height - 6.0), "after frames", anchor="end"),
             words((across.left + 8.0, height - 6.0), "forward frames", anchor="start")]
    said = "; ".join(f"{number}: {found.stringer}, {found.what} {found.place}"
                     for number, found in enumerate(unfair, start=1)) or "nothing to mark"
    name = boat.design.name
    return drawing(WIDTH, height, name, f"{name} as drawn: side view, plan and frames. "
                   f"Fairness of the sticks: {said}.", parts)


def _long_views(boat, side, plan, index):
    profile, above = side_lines(boat), top_lines(boat)
    cuts = [side.at(*one.T) for one in profile.frames], [plan.at(*one.T) for one in above.frames]
    heavy = [] if index is None else [paths([cut[index] for cut in cuts], WOOD_EDGE)]
    sticks = [plan.at(*one.T) for stick in above.sticks for one in (stick, stick * MIRROR)]
    return [
        paths([*cuts[0], *cuts[1], *(side.at(*one.T) for one in profile.sticks), *sticks],
              WOOD_LINE), *heavy,
        path(side.at(*profile.sheer.T), THIN_LINE),
        paths([side.at(*one.T) for one in (profile.bottom, profile.deck, profile.coaming)],
              INK_LINE),
        path(plan.at(*above.deck[[0, -1]].T), CENTRE_LINE),
        path(plan.at(*above.coaming.T), INK_LINE, closed=True),
        paths([plan.at(*above.sheer.T), plan.at(*(above.sheer * MIRROR).T)], INK_LINE)]


def _across(boat, view, index):
    """Half-sections at the frames, forward ones to the right, named at the sides."""
    y, z = half_section_at(boat.sections, boat.frame_x_m)
    forward = boat.frame_x_m < 0.5 * boat.length_m
    corners = view.at(np.where(forward, 1.0, -1.0)[:, None] * y[:, :-1], z[:, :-1])
    sheer = boat.sections.sheer
    sticks = corners[:, 1:sheer + 1].reshape(-1, 2)
    ends = view.at(0.0, np.array([z.max() + 0.02, z.min() - 0.01]))
    parts = [path(ends, CENTRE_LINE)]
    for here, x, anchor in ((forward, WIDTH - COLUMN, "start"), (~forward, COLUMN, "end")):
        parts += _names(boat, corners[:, sheer], np.flatnonzero(here), x, anchor)
    parts += [paths(corners, FINE_LINE),
              paths(np.stack([sticks, np.add(sticks, (0.1, 0.0))], axis=1), WOOD_DOT)]
    return parts if index is None else [*parts, path(corners[index], WOOD_EDGE)]


def _names(boat, corners, here, x, anchor):
    """The frames' names in a column at x, each with a line to its sheer."""
    height = -np.inf
    for index in here[np.argsort(corners[here, 1])]:
        height = max(float(corners[index, 1]), height + LABEL_STEP)
        yield path(np.array([corners[index], (x, height)]), EXTENSION_LINE)
        yield words((x + (3.0 if anchor == "start" else -3.0), height + 4.5),
                    boat.design.frames[index].name, anchor=anchor)


def _rings(unfair, side, plan):
    for number, found in enumerate(unfair, start=1):
        x, y, z = found.point_m
        across, up = plan.at(x, y) if found.axis == "plan" else side.at(x, z)
        yield f'<circle {SIZE_LINE} cx="{across:.1f}" cy="{up:.1f}" r="{RING:g}"/>'
        yield words((across, up - RING - 3.0), str(number), rim=True)
