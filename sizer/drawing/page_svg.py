"""A picture as SVG for the page: its pens are CSS classes, which the page gives their colours.

One line of text without ids, scripts, styles or outside references; one unit is one millimetre of
the picture's paper, and the page stretches it to the room there is.
"""

from html import escape

import numpy as np

from sizer.drawing.record import CAP_HEIGHT, Circle, Path
from sizer.units import MM_PER_M


def page_svg(drawing, wide="100%"):
    """The SVG of a Drawing on its paper, named by its name and described by its notes, as wide on
    the page as CSS says it."""
    left, bottom, right, top = drawing.frame_m
    corner = np.array([left, top])
    name, said = escape(drawing.name), escape(" ".join(drawing.notes), quote=True)
    width, height = (round(MM_PER_M * side, 1) for side in (right - left, top - bottom))
    return (f'<svg xmlns="http://www.w3.org/2000/svg" class="sz-drawing" role="img" '
            f'aria-label="{said}" viewBox="0 0 {width:g} {height:g}" width="{wide}" '
            f'font-family="inherit"><title>{name}</title>'
            + "".join(_stroke(stroke, corner) for stroke in drawing.strokes) + "</svg>")


def _stroke(stroke, corner):
    if isinstance(stroke, Path):
        places = _at(stroke.points_m, corner)
        data = "M" + "L".join(f"{x:g} {y:g}" for x, y in places) + ("Z" if stroke.closed else "")
        return f'<path class="sz-{stroke.pen}" d="{data}"/>'
    if isinstance(stroke, Circle):
        x, y = _at(stroke.centre_m, corner)
        return (f'<circle class="sz-{stroke.pen}" cx="{x:g}" cy="{y:g}" '
                f'r="{stroke.radius_m * MM_PER_M:.3g}"/>')
    height = stroke.height_m * MM_PER_M
    x, y = _at(stroke.at_m, corner)
    turned = (f' transform="rotate({-stroke.angle_deg:g} {x:g} {y:g})"' if stroke.angle_deg
              else "")
    rim = " sz-rim" if stroke.rim else ""
    return (f'<text class="sz-{stroke.pen}{rim}" x="{x:g}" y="{round(y + height / 2.0, 1):g}" '
            f'font-size="{round(height / CAP_HEIGHT, 2):g}" text-anchor="{stroke.anchor}"{turned}>'
            f"{escape(stroke.text)}</text>")


def _at(points_m, corner):
    """Picture coordinates, right and down, to a tenth of a unit."""
    places = (np.asarray(points_m, float) - corner) * (MM_PER_M, -MM_PER_M)
    return (np.round(places, 1) + 0.0).tolist()
