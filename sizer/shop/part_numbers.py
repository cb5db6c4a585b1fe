"""A part's number and name on its wood, for a sheet of parts: as large as it finds room for."""

from dataclasses import replace

import numpy as np
from shapely.geometry import MultiLineString, Point, Polygon
from shapely.ops import unary_union

from sizer.drawing.record import Circle, Path, Text, text_corners_m
from sizer.shop.labels import first_fit

NUMBERS_M = (0.014, 0.012, 0.010, 0.008, 0.0065, 0.005)  # heights tried in order; our drawing
SHIFTS_M = sorted(np.arange(-0.06, 0.0601, 0.006).tolist(), key=abs)  # along its line
NUMBER_CLEAR_M = 0.0015  # of a number from lines and edges; our drawing
NUMBER_M = 0.004  # letters of a part number that found no room; our drawing


def numbered(piece, wood, numbers):
    """The piece with its part number and name in place of the name, as large as it has room for
    along the name's own line; on the wood even where no word found room."""
    told = f"{numbers[piece.name]} {piece.name}" if piece.name in numbers else piece.name
    names = [one for one in piece.strokes
             if isinstance(one, Text) and one.text.partition(",")[0] == piece.name]
    rest = tuple(one for one in piece.strokes if one not in names)
    free = wood.difference(unary_union(list(_taken(rest)))).buffer(-NUMBER_CLEAR_M)
    shown = [_largest(replace(one, pen="number", text=told), free) or replace(
        one, pen="number", text=told, height_m=one.height_m * len(piece.name) / len(told))
        for one in names]
    if not shown:
        at = wood.buffer(-NUMBER_M).representative_point()
        at = wood.representative_point() if at.is_empty else at
        shown = [Text("number", (at.x, at.y), NUMBER_M, told)]
    return replace(piece, strokes=(*rest, *shown))


def _taken(strokes):
    """What marks, holes and words take of the wood."""
    for one in strokes:
        if isinstance(one, Text):
            yield Polygon(text_corners_m(one))
        elif isinstance(one, Circle):
            yield Point(one.centre_m).buffer(one.radius_m)
    yield MultiLineString([one.points_m for one in strokes if isinstance(one, Path)
                           and one.pen != "cut"]).buffer(NUMBER_CLEAR_M)


def _largest(text, free):
    """The Text at the largest of NUMBERS_M that lies in free wood, moved along its own line."""
    turn = np.radians(text.angle_deg)
    spots = text.at_m + np.outer(SHIFTS_M, (np.cos(turn), np.sin(turn)))
    return first_fit(free, text, NUMBERS_M,
                     [(tuple(spot), text.angle_deg) for spot in spots.tolist()])
