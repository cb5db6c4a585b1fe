"""Where sticks are hollow, bumpy or turn the other way: rings on profile and plan."""

from sizer.web.drawings.hull_lines import side_lines, top_lines
from sizer.web.drawings.marks import (
    INK_LINE,
    NARROW,
    SIZE_LINE,
    WIDE,
    WOOD_LINE,
    View,
    drawing,
    path,
    paths,
    words,
)

MARGIN = 14.0
GAP = 34.0  # between profile and plan
RING = 7.0  # radius of a mark, in picture units


def fair_marks_svg(boat, unfair, narrow=False):
    """Profile over plan with a numbered ring at each Unfairness, in the order given.

    Parameters
    ----------
    boat : Boat
    unfair : tuple of Unfairness
    narrow : for a phone
    """
    width = NARROW if narrow else WIDE
    scale = (width - 2.0 * MARGIN) / boat.length_m
    side = View(0.0, float(boat.sections.z_m.max()), MARGIN, MARGIN + 16.0, scale)
    keel = float(side.at(0.0, float(boat.sections.z_m.min()))[1])
    plan = View(0.0, 0.5 * boat.beam_m, MARGIN, keel + GAP, scale)
    height = float(plan.at(0.0, -0.5 * boat.beam_m)[1]) + MARGIN + 10.0
    profile, above = side_lines(boat), top_lines(boat)
    mirrored = above.sheer * (1.0, -1.0)
    parts = [
        paths([*(side.at(*one.T) for one in profile.sticks),
               *(plan.at(*one.T) for one in above.sticks)], WOOD_LINE),
        paths([side.at(*one.T) for one in (profile.bottom, profile.sheer, profile.deck)],
              INK_LINE),
        path(plan.at(*above.sheer.T), INK_LINE), path(plan.at(*mirrored.T), INK_LINE)]
    for number, found in enumerate(unfair, start=1):
        x, y, z = found.point_m
        across, up = plan.at(x, y) if found.axis == "plan" else side.at(x, z)
        parts.append(f'<circle {SIZE_LINE} cx="{across:.1f}" cy="{up:.1f}" r="{RING:g}"/>')
        parts.append(words((across, up - RING - 3.0), str(number), rim=True))
    said = "; ".join(f"{number}: {found.stringer}, {found.what} at {found.place}"
                     for number, found in enumerate(unfair, start=1)) or "nothing to mark"
    return drawing(width, height, "Fairness", f"Fairness of the sticks. {said}.", parts)
