"""Words of a pattern on tiles: each is moved, or made smaller, until it is whole on a page and on
no line.

A word stays on its own side of the saw lines wherever it finds room there: it belongs to the wood,
or to what is beside it.
"""

from dataclasses import replace
from functools import cache, lru_cache
from itertools import compress, product

import numpy as np
import shapely

from sizer.drawing.leaders import leader, with_leaders, without_leaders
from sizer.drawing.record import Circle, Path, Text, text_corners_m
from sizer.units import MM_PER_M

INSET_MM = 1.5  # of words from the window's edges and the joins; our drawing
CLEAR_M = 0.0008  # between words and lines; our drawing
LEAST_M = 0.0022  # height of capitals that a word is made smaller to; our drawing
SHRUNK = (1.0, 0.75, 0.5)  # of a word's height, tried in order
STEP_M, ALONG, ACROSS = 0.004, 40, 24  # places tried, so many steps to each side; our drawing
SIDEWAYS = 1.5  # a move to the side counts as so much more; our drawing
FAR_M = 0.020  # a word so far off all pages names what is on none; our drawing
ROOM = 4.0  # beside a drawing to read, over its letters' height; our drawing
AT_ONCE, MORE = 120, 4  # places looked at together, and how many times as many after them
MARK_ROOM_MM = (-6.5, -6.5, 7.0, 6.5)  # of a joining mark with its name


def whole_words(drawing, tiles):
    """A Drawing as it lies with every word whole on one of its Tiling's tiles; what finds no room
    at all, or names what is on no tile, is left out."""
    pages = np.array([tile.box_mm(tiles.window_mm) for tile in tiles.tiles]) / MM_PER_M + (
        np.array([1.0, 1.0, -1.0, -1.0]) * INSET_MM / MM_PER_M)
    return _clear(drawing, pages, list(_joins(tiles)), LEAST_M)


def whole_guides(drawing, tiles):
    """A Drawing as it lies without the guides beside all that is sawn, and the words on them, that
    are not whole on one of its Tiling's tiles: half an outline shows nothing to measure to."""
    pages = shapely.box(*(np.array([tile.box_mm(tiles.window_mm) for tile in tiles.tiles]).T
                          / MM_PER_M))
    wood = shapely.convex_hull(shapely.multilinestrings(pieces_of(drawing.on("cut"), ("cut",))))
    guides = [one for one in drawing.strokes if isinstance(one, Path) and one.pen == "guide"
              and len(one.points_m) > 2]
    hulls = shapely.convex_hull([shapely.linestrings(one.points_m) for one in guides])
    lost = [not hull.intersects(wood) and not shapely.within(hull, pages).any() for hull in hulls]
    gone = shapely.union_all(hulls[lost])
    return replace(drawing, strokes=tuple(
        one for one in drawing.strokes
        if not (isinstance(one, Text) and gone.contains(shapely.points(one.at_m)))
        and not any(one is guide for guide in compress(guides, lost))))


def readable(drawing, letters_m):
    """The Drawing with no letters lower than a height; those made larger are moved off the lines,
    where there is room."""
    larger = replace(drawing, strokes=tuple(
        replace(one, height_m=max(one.height_m, letters_m)) if isinstance(one, Text) else one
        for one in drawing.strokes))
    room = letters_m * ROOM
    page = np.array(drawing.box_m) + room * np.array([-1.0, -0.5, 1.0, 0.5])
    return _clear(larger, page[None], [], letters_m, keep=True)


def _clear(drawing, pages, joins, least_m, keep=False):
    """The Drawing with every word on one of some pages and on no line, no lower than `least_m`;
    what finds no room is left out, or stays where it is to `keep` it."""
    drawing = replace(drawing, strokes=without_leaders(drawing.strokes))
    saws, sticks = pieces_of(drawing, ("cut",)), _sticks(drawing)
    marks = [*saws, *sticks, *pieces_of(drawing, ("mark", "drill", "dimension")), *joins]
    guides = [*marks, *pieces_of(drawing, ("guide", "stick", "extension", "centre"))]
    cut, *obstacles = map(_prepared, (saws, marks, guides))
    kept, words = [], []
    for stroke in drawing.strokes:
        if isinstance(stroke, Text):
            if not keep and _far(stroke, pages):
                continue
            found = (_led(stroke, pages, cut, obstacles[-1], words, sticks, least_m)
                     or _placed(stroke, pages, cut, obstacles, words, least_m))
            if found is None and not keep:
                continue
            stroke = found or stroke
            words.append(shapely.polygons(text_corners_m(stroke)))
            words += [shapely.linestrings(one.points_m) for one in [leader(stroke)] if one]
        kept.append(stroke)
    return replace(drawing, strokes=tuple(with_leaders(kept)))


def _sticks(drawing):
    """The sections of sticks, which no word stands in."""
    return [shapely.polygons(one.points_m) for one in drawing.strokes
            if not isinstance(one, (Circle, Text)) and one.pen == "stick" and one.closed]


def _led(text, pages, cut, taken, words, sticks, least_m):
    """A Text that names a place, at the nearest place on that one's page that is clear of all, on
    its own side of the saw lines before over one, and from which a line leads there over no word
    and, if it can, no other stick; None where there is none."""
    if text.of_m is None:
        return None
    of = shapely.points(text.of_m)
    there = pages[[bool(one.intersects(of)) for one in shapely.box(*pages.T)]]
    others = [*words, *(one for one in sticks if not one.intersects(of))]
    moves = np.concatenate([np.zeros((1, 2)), _moves(text.angle_deg)])

    parted = _parted(text, moves, cut)

    @cache  # the same places are asked for each `over`
    def clear(height_m, lot, across):
        corners, some = text_corners_m(replace(text, height_m=height_m)), parted(lot)[across]
        some = some[_free(corners + some[:, None], there, taken, words)]
        return some, shapely.shortest_line(shapely.polygons(corners + some[:, None]), of)

    for height_m, over, across in product(_heights_m(text, least_m) if len(there) else (),
                                          (others, words), (False, True)):
        for lot in at_once(len(moves)):
            some, lines = clear(height_m, lot, across)
            some = some[~shapely.intersects(np.array(over, object)[:, None], lines).any(axis=0)]
            if len(some):
                return _moved(text, height_m, some[0])
    return None


def _heights_m(text, least_m):
    """Those tried of a Text's letters: shares of its own, no lower than `least_m` if it is not."""
    return tuple(dict.fromkeys(min(text.height_m, max(least_m, share * text.height_m))
                               for share in SHRUNK))


def _parted(text, moves, cut):
    """By `parted(lot)`, those of some moves in a lot that keep a Text on its own side of the saw
    lines, and those that take it over one: asked before all that takes longer."""
    @cache
    def parted(lot):
        some = moves[slice(*lot)]
        across = _meet(cut, _ways(text, some), 0.0)
        return some[~across], some[across]

    return parted


def _moved(text, height_m, move):
    return replace(text, height_m=height_m, at_m=tuple((text.at_m + move).tolist()))


def _far(text, pages):
    """Whether a Text names what none of some pages shows."""
    corners = text_corners_m(text)
    low, high = corners.min(axis=0) - FAR_M, corners.max(axis=0) + FAR_M
    return not ((low < pages[:, 2:]) & (high > pages[:, :2])).all(axis=1).any()


def saw_lines(drawing):
    """An STRtree of a drawing's saw lines, each straight piece by itself."""
    return shapely.STRtree(pieces_of(drawing, ("cut",)))


def pieces_of(drawing, pens):
    """What the strokes of some pens take of the paper: straight pieces, and discs."""
    strokes = [one for one in drawing.strokes if one.pen in pens and not isinstance(one, Text)]
    discs = [one for one in strokes if isinstance(one, Circle)]
    lines = [np.vstack([one.points_m, one.points_m[:int(one.closed)]])
             for one in strokes if not isinstance(one, Circle)]
    ends = [np.stack([one[:-1], one[1:]], axis=1) for one in lines]
    return [*shapely.linestrings(np.concatenate([np.empty((0, 2, 2)), *ends])),
            *shapely.buffer(shapely.points(np.reshape([one.centre_m for one in discs], (-1, 2))),
                            [one.radius_m for one in discs])]


def words_of(drawing):
    """What the words of a drawing take."""
    return [shapely.polygons(text_corners_m(one)) for one in drawing.strokes
            if isinstance(one, Text)]


def _joins(tiles):
    """Where neighbours are cut, and the marks they are laid on each other by."""
    far, wide = 10.0 * MM_PER_M, INSET_MM
    yield from (_box_m(at - wide, -far, at + wide, far) for at in tiles.upright_joins_mm)
    yield from (_box_m(-far, at - wide, far, at + wide) for at in tiles.level_joins_mm)
    yield from mark_rooms(tiles)


def mark_rooms(tiles):
    """What the joining marks of a Tiling take with their names."""
    for mark in tiles.marks:
        left, low, right, top = MARK_ROOM_MM
        yield _box_m(mark.right_mm + left, mark.up_mm + low, mark.right_mm + right,
                     mark.up_mm + top)


def _box_m(*sides_mm):
    return shapely.box(*(side / MM_PER_M for side in sides_mm))


def _placed(text, pages, cut, obstacles, words, least_m):
    """The Text at the nearest place that does, None where there is none: clear of all lines before
    clear of those to work by, on its own side of the saw lines before over one."""
    if _free(text_corners_m(text)[None], pages, obstacles[-1], words)[0]:
        return text
    moves = _moves(text.angle_deg)
    parted = _parted(text, moves, cut)
    for across, height_m, taken in product((False, True), _heights_m(text, least_m),
                                           reversed(obstacles)):
        corners = text_corners_m(replace(text, height_m=height_m))
        for lot in at_once(len(moves)):
            some = parted(lot)[across]
            some = some[_free(corners + some[:, None], pages, taken, words)]
            if len(some):
                return _moved(text, height_m, some[0])
    return None


def at_once(count):
    """(start, end) of lots of so many places, first AT_ONCE, then ever more, for those who go on no
    further than needed."""
    start, long = 0, AT_ONCE
    while start < count:
        yield start, start + long
        start, long = start + long, MORE * long


def _ways(text, moves):
    """The lines along which a Text is moved."""
    return shapely.linestrings(np.stack([np.zeros_like(moves), moves], axis=1) + text.at_m)


@lru_cache(maxsize=64)  # most words of a drawing stand at one of a few angles
def _moves(angle_deg):
    """By how much a word may be moved, (n, 2), the least first: along its own line rather than to
    its sides."""
    steps = STEP_M * np.stack(np.meshgrid(np.arange(-ALONG, ALONG + 1),
                                          np.arange(-ACROSS, ACROSS + 1)), axis=-1).reshape(-1, 2)
    steps = steps[np.argsort(np.hypot(steps[:, 0], SIDEWAYS * steps[:, 1]), kind="stable")]
    cos, sin = np.cos(np.radians(angle_deg)), np.sin(np.radians(angle_deg))
    return steps @ np.array([(cos, sin), (-sin, cos)])


def _free(corners, pages, taken, words):
    """Which of some boxes, (n, 4, 2), stand whole on a page, clear of lines and of other words."""
    low, high = corners.min(axis=1)[:, None], corners.max(axis=1)[:, None]
    free = ((low >= pages[:, :2]) & (high <= pages[:, 2:])).all(axis=-1).any(axis=1)
    boxes = shapely.polygons(corners[free])
    off = ~_meet(taken, boxes, CLEAR_M)
    off[off] = ~shapely.intersects(np.array(words, object)[:, None], boxes[off]).any(axis=0)
    free[free] = off
    return free


def _prepared(pieces):
    """(all lines as one, all areas as one) of some pieces, prepared to be asked often."""
    pieces = np.array(pieces, object)
    kinds = shapely.get_dimensions(pieces)
    found = shapely.multilinestrings(pieces[kinds == 1]), shapely.union_all(pieces[kinds == 2])
    shapely.prepare(found)
    return tuple(one for one in found if not one.is_empty)


def _meet(obstacle, shapes, within_m):
    """Which of some shapes (n,) come so near to the lines or areas."""
    met = np.zeros(len(shapes), bool)
    for one in obstacle:
        met[~met] = shapely.dwithin(one, shapes[~met], within_m)
    return met
