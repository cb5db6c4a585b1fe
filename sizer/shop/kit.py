"""A sheet of parts for a router: each stroke on the layer of its work, and what to do with them.

Layers: "cut-outside" and "cut-inside" are closed lines, the cutter runs beside them on the waste's
side; "holes" are the lashing holes; "part-numbers" holds nothing but each part's name; "tabs" are
stretches of the cut lines to leave standing; "marks" and "words" may be scribed; "sheet" and
"notes" are for the eye alone.
"""

from dataclasses import replace

import numpy as np
from shapely.geometry import Point, Polygon

from sizer.drawing.dxf import layered_dxf
from sizer.drawing.record import Circle, Path
from sizer.shop.layout import FACE_GRAIN
from sizer.shop.tabs import TAB_M, tabs
from sizer.units import MM_PER_M

LAYERS = ("cut-outside", "cut-inside", "holes", "part-numbers", "tabs", "marks", "words", "sheet")
LAYER_OF = {"drill": "holes", "number": "part-numbers", "mark": "marks", "text": "words"}


def kit_dxf(layout, sheet, shop, imprint):
    """The DXF file of one Sheet of a Layout, with its notes and the imprint beside it."""
    drawing = replace(sheet.drawing, notes=tuple(kit_notes(layout, sheet, shop)))
    return layered_dxf(drawing, list(kit_strokes(sheet)), LAYERS, imprint)


def kit_strokes(sheet):
    """(layer, stroke) of everything on a Sheet."""
    loops = [one for one in sheet.drawing.strokes if isinstance(one, Path) and one.pen == "cut"]
    shapes = [Polygon(one.points_m) for one in loops]
    for one, shape in zip(loops, shapes, strict=True):
        # a part that lies in another's opening is inside two lines, so it is no opening itself
        point = Point(one.points_m[0])
        inside = sum(other is not shape and other.covers(point) for other in shapes) % 2 == 1
        yield "cut-inside" if inside else "cut-outside", one
        for tab in tabs(np.asarray(one.points_m), inside):
            yield "tabs", Path("mark", tab)
    for one in sheet.drawing.strokes:
        if one.pen in LAYER_OF:
            yield LAYER_OF[one.pen], one
        elif one.pen == "guide" and isinstance(one, Path):
            yield "sheet", one


def kit_notes(layout, sheet, shop):
    """What the cutter's hand needs to know, for the layer of notes."""
    diameters = sorted({2.0 * one.radius_m for one in sheet.drawing.strokes
                        if isinstance(one, Circle) and one.pen == "drill"})
    yield (f"For plywood {layout.true_m * MM_PER_M:g} mm thick, sold as "
           f"{layout.thickness_m * MM_PER_M:g} mm: measure it before you cut. "
           f"Cutter {shop.cutter_m * MM_PER_M:g} mm, inner corners with {shop.relief_words}; parts "
           f"{shop.gap_m * MM_PER_M:g} mm apart.")
    yield (f"{100.0 * sheet.used_share:.0f} % of this {sheet.kind} becomes parts; a strip of "
           f"{sheet.offcut_m * MM_PER_M:.0f} x {sheet.size_m[1] * MM_PER_M:.0f} mm is left at its "
           f"right. {FACE_GRAIN}")
    yield ("Cut holes and inside lines first, inside their line; then outside lines, outside. "
           f"Leave the tabs, {TAB_M * MM_PER_M:g} mm long and about 3 mm high. Holes "
           + " and ".join(f"{one * MM_PER_M:g} mm" for one in diameters)
           + ": drill them, they are narrower than the cutter.")
