"""A stem with what is fastened to it, from the side: keel, sticks on its sides, ridge, cords."""

import numpy as np
from shapely.geometry import LineString

from sizer.drawing.marks import apart, line
from sizer.drawing.measured import label
from sizer.drawing.record import Circle, Drawing, Path, Text
from sizer.shop.lashing import HOLE_M
from sizer.shop.shapes import ring_path

LETTERS = "ABCDEFGHIJKL"
AROUND_M = 0.004  # of a cord from what it goes round, as drawn; our drawing
STEP = 1.5  # between names in the column, over their height


def stem_joint(stem, drawing, letters_m):
    """The Drawing of a StemPattern, the boat's end on the left, in the coordinates of its pattern's
    Drawing, whose lines are shown."""
    strokes = [one for one in drawing.strokes
               if not isinstance(one, Text) and one.pen in ("cut", "guide", "stick")]
    strokes += [ring_path("block", one.band().exterior) for one in stem.beside]
    for letter, lashing in zip(LETTERS, stem.lashings, strict=False):
        strokes += _tied(stem, lashing, letter, letters_m)
    return Drawing(stem.name, (*strokes, *_names(stem, letters_m), label(
        (stem.wood.bounds[0], stem.wood.bounds[1] + letters_m), stem.name, letters_m)))


def lettered(stem):
    """What each letter of `stem_joint` ties, in words."""
    for letter, lashing in zip(LETTERS, stem.lashings, strict=False):
        holes = "two holes" if len(lashing.holes) == 2 else "one hole"
        yield f"{letter} {' and '.join(lashing.sticks)}, {holes}"


def _tied(stem, lashing, letter, letters):
    holes = [np.array(one) for one in lashing.holes]
    if len(holes) == 2:
        way = holes
    elif stem.keel in lashing.sticks:
        way = [holes[0], np.array([holes[0][0], _under(stem, holes[0]) - AROUND_M])]
    else:
        way = [holes[0], np.array([holes[0][0], _over(stem, holes[0]) + AROUND_M])]
    yield Path("here", np.array(way))
    yield from (Circle("drill", tuple(hole.tolist()), HOLE_M / 2.0) for hole in holes)
    beside = holes[0] + ((-1.1 if LETTERS.index(letter) % 2 else 0.6) * letters, 0.0)
    yield label(beside, letter, letters, pen="number")


def _under(stem, hole):
    """Height of the keel's lower face under a hole."""
    return float(np.interp(hole[0], stem.keel_m[:, 0], stem.keel_m[:, 1]))


def _over(stem, hole):
    """Height of the top of ridge or stem over a hole."""
    if stem.ridge_lap:
        return float(np.interp(hole[0], *stem.ridge_lap.line_m.T))
    upright = LineString([(hole[0], hole[1]), (hole[0], hole[1] + 1.0)])
    return float(stem.wood.intersection(upright).bounds[3])


def _names(stem, letters):
    """Each stick's name in a column on the right, with a line to it."""
    column = stem.wood.bounds[2] + 3.0 * letters
    spots = [(one.stringer, np.asarray(one.band().centroid.coords[0])) for one in stem.beside]
    spots.append((stem.keel, stem.keel_m[-1] + (0.0, 0.5 * stem.keel_depth_m)))
    if stem.ridge_lap:
        spots.append((f"{stem.ridge}, lapped", (
            0.9 * stem.ridge_lap.length_m, _over(stem, (0.9 * stem.ridge_lap.length_m, 0.0))
            - 0.5 * stem.ridge_lap.left_m)))
    spots.sort(key=lambda one: one[1][1])
    heights = apart([at[1] for _, at in spots], STEP * letters)
    for (name, at), height in zip(spots, heights, strict=True):
        yield line("extension", at, (column - 0.4 * letters, height))
        yield label((column, height), name, letters)
