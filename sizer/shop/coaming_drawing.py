"""The coaming as a drawing at full size, in its own sloped plane, the bow on the left.

The saw line is the inside of the wall: a form cut to it takes the strips bent round it. Seen from
above, starboard so is up.
"""

from math import ceil

import numpy as np
from shapely.geometry import LineString, MultiLineString, MultiPoint, Point, Polygon

from sizer.drawing.record import LETTER_WIDTH, Drawing, Path, Text
from sizer.drawing.told import in_full, in_mm, row_of, size, told
from sizer.shop import coaming
from sizer.shop.labels import on_wood, written
from sizer.shop.said import both
from sizer.shop.screws import crosses
from sizer.shop.shapes import ring_path
from sizer.shop.sundries import CLAMP_STEP_M
from sizer.shop.thigh import WALL_HOLES_APART_M
from sizer.shop.trade_sizes import section_told

NAME = "coaming"
SMALL_M = 0.004  # of words beside the form; our drawing
# Places for words, tried in order: shares of the length aft, of the width off the middle. What it
# is and which way it lies stand near the front, which is always on a page; our drawing.
FRONT_SHARES, MIDDLE_SHARES = (0.14, 0.16, 0.12, 0.18, 0.2, 0.24, 0.4), (0.5, 0.45, 0.55, 0.4, 0.6)
BOW_SHARES, NAME_SHARES, SIDE_SHARES = (0.05, 0.06), (0.12, 0.15, 0.18), (0.38, 0.34, 0.3)
CLEAR_M = 0.004  # of words from a frame's face; our drawing
BEYOND_M = 0.012  # of guide lines past the lip; our drawing
FINE_M = 1e-3


def coaming_drawing(rim, boat, thigh=None):
    """The Drawing of a boat's Coaming, with the holes for ThighBraces."""
    form = Polygon(rim.outline_m[:-1])
    wall, lip = coaming.WALL_M, coaming.WALL_M + coaming.LIP_M
    strokes, free = on_wood(form, [
        np.array([(0.0, 0.0), (rim.length_m, 0.0)]),
        np.array([(rim.widest_m, -rim.width_m / 2.0), (rim.widest_m, rim.width_m / 2.0)])], [])
    strokes += [ring_path("guide", form.buffer(out).exterior) for out in (wall, lip)]
    faces = list(_frames(rim, boat, rim.width_m / 2.0 + lip + BEYOND_M))
    across = MultiLineString([one.points_m for one in faces if isinstance(one, Path)])
    jaws = list(clamp_holes_m(LineString(rim.outline_m)))
    free = free.less((across, CLEAR_M), (MultiPoint(jaws), CLEAR_M))
    strokes += [*_words(rim, free), *faces, *crosses(jaws)]
    strokes += _wall_notches(rim)
    if thigh is not None:
        strokes += _brace_holes(rim, boat, thigh)
    return Drawing(NAME, tuple(strokes), tuple(_notes(rim)))


def clamp_hole_in_m():
    """From the form's edge to the middle of a clamp's hole."""
    return coaming.CLAMP_WOOD_M + 0.5 * coaming.CLAMP_HOLE_M


def clamp_holes_m(ring):
    """Middles of the clamps' holes, evenly round the form's edge, square in from it."""
    count = ceil(ring.length / CLAMP_STEP_M)
    for at in ring.length * np.arange(count) / count:
        spot, out = _edge(ring, at)
        yield tuple((spot - clamp_hole_in_m() * out).tolist())


def _edge(ring, at_m):
    """A place so far round the form's edge, and one unit square out from it."""
    near, spot, far = (np.array(ring.interpolate((at_m + step) % ring.length).coords[0])
                       for step in (-FINE_M, 0.0, FINE_M))
    out = np.array([far[1] - near[1], near[0] - far[0]]) / np.hypot(*(far - near))
    return spot, -out if Polygon(ring).contains(Point(spot + FINE_M * out)) else out


def _wall_notches(rim):
    """Where the wall is notched: across it, both ends of every notch, on both sides."""
    ring = LineString(rim.outline_m)
    for notch in rim.notches:
        for place in (notch.round_m - 0.5 * notch.wide_m, notch.round_m + 0.5 * notch.wide_m):
            for at in (place % ring.length, -place % ring.length):
                spot, out = _edge(ring, at)
                yield Path("guide", np.array([spot, spot + coaming.WALL_M * out]))


def _brace_holes(rim, boat, thigh):
    """Where the wall is bored for ThighBraces, through it, on both sides, and what for."""
    ring = LineString(rim.outline_m)
    middle = coaming.round_at_m(rim, thigh.wall_middle_m - boat.opening.front_x_m)
    for side in (1.0, -1.0):
        for place in (-0.5 * WALL_HOLES_APART_M, 0.5 * WALL_HOLES_APART_M):
            spot, out = _edge(ring, side * (middle + place) % ring.length)
            yield Path("guide", spot + np.outer((-1.0, 2.0), coaming.WALL_M * out))
        spot, out = _edge(ring, side * middle % ring.length)
        yield Text("guide", tuple((spot - 2.5 * coaming.WALL_M * out).tolist()), SMALL_M, "brace")


def _words(rim, free):
    """What the form is and which way it lies, clear of every line: to starboard, which half a
    pattern shows, but for the port's own letter."""
    placed = []
    for word, at, ups, side in (("BOW", FRONT_SHARES, BOW_SHARES, 1.0),
                                ("COAMING FORM", FRONT_SHARES, NAME_SHARES, 1.0),
                                ("S", MIDDLE_SHARES, SIDE_SHARES, 1.0),
                                ("P", MIDDLE_SHARES, SIDE_SHARES, -1.0)):
        spots = [((share * rim.length_m, side * up * rim.width_m), 0.0)
                 for up in ups for share in at]
        texts, free, _ = written(free, (word,), spots)
        placed += texts
    return [*placed, Text("text", (rim.widest_m + 0.5 * LETTER_WIDTH * SMALL_M * 9, -2.0 * SMALL_M),
                          SMALL_M, "widest")]


def _frames(rim, boat, reach):
    """Where the frames' reference faces cross the coaming, its slope taken into account."""
    along = np.cos(np.radians(rim.slope_deg))
    for name, x in zip((frame.name for frame in boat.design.frames), boat.frame_x_m, strict=True):
        place = float(x - boat.opening.front_x_m) / along
        if 0.0 <= place <= rim.length_m:
            yield Path("guide", np.array([(place, -reach), (place, reach)]))
            yield Text("guide", (place, reach + 1.2 * SMALL_M), SMALL_M, f"face of {name}")


def _notes(rim):
    tells = "forward" if rim.slope_deg >= 0.0 else "aft"
    yield told(f"Form for the coaming: {{}} in its own plane, which rises {tells} at "
               f"{abs(rim.slope_deg):.1f} degrees. Solid: inside of the wall, sawn. Broken, no "
               "cut: centre line, widest place, outside of the wall, {} thick, outside of the lip, "
               "{} out from it and {} high, frames' faces; where one ends at a page's edge, no "
               "page is missing.",
               size(rim.length_m, rim.width_m, form=in_mm), section_told(coaming.WALL_M),
               section_told(coaming.LIP_M), in_full(coaming.LIP_HEIGHT_M))
    for one in rim.strips:
        yield told("{}: {} strips {}, {} long, ends feathered over each other, joints staggered.",
                   one.name.capitalize(), one.count, told(
                       "{} x {}", in_mm(one.width_m), section_told(one.thickness_m)),
                   size(one.length_m, form=in_mm))
    yield told("Laminated, never steamed: bend the strips cold round the form, spread glue "
               "between them, clamp every {} and leave it on the form until the glue has cured. "
               f"Tightest bend: radius {{}}, {rim.ratio:.0f} times a strip's thickness: "
               f"{rim.verdict}. Form: this outline, sawn square from layers of board as high as "
               "the wall, {}, or higher, its edge waxed. Crosses: middles of the clamps' holes.",
               both(CLAMP_STEP_M),
               size(rim.tightest_m, form=in_mm), size(rim.strips[0].width_m, form=in_mm))
    yield told("The wall stands {} over the deck line in front and {} behind, and {} under it "
               "between its notches. Notches in its lower edge, up to the deck line, over: {}. A "
               "frame's notch is on both sides. Mark them in the dry fit: the sheet Coaming.",
               *(size(one, form=in_mm) for one in (*rim.wall_m, rim.below_m)), row_of([
                   told("{}, middle {} round the inside from the front's centre, {} wide", one.over,
                        size(one.round_m, form=in_mm), size(one.wide_m, form=in_mm))
                   for one in rim.notches], "; "))
    front, behind = coaming.under_lip_m(rim.wall_m)
    yield told("Fastening: bore the wall's {}, and lash it: {}. The skin goes up the wall's "
               "outside to the lip and is sewn through {}. Under the lip are {} in front, {} "
               "behind. The spray deck is ordered by the varnished rim and tried on it before the "
               "skin is on. Common practice, no source; figures our judgement.", coaming.RIM_HOLES,
               coaming.RIM_LASHED, coaming.SEWING_HOLES, size(front, form=in_mm), in_mm(behind))
