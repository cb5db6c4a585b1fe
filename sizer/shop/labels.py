"""A piece of plywood: what is sawn, marked and bored, and the largest words that fit beside it; on
a sheet of parts its number and name, as large as they find room for."""

from dataclasses import dataclass, replace
from functools import cached_property
from itertools import groupby
from operator import attrgetter

import numpy as np
import shapely
from shapely.geometry import GeometryCollection, LineString, MultiLineString, MultiPoint, Polygon

from sizer.drawing.record import Circle, Path, Text, text_corners_m
from sizer.shop.lashing import COUNTERSINK_M, HOLE_M
from sizer.shop.shapes import along_m, cut_paths, line_pieces

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


@dataclass(frozen=True, eq=False)
class FreeWood:
    """Wood that words may lie on, clear of what is on it already."""

    wood: Polygon
    taken: tuple[tuple, ...] = ()  # (shape, how far beyond it the wood is taken) each

    def has_room(self, shapes, clear_m=0.0):
        """Which of an array of shapes lie on it, so far from its edges and all that is taken."""
        shapely.prepare(self.wood)
        found = shapely.contains(self.wood, shapes)
        edge = ((self._edge, 0.0),) if clear_m else ()
        for taken, beyond_m in (*edge, *self.taken):
            shapely.prepare(taken)
            found[found] = ~_meet(taken, shapes[found], beyond_m + clear_m)
        return found

    @cached_property
    def _edge(self):
        return self.wood.boundary

    def less(self, *taken):
        """The same with more of it taken, as in `taken`."""
        return replace(self, taken=(*self.taken, *taken))


def _meet(taken, shapes, within_m):
    """Which shapes come nearer to what is taken than that; those that only touch it do not."""
    if within_m:
        return shapely.dwithin(taken, shapes, within_m)
    return shapely.intersects(taken, shapes) & ~shapely.touches(taken, shapes)


def on_wood(wood, lines, holes, shortest_m=0.0):
    """(strokes, FreeWood): saw lines of a piece, a polygon in drawing coordinates, `lines` marked
    on it, (n, 2) each, in dashes where they run over more wood than `shortest_m`, its countersunk
    holes by their middles; and the wood left free for words."""
    marks = [Path("mark", dash) for line in lines
             for piece in line_pieces(wood.intersection(LineString(line)), shortest_m)
             for dash in _dashes(piece)]
    bored = [Circle(pen, hole, size_m / 2.0)
             for pen, size_m in (("drill", HOLE_M), ("mark", COUNTERSINK_M)) for hole in holes]
    free = FreeWood(wood).less(
        (MultiPoint(holes), COUNTERSINK_M / 2.0 + LINE_CLEAR_M),
        (MultiLineString([mark.points_m for mark in marks]), LINE_CLEAR_M))
    return [*cut_paths(wood), *marks, *bored], free


def _dashes(points_m):
    """A marked line broken up, from its first point on."""
    line, along = LineString(points_m), along_m(points_m)
    starts = np.arange(0.0, line.length, DASH_M + GAP_M)
    ends = np.minimum(starts + DASH_M, line.length)
    first, last = (shapely.get_coordinates(shapely.line_interpolate_point(line, one))
                   for one in (starts, ends))
    for row, (start, end) in enumerate(zip(starts, ends, strict=True)):
        yield np.vstack([first[row], points_m[(along > start) & (along < end)], last[row]])


def written(free, words, spots, heights_m=HEIGHTS_M):
    """Texts on a FreeWood, each at the first of `spots`, ((right, up), angle in degrees), of the
    largest letters that fit; words and heights come the most important and the highest first.

    Returns (tuple of Text, what is left of the FreeWood, tuple of words that found no place)."""
    placed, lost = [], []
    for word in words:
        text = _first_fit(free, Text("text", (0.0, 0.0), 0.0, word), heights_m,
                          [(at, upright(angle)) for at, angle in spots], FROM_EDGE_M)
        if text is None:
            lost.append(word)
        else:
            placed.append(text)
            free = free.less((Polygon(text_corners_m(text)), 0.0))
    return tuple(placed), free, tuple(lost)


def up_arrow(free, spots):
    """An arrow that points up with the word under it, and what is left of the FreeWood.

    Returns no strokes where none fits.
    """
    places = np.array([at for at, _ in spots]).reshape(-1, 2)
    across, feet = places[:, 0], places[:, 1] - ARROW_M / 2.0
    rooms = shapely.box(across - 0.007, feet - 0.008, across + 0.007, feet + ARROW_M + 0.001)
    fits = free.has_room(rooms)
    if not fits.any():
        return (), free
    right, foot = spots[fits.argmax()][0][0], float(feet[fits.argmax()])
    shaft = np.array([(right, foot), (right, foot + ARROW_M - 0.001)])
    head = shaft[1] + np.array([(-HEAD_M / 2, -HEAD_M), (0.0, 0.0), (HEAD_M / 2, -HEAD_M)])
    word = Text("text", (right, foot - 0.004), 0.004, "UP")
    return (Path("mark", shaft), Path("mark", head), word), free.less((rooms[fits.argmax()], 0.0))


def _first_fit(free, text, heights_m, spots, clear_m):
    """The Text as high as it fits into FreeWood with so much left round it, at the first spot
    there; None where it does not. Parameters as `written`, the heights from the highest down."""
    if not spots:
        return None
    right, up = text_corners_m(replace(text, at_m=(0.0, 0.0), height_m=1.0, angle_deg=0.0)).T
    places, angles = (np.array(one) for one in zip(*spots, strict=True))
    across, high = (part[:, None] for part in (np.cos(np.radians(angles)),
                                               np.sin(np.radians(angles))))
    corners = np.stack([across * right - high * up, high * right + across * up], axis=-1)
    for height in heights_m:
        fits = free.has_room(shapely.polygons(places[:, None] + height * corners), clear_m)
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
    free = FreeWood(wood, tuple(_taken(rest)))
    shown = [_largest(replace(one, pen="number", text=told), free) or replace(
        one, pen="number", text=told, height_m=one.height_m * len(piece.name) / len(told))
        for one in names]
    if not shown:
        at = wood.buffer(-NUMBER_M).representative_point()
        at = wood.representative_point() if at.is_empty else at
        shown = [Text("number", (at.x, at.y), NUMBER_M, told)]
    return replace(piece, strokes=(*rest, *shown))


def _taken(strokes):
    """What marks, holes and words take of the wood, as FreeWood has it."""
    radius = attrgetter("radius_m")
    yield GeometryCollection([Polygon(text_corners_m(one)) for one in strokes
                              if isinstance(one, Text)]), 0.0
    bored = sorted((one for one in strokes if isinstance(one, Circle)), key=radius)
    for radius_m, alike in groupby(bored, key=radius):
        yield MultiPoint([one.centre_m for one in alike]), radius_m
    yield MultiLineString([one.points_m for one in strokes if isinstance(one, Path)
                           and one.pen != "cut"]), NUMBER_CLEAR_M


def _largest(text, free):
    """The Text at the largest of NUMBERS_M that lies in free wood, moved along its own line."""
    turn = np.radians(text.angle_deg)
    spots = text.at_m + np.outer(SHIFTS_M, (np.cos(turn), np.sin(turn)))
    return _first_fit(free, text, NUMBERS_M, [(tuple(spot), text.angle_deg)
                                              for spot in spots.tolist()], NUMBER_CLEAR_M)
