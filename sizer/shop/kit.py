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
from sizer.shop.layout import PLATES_GRAIN
from sizer.shop.outfit_boards import CHEEK
from sizer.shop.said import both, both_sides
from sizer.shop.trade_sizes import bit_text, fine_text, sold_as
from sizer.units import MM_PER_M

LAYERS = ("cut-outside", "cut-inside", "holes", "part-numbers", "tabs", "marks", "words", "sheet")
LAYER_OF = {"drill": "holes", "number": "part-numbers", "mark": "marks", "text": "words"}
TAB_M = 0.006  # of wood left along the line; our judgement
APART_M = 0.30  # between tabs along a line, about; our judgement
LEAST_TABS = 3  # to a part's outside; our judgement
LEAST_RING_M = 0.15  # a shorter inner line's waste is small enough for the dust hood; our judgement
SMOOTH_M = (0.030, 0.015, 0.008)  # without a corner to each side of a tab, tried in order; ours
CORNER_DEG = 8.0  # a sharper turn is a corner; our judgement
STEP_M = 0.004  # of places tried
TAB_HIGH_M = 0.003  # our judgement
FROM_DEPTH = 2  # lines round a line that belongs to a part in another's opening
IN_WINDOWS = (" Parts lie in other parts' windows: cut each of these, its own windows, then its "
              "outline, before the window round it is cut; cut later it hangs on that window's "
              "tabs alone and comes loose.")
BY_HAND = (" What crosses mark, screws and the pedal cheeks' pins, no machine bores: it is bored "
           "by hand as the plan set tells.")


def kit_dxf(layout, sheet, shop, imprint):
    """The DXF file of one Sheet of a Layout, with its notes and the imprint beside it."""
    drawing = replace(sheet.drawing, notes=tuple(kit_notes(layout, sheet, shop)))
    return layered_dxf(drawing, list(kit_strokes(sheet)), LAYERS, imprint)


def kit_strokes(sheet):
    """(layer, stroke) of everything on a Sheet."""
    for one, depth in sorted(_depths(sheet), key=lambda found: -found[1]):
        # a part that lies in another's opening is inside two lines, so it is no opening itself
        inside = depth % 2 == 1
        yield "cut-inside" if inside else "cut-outside", one
        for tab in tabs(np.asarray(one.points_m), inside):
            yield "tabs", Path("mark", tab)
    for one in sheet.drawing.strokes:
        if one.pen in LAYER_OF:
            yield LAYER_OF[one.pen], one
        elif one.pen == "guide" and isinstance(one, Path):
            yield "sheet", one


def _depths(sheet):
    """Each saw line of a Sheet and how many others it lies inside."""
    loops = [one for one in sheet.drawing.strokes if isinstance(one, Path) and one.pen == "cut"]
    shapes = [Polygon(one.points_m) for one in loops]
    for one, shape in zip(loops, shapes, strict=True):
        point = Point(one.points_m[0])
        yield one, sum(other is not shape and other.covers(point) for other in shapes)


def kit_notes(layout, sheet, shop):
    """What the cutter's hand needs to know, for the layer of notes."""
    names = [one.piece for one in sheet.placements]
    diameters = sorted({2.0 * one.radius_m for one in sheet.drawing.strokes
                        if isinstance(one, Circle) and one.pen == "drill"})
    yield (f"For plywood {fine_text(layout.true_m * MM_PER_M)} thick, sold as "
           f"{sold_as(layout.thickness_m)}: measure it before you cut. "
           f"Cutter {fine_text(shop.cutter_m * MM_PER_M)}, inner corners with "
           f"{shop.relief_words}; parts {both(shop.gap_m)} apart. The file is in millimetres.")
    yield (f"{100.0 * sheet.used_share:.0f} % of this {sheet.kind} becomes parts; a strip of "
           f"{both_sides(sheet.offcut_m, sheet.size_m[1])} is left at its "
           f"right. Its face grain runs {sheet.grain}."
           + f" {PLATES_GRAIN}" * any("seat plate" in name for name in names))
    yield ("Drill the holes first. Then cut from the innermost line outwards, in the file's order, "
           "lines on the layer cut-inside on their inner side, those on cut-outside on their "
           f"outer.{IN_WINDOWS * any(depth >= FROM_DEPTH for _, depth in _depths(sheet))} "
           f"Leave the tabs, {both(TAB_M)} long and about {both(TAB_HIGH_M)} high. Holes "
           + " and ".join(bit_text(one) for one in diameters) + f".{BY_HAND * (CHEEK in names)}")


def tabs(ring, inside):
    """The tabs of a closed saw line, (n, 2) m each, along it: a ring without its first point
    repeated, `inside` where it is an opening's."""
    closed = np.concatenate([ring, ring[:1]])
    along = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(closed, axis=0).T))])
    length = along[-1]
    if inside and length < LEAST_RING_M:
        return []
    places = np.arange(0.0, length, STEP_M)
    corners = along[:-1][_turns_deg(ring) > CORNER_DEG]
    away = np.abs(places[:, None] - corners)
    off = np.minimum(away, length - away).min(axis=1, initial=length)
    free = next((places[off >= smooth] for smooth in SMOOTH_M if (off >= smooth).any()), places)
    count = max(LEAST_TABS, round(length / APART_M))
    wanted = (np.arange(count) + 0.5) * length / count
    apart = np.abs(free[None, :] - wanted[:, None])
    chosen = np.unique(free[np.minimum(apart, length - apart).argmin(axis=1)])
    return [_stretch(closed, along, middle) for middle in chosen]


def _turns_deg(ring):
    steps = np.roll(ring, -1, axis=0) - ring
    angle = np.degrees(np.arctan2(steps[:, 1], steps[:, 0]))
    return np.abs((angle - np.roll(angle, 1) + 180.0) % 360.0 - 180.0)


def _stretch(closed, along, middle):
    """The line from half a tab before a place to half a tab after it."""
    at = (middle + TAB_M * np.array([-0.5, 0.0, 0.5])) % along[-1]
    return np.stack([np.interp(at, along, column) for column in closed.T], axis=-1)
