"""A piece of plywood: what is sawn, marked and bored, and the largest words that fit beside it; on
a sheet of parts its number and name, as large as they find room for."""

from dataclasses import replace

import numpy as np
from shapely import contains, polygons, prepare
from shapely.geometry import LineString, MultiLineString, MultiPoint, Point, Polygon, box
from shapely.ops import substring, unary_union
from shapely.prepared import prep

from sizer.drawing.record import Circle, Path, Text, text_corners_m
from sizer.shop.lashing import COUNTERSINK_M, HOLE_M
from sizer.shop.shapes import cut_paths, line_pieces

HEIGHTS_M = (0.008, 0.0065, 0.005, 0.004, 0.003)  # of capitals, tried in order; our drawing
SCRIBED_M = HEIGHTS_M[:3]  # of them, those that a router's bit writes well; our judgement
FROM_EDGE_M = 0.0015  # least between letters and an edge of the wood; our drawing
ARROW_M = 0.022  # length of the arrow that points up; our drawing
HEAD_M = 0.006  # of its head; our drawing
DASH_M, GAP_M = 0.008, 0.004  # of a marked line, which nobody shall saw along; our drawing
LINE_CLEAR_M = 0.001  # between letters and a marked line; our drawing
NUMBERS_M = (0.014, 0.012, 0.010, 0.008, 0.0065, 0.005)  # heights tried in order; our drawing
SHIFTS_M = sorted(np.arange(-0.06, 0.0601, 0.006).tolist(), key=abs)  # along its line
NUMBER_CLEAR_M = 0.0015  # of a number from lines and edges; our drawing
NUMBER_M = 0.004  # letters of a part number that found no room; our drawing


def on_wood(wood, lines, holes, shortest_m=0.0):
    """Saw lines of a piece, lines marked on it, its holes; and the wood left free for words.

    Parameters
    ----------
    wood : polygon in drawing coordinates
    lines : (n, 2) each, marked in dashes where they run over more wood than `shortest_m`
    holes : middles of the lashing holes, countersunk

    Returns
    -------
    (strokes, polygon)
    """
    marks = [Path("mark", dash) for line in lines
             for piece in line_pieces(wood.intersection(LineString(line)), shortest_m)
             for dash in _dashes(piece)]
    bored = [Circle(pen, hole, size_m / 2.0)
             for pen, size_m in (("drill", HOLE_M), ("mark", COUNTERSINK_M)) for hole in holes]
    taken = (MultiPoint(holes).buffer(COUNTERSINK_M / 2.0 + LINE_CLEAR_M),
             MultiLineString([mark.points_m for mark in marks]).buffer(LINE_CLEAR_M))
    return [*cut_paths(wood), *marks, *bored], wood.difference(unary_union(taken))


def _dashes(points_m):
    """A marked line broken up, from its first point on."""
    line = LineString(points_m)
    for start in np.arange(0.0, line.length, DASH_M + GAP_M):
        yield np.asarray(substring(line, start, min(start + DASH_M, line.length)).coords)


def written(wood, words, spots, heights_m=HEIGHTS_M):
    """Texts on the wood, each at the first spot of the largest letters that fit.

    Parameters
    ----------
    wood : polygon in drawing coordinates, less all that letters must keep clear of
    words : texts to place, the most important first
    spots : list of ((right, up), angle in degrees) to try
    heights_m : of letters to try, the highest first

    Returns
    -------
    (tuple of Text, what is left of the wood, tuple of words that found no place)
    """
    placed, lost = [], []
    for word in words:
        text = first_fit(wood.buffer(-FROM_EDGE_M), Text("text", (0.0, 0.0), 0.0, word), heights_m,
                         [(at, upright(angle)) for at, angle in spots])
        if text is None:
            lost.append(word)
        else:
            placed.append(text)
            wood = wood.difference(Polygon(text_corners_m(text)))
    return tuple(placed), wood, tuple(lost)


def up_arrow(wood, spots):
    """An arrow that points up with the word under it, and what is left of the wood.

    Returns no strokes where none fits.
    """
    fast = prep(wood)
    for (right, up), _ in spots:
        foot = up - ARROW_M / 2.0
        room = box(right - 0.007, foot - 0.008, right + 0.007, foot + ARROW_M + 0.001)
        if fast.contains(room):
            shaft = np.array([(right, foot), (right, foot + ARROW_M - 0.001)])
            head = shaft[1] + np.array([(-HEAD_M / 2, -HEAD_M), (0.0, 0.0), (HEAD_M / 2, -HEAD_M)])
            return (Path("mark", shaft), Path("mark", head),
                    Text("text", (right, foot - 0.004), 0.004, "UP")), wood.difference(room)
    return (), wood


def first_fit(free, text, heights_m, spots):
    """The Text as high as it fits into free wood, at the first spot there; None where it does not.

    Parameters as `written`, the heights from the highest down.
    """
    if not spots:
        return None
    prepare(free)
    right, up = text_corners_m(replace(text, at_m=(0.0, 0.0), height_m=1.0, angle_deg=0.0)).T
    places, angles = (np.array(one) for one in zip(*spots, strict=True))
    across, high = (part[:, None] for part in (np.cos(np.radians(angles)),
                                               np.sin(np.radians(angles))))
    corners = np.stack([across * right - high * up, high * right + across * up], axis=-1)
    for height in heights_m:
        fits = contains(free, polygons(places[:, None] + height * corners))
        if fits.any():
            at, angle = spots[fits.argmax()]
            return replace(text, at_m=at, height_m=height, angle_deg=angle)
    return None


def upright(angle_deg):
    """The same direction so turned that letters do not stand on their heads."""
    turned = (angle_deg + 90.0) % 180.0 - 90.0
    return 90.0 if turned == -90.0 else turned


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
