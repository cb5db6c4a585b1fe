"""Stock to scale with what is cut from it: sheets of plywood, lengths of timber."""

from functools import lru_cache

import numpy as np
import shapely
from shapely.geometry import Point, Polygon
from shapely.ops import nearest_points, unary_union

from sizer.drawing.marks import box, line
from sizer.drawing.measured import BALLOON, balloon, balloons, label, words_width_m
from sizer.drawing.record import LINE_HEIGHT, Drawing, Path, joined, text_corners_m
from sizer.drawing.told import in_mm, told
from sizer.shop.trade_sizes import sold_told
from sizer.units import MM_PER_M, tape_text

SMALLER = (1.0, 0.83)  # of the letters' height, tried in order before a number is led out
ARROW = 6.0  # length of the grain's arrow, over the letters' height; our drawing
GAP = 3.0  # between two sheets, over the letters' height; our drawing
CLEAR = 0.3  # of a number from a part's edge, over its height; our drawing
LINE = 1.4  # from one line of words in a piece to the next, over the letters' height; our drawing
APART = 0.8  # between two lengths of timber, over the letters' height; our drawing
NARROWER = 0.8  # of the room a figure takes, of a letter's usual room


def sheets_to_scale(layouts, numbers, letters_m, wide_m=np.inf, unit=None):
    """The Drawing of all sheets of some Layouts, each part with its number in it or led out of it;
    they stand side by side in rows no wider than `wide_m`, the longest first, their words as a
    reader of a unit reads them; None leaves them in both."""
    rows, right, low, top = [], 0.0, 0.0, 0.0
    for thickness_m, sheet in sorted(
            ((layout.thickness_m, sheet) for layout in layouts for sheet in layout.sheets),
            key=lambda one: -one[1].size_m[0]):
        view = _sheet(thickness_m, sheet,
                      tuple(str(numbers[one.piece]) for one in sheet.placements),
                      letters_m)
        view = view.read(unit) if unit else view
        if right and right + view.width_m > wide_m:
            right, top = 0.0, low - GAP * letters_m
        rows.append(view.moved((right - view.box_m[0], top - view.box_m[3])))
        right += view.width_m + GAP * letters_m
        low = min(low, rows[-1].box_m[1])
    return joined("sheets", rows)


@lru_cache(maxsize=64)  # a job's sheets at the scales tried, for pages of every size
def _sheet(thickness_m, sheet, numbers, letters):
    long, wide = sheet.size_m
    inside, led, beside = [], [], []
    free = shapely.box(0.0, 0.0, long, wide)
    for number, woods in zip(numbers, _woods(sheet), strict=True):
        found = next(filter(None, (_within(*wood, number, share * letters)
                                   for share in SMALLER for wood in woods)), None)
        if found:
            inside.append(found)
        else:
            spot = woods[0][0].representative_point()
            led.append((number, (spot.x, spot.y)))
    arrow = _grain(sheet, letters)
    free = free.difference(unary_union([*(wood for (wood, _), _ in _woods(sheet)),
                                        *(Polygon(text_corners_m(one)) for one in inside),
                                        shapely.box(*Drawing("", arrow).box_m)]))
    off = (BALLOON + CLEAR) * letters  # of a balloon's middle from all that is drawn
    room = free.buffer(-off) if led else free
    for number, spot in led:
        if room.is_empty:
            beside.append((number, spot))
            continue
        at, _ = nearest_points(room, Point(spot))
        inside += balloon(number, (at.x, at.y), spot, letters)
        room = room.difference(at.buffer(BALLOON * letters + off))
    marks = [*inside, *balloons(beside, wide + 2.2 * letters, letters, (0.0, long))]
    top = wide + (4.0 * letters if beside else 0.0)
    return Drawing(sheet.kind, (
        box("guide", 0.0, 0.0, long, wide), *sheet.drawing.on("cut").strokes, *marks,
        *arrow,
        label((0.0, top + letters), told("{}, {}, {} x {}", sold_told(thickness_m),
                                         sheet.kind, in_mm(long), in_mm(wide)), letters)))


def _grain(sheet, letters):
    """An arrow along a sheet's face grain with its name, where no part lies, else under it."""
    name, long, tip = "face grain", ARROW * letters, 0.5 * letters
    wide = max(words_width_m(name, letters), long) + letters
    fits = sheet.offcut_m > wide
    left, low = (sheet.size_m[0] - wide, letters) if fits else (0.0, -3.6 * letters)
    way = np.array((0.0, 1.0) if sheet.grain_up else (1.0, 0.0))
    if sheet.grain_up:
        long = 2.0 * letters
    at = np.array([left + 0.5 * wide, low + (1.0 if sheet.grain_up else 0.5) * letters])
    across = np.array([-way[1], way[0]])
    heads = [Path("mark", np.array([
        at + sign * ((0.5 * long - tip) * way + 0.5 * tip * across), at + 0.5 * sign * long * way,
        at + sign * ((0.5 * long - tip) * way - 0.5 * tip * across)])) for sign in (1.0, -1.0)]
    return (*heads, line("mark", at - 0.5 * long * way, at + 0.5 * long * way),
            label((at[0], low + (2.8 if sheet.grain_up else 1.6) * letters), name, letters,
                  "middle"))


@lru_cache(maxsize=16)  # a job's sheets, at every scale tried, for pages of every size
def _woods(sheet):
    """For each part two shapes that its number may stand in, the better one first: its wood, and
    that with its openings where no part lies in them; each with its pieces' widest places."""
    loops = [Polygon(one.points_m) for one in sheet.drawing.on("cut").strokes if one.closed]
    parts = [_outline(placed, loops) for placed in sheet.placements]
    woods = [[part.difference(unary_union([one for one in off if one.area < part.area]))
              for off in (loops, parts)] for part in parts]
    return [[(wood, [shapely.get_point(shapely.maximum_inscribed_circle(one), 0)
                     for one in getattr(wood, "geoms", [wood]) if not one.is_empty])
             for wood in some] for some in woods]


def _outline(placed, loops):
    """A placed part's outer saw line: the loop that fills its rectangle, else the rectangle."""
    rectangle = shapely.box(placed.left_m, placed.bottom_m, placed.left_m + placed.width_m,
                            placed.bottom_m + placed.height_m)
    return next((one for one in loops if np.allclose(one.bounds, rectangle.bounds, atol=1e-4)),
                rectangle)


def _within(wood, spots, number, letters):
    """The number's label wholly in a shape, level or upright; None where it has no room."""
    room = wood.buffer(-CLEAR * letters / 2.0)
    for spot in spots:
        for turn in (0.0, 90.0):
            found = label((spot.x, spot.y), number, letters, "middle", turn, "number")
            if room.contains(Polygon(_figures_m(found))):
                return found
    return None


def _figures_m(text):
    """The four corners of what the figures of a Text fill: as high as capitals, (4, 2)."""
    corners = text_corners_m(text)
    middle, up, along = corners.mean(axis=0), corners[0] - corners[1], corners[0] - corners[3]
    up, along = 0.5 * up / LINE_HEIGHT, 0.5 * NARROWER * along
    return np.array([middle + along + up, middle + along - up, middle - along - up,
                     middle - along + up])


def timber_to_scale(plan, letters_m):
    """The Drawing of a CuttingPlan's lengths, one under the other: each piece with its name and its
    length in both units in it; what is left over is crossed out."""
    low, drawn = 0.0, []
    for one in plan.lengths:
        drawn.append(_length(one, letters_m).moved((0.0, low)))
        low = drawn[-1].box_m[1] - APART * letters_m
    return joined("timber", drawn)


def _length(length, letters):
    """One length, its upper edge at 0, as deep as its pieces' lines of words."""
    told, at = [_piece_words(one, letters) for one in length.pieces], 0.0
    low = -LINE * (max(map(len, told)) + 0.2) * letters
    strokes = [box("guide", 0.0, low, length.stock_m, 0.0)]
    for piece, rows in zip(length.pieces, told, strict=True):
        middle = at + 0.5 * piece.length_m
        strokes += [
            box("cut", at, low, at + piece.length_m, 0.0),
            *(label((middle, 0.5 * low + (0.5 * (len(rows) - 1) - row) * LINE * letters), said,
                    letters, "middle", pen="size" if row == len(rows) - 1 else "text")
              for row, said in enumerate(rows))]
        at += piece.length_m
    return Drawing("length", (*strokes, line("extension", (at, low), (length.stock_m, 0.0)),
                              line("extension", (at, 0.0), (length.stock_m, low))))


def _piece_words(piece, letters):
    """A piece's lines of words: its name, in two lines where it is narrow, and its length."""
    of = f" {piece.number}/{piece.of}" if piece.of > 1 else ""
    name, size = f"{piece.stick}{of}", piece.length_m * MM_PER_M
    rows = [name] if words_width_m(name, letters) < piece.length_m else name.split(", ", 1)
    return [*rows, f"{size:.0f} ({tape_text(size)})"]
