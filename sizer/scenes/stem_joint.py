"""A stem with what is fastened to it, from the side: keel, sticks on its sides, ridge, cords."""

from functools import partial
from math import dist

import numpy as np
from shapely.geometry import LineString, Point, Polygon, box

from sizer.drawing.marks import apart, line
from sizer.drawing.measured import label
from sizer.drawing.record import Circle, Drawing, Path, Text
from sizer.drawing.told import in_mm, row_of, size, told
from sizer.shop.lashing import HOLE_M
from sizer.shop.shapes import ring_path
from sizer.shop.stem_lashing import bevels_passed

LETTERS = "ABCDEFGHIJKL"
AROUND_M = 0.004  # of a cord from what it goes round, as drawn; our drawing
STEP = 1.5  # between names in the column, over their height
LEAST_WEDGE_M = 0.001  # a thinner one is told as this
END_M = 0.010  # of a stick's end, that its name's line goes to; our drawing
MUCH = 100  # more than all that one letter can lie on
NAMES_BESIDE = 1.5  # from all that is drawn to that column, over their height
ROUND = ((1.1, 0.0), (-1.1, 0.0), (0.0, 1.3), (0.0, -1.3),  # of a hole: places of its letter
         *((across, up) for up in (0.9, -0.9, 1.5, -1.5) for across in (1.1, -1.1)),
         (1.7, 0.0), (-1.7, 0.0), (0.0, 1.9), (0.0, -1.9))


def stem_joint(stem, drawing, letters_m):
    """The Drawing of a StemPattern, the boat's end on the left, as its pattern's Drawing lies."""
    # without the line that leads to the waterline's name, which is not told here
    strokes = [one for one in drawing.strokes
               if not isinstance(one, Text) and one.pen in ("cut", "guide", "stick")
               and (stem.water_m is None or not np.allclose(one.points_m[0], stem.water_m[-1]))]
    strokes += [ring_path("block", one.bevel_band().exterior) for one in stem.beside]
    for lashing in stem.lashings:
        strokes += _tied(stem, lashing)
    strokes.append(Path("here", stem.ring_m))
    column = Drawing("", tuple(strokes)).box_m[2] + NAMES_BESIDE * letters_m
    strokes += [*_names(stem, column, letters_m), label(
        (stem.wood.bounds[0], stem.wood.bounds[1] + letters_m), stem.name, letters_m)]
    return Drawing(stem.name, (*strokes, *_letters(stem, strokes, letters_m)))


def lettered(stem):
    """What each letter of `stem_joint` ties, told."""
    passed = dict(bevels_passed([stem]))
    for letter, lashing in zip(LETTERS, stem.lashings, strict=False):
        holes = "two holes" if len(lashing.holes) == 2 else "one hole"
        past = row_of([told("past the {}'s bevel, a wedge up to {} thick", stick,
                            size(max(opens, LEAST_WEDGE_M), form=in_mm))
                       for stick, opens in passed.get(lashing, ())], " and ")
        yield told("{} {}, {}{}", letter, " and ".join(lashing.sticks), holes,
                   told(" ({})", past) if past else "")


def filled_words(stems):
    """What is done under a lashing of some StemPatterns that lies past a bevel; "" of none."""
    return (" Past a bevel: what is open there between stick and stem was filled with a wedge of "
            "the stick's wood, so thick under the cord, a thin edge where the stick bears, glued, "
            "so that the cord bends nothing."
            ) if any(bevels_passed(stems)) else ""


def _tied(stem, lashing):
    holes = [np.array(one) for one in lashing.holes]
    if len(holes) == 2:
        way = holes
    elif stem.keel in lashing.sticks:
        way = [holes[0], np.array([holes[0][0], np.interp(holes[0][0], *stem.keel_m.T) - AROUND_M])]
    else:
        way = [holes[0], np.array([holes[0][0], _over(stem, holes[0]) + AROUND_M])]
    yield Path("here", np.array(way))
    yield from (Circle("drill", tuple(hole.tolist()), HOLE_M / 2.0) for hole in holes)


def _letters(stem, strokes, letters):
    """Each lashing's letter beside one of its holes, nearer to it than to another's: of all places
    the one where least is drawn, and no letter yet."""
    drawn = [LineString([*one.points_m, *one.points_m[:one.closed]]) for one in strokes
             if isinstance(one, Path)]
    drawn += [Polygon(one.points_m) for one in strokes if one.pen == "block"]
    drawn += [Point(one.centre_m).buffer(one.radius_m) for one in strokes
              if isinstance(one, Circle)]
    named = []

    def covered(at, own):
        area = _square(at, letters)
        others = [hole for one in stem.lashings if one is not own for hole in one.holes]
        near = min(dist(at, hole) for hole in own.holes)
        return (MUCH * (sum(map(area.intersects, named))
                        + any(dist(at, hole) < near for hole in others))
                + sum(map(area.intersects, drawn)))

    for letter, own in zip(LETTERS, stem.lashings, strict=False):
        at = min((np.add(hole, np.multiply(way, letters)) for hole in own.holes for way in ROUND),
                 key=partial(covered, own=own))
        named.append(_square(at, letters))
        yield label(at, letter, letters, "middle", pen="number")


def _square(at, letters):
    """What a letter takes, with some air."""
    return box(*(np.asarray(at) - 0.5 * letters), *(np.asarray(at) + 0.5 * letters))


def _over(stem, hole):
    """Height of the top of ridge or stem over a hole."""
    if stem.ridge_lap:
        return float(np.interp(hole[0], *stem.ridge_lap.line_m.T))
    upright = LineString([(hole[0], hole[1]), (hole[0], hole[1] + 1.0)])
    return float(stem.wood.intersection(upright).bounds[3])


def _inboard_end(band):
    """A spot in a stick's end that is nearest to the names, so that no line runs along it."""
    _, low, right, high = band.bounds
    end = band.intersection(box(right - END_M, low, right, high))
    return np.asarray(end.centroid.coords[0])


def _names(stem, column, letters):
    """Each stick's name in a column on the right, with a line to it."""
    spots = [(one.stringer, _inboard_end(one.band())) for one in stem.beside]
    spots.append((stem.keel, stem.keel_m[-1] + (0.0, 0.5 * stem.keel_depth_m)))
    if stem.ridge_lap:
        spots.append((f"{stem.ridge}, lapped", (
            0.9 * stem.ridge_lap.length_m, _over(stem, (0.9 * stem.ridge_lap.length_m, 0.0))
            - 0.5 * stem.ridge_lap.left_m)))
    spots.append(("turns of a bag's ring", stem.ring_m[0]))
    spots.sort(key=lambda one: one[1][1])
    heights = apart([at[1] for _, at in spots], STEP * letters)
    for (name, at), height in zip(spots, heights, strict=True):
        yield line("extension", at, (column - 0.4 * letters, height))
        yield label((column, height), name, letters)
