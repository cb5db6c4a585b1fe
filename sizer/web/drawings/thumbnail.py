"""A base design at a glance: profile over plan, no words in the picture."""

import numpy as np

from sizer.web.drawings.hull_lines import side_lines, top_lines
from sizer.web.drawings.marks import (
    CENTRE_LINE,
    INK_LINE,
    THIN_LINE,
    WOOD_LINE,
    View,
    drawing,
    path,
    paths,
)

WIDTH = 240.0
MARGIN = 4.0
GAP = 12.0  # between profile and plan
MIRROR = np.array([1.0, -1.0])


def thumbnail_svg(boat, shown_m):
    """A small profile and plan of a Boat, for choosing a base design or comparing boats.

    The width stands for `shown_m`, so that boats compare where it is the same for all.
    """
    scale = (WIDTH - 2.0 * MARGIN) / max(shown_m, boat.length_m)
    left = 0.5 * (WIDTH - scale * boat.length_m)
    top_m = float(boat.sections.z_m.max())
    side = View(0.0, top_m, left, MARGIN, scale)
    keel = float(side.at(0.0, boat.sections.z_m.min())[1])
    plan = View(0.0, 0.5 * boat.beam_m, left, keel + GAP, scale)
    height = float(plan.at(0.0, -0.5 * boat.beam_m)[1]) + MARGIN
    profile, above = side_lines(boat), top_lines(boat)
    sheers = [plan.at(*above.sheer.T), plan.at(*(above.sheer * MIRROR).T)]
    sticks = [plan.at(*one.T) for stick in above.sticks for one in (stick, stick * MIRROR)]
    parts = [
        paths([*(side.at(*one.T) for one in profile.sticks), *sticks], WOOD_LINE),
        path(side.at(*profile.sheer.T), THIN_LINE),
        paths([side.at(*one.T) for one in (profile.bottom, profile.deck, profile.coaming)],
              INK_LINE),
        path(plan.at(*above.deck[[0, -1]].T), CENTRE_LINE),
        path(plan.at(*above.coaming.T), INK_LINE, closed=True), paths(sheers, INK_LINE)]
    design = boat.design
    return drawing(WIDTH, height, design.name, f"{design.name} from the side and from above: "
                   f"{design.character}.", parts)
