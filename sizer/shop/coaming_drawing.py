"""The coaming as a drawing at full size, in its own sloped plane, the bow on the left.

The saw line is the inside of the wall: a form cut to it takes the strips bent round it. Seen from
above, starboard so is up.
"""

import numpy as np
from shapely.geometry import LineString, Point, Polygon
from shapely.ops import unary_union

from sizer.drawing.record import LETTER_WIDTH, Drawing, Path, Text
from sizer.shop.coaming import (
    LIP_HEIGHT_M,
    LIP_M,
    RIM_HOLES,
    RIM_LASHED,
    SEWING_HOLES,
    WALL_M,
    under_lip_m,
)
from sizer.shop.labels import on_wood, written
from sizer.shop.shapes import ring_path
from sizer.units import MM_PER_M

NAME = "coaming"
SMALL_M = 0.004  # of words beside the form; our drawing
# Places for words, tried in order: shares of the length aft, of the width off the middle. What it
# is and which way it lies stand near the front, which is always on a page; our drawing.
FRONT_SHARES, MIDDLE_SHARES = (0.14, 0.16, 0.12, 0.18, 0.2, 0.24, 0.4), (0.5, 0.45, 0.55, 0.4, 0.6)
BOW_SHARES, NAME_SHARES, SIDE_SHARES = (0.05, 0.06), (0.12, 0.15, 0.18), (0.38, 0.34, 0.3)
CLEAR_M = 0.004  # of words from a frame's face; our drawing
BEYOND_M = 0.012  # of guide lines past the lip; our drawing


def coaming_drawing(rim, boat):
    """The Drawing of a boat's Coaming."""
    form = Polygon(rim.outline_m[:-1])
    wall, lip = WALL_M, WALL_M + LIP_M
    strokes, free = on_wood(form, [
        np.array([(0.0, 0.0), (rim.length_m, 0.0)]),
        np.array([(rim.widest_m, -rim.width_m / 2.0), (rim.widest_m, rim.width_m / 2.0)])], [])
    strokes += [ring_path("guide", form.buffer(out).exterior) for out in (wall, lip)]
    faces = list(_frames(rim, boat, rim.width_m / 2.0 + lip + BEYOND_M))
    across = [LineString(one.points_m).buffer(CLEAR_M) for one in faces if isinstance(one, Path)]
    strokes += [*_words(rim, free.difference(unary_union(across))), *faces]
    strokes += _wall_notches(rim, form)
    return Drawing(NAME, tuple(strokes), tuple(_notes(rim)))


def _wall_notches(rim, form):
    """Where the wall is notched: across it, both ends of every notch, on both sides."""
    ring = LineString(rim.outline_m)
    for notch in rim.notches:
        for place in (notch.round_m - 0.5 * notch.wide_m, notch.round_m + 0.5 * notch.wide_m):
            for at in (place % ring.length, -place % ring.length):
                spot, beyond = (np.array(ring.interpolate((at + step) % ring.length).coords[0])
                                for step in (0.0, 1e-3))
                out = np.array([beyond[1] - spot[1], spot[0] - beyond[0]]) / np.hypot(
                    *(beyond - spot))
                out *= -1.0 if form.contains(Point(spot + 1e-3 * out)) else 1.0
                yield Path("guide", np.array([spot, spot + WALL_M * out]))


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
    yield (f"Form for the coaming: {rim.length_m * MM_PER_M:.0f} x {rim.width_m * MM_PER_M:.0f} mm "
           f"in its own plane, which rises {tells} at {abs(rim.slope_deg):.1f} degrees. Solid: "
           "inside of the wall, sawn. Broken, no cut: centre line, widest place, outside of the "
           f"wall, {WALL_M * MM_PER_M:g} mm thick, outside of the lip, {LIP_M * MM_PER_M:g} mm out "
           f"from it and {LIP_HEIGHT_M * MM_PER_M:g} high, frames' faces; where one ends at "
           "a page's edge, no page is missing.")
    for one in rim.strips:
        yield (f"{one.name.capitalize()}: {one.count} strips {one.width_m * MM_PER_M:.0f} x "
               f"{one.thickness_m * MM_PER_M:g} mm, {one.length_m * MM_PER_M:.0f} mm long, ends "
               "feathered over each other, joints staggered.")
    yield (f"Laminated, never steamed: bend the strips cold round the form, spread glue between "
           "them, clamp every 80 mm and leave it on the form until the glue has cured. Tightest "
           f"bend: radius {rim.tightest_m * MM_PER_M:.0f} mm, {rim.ratio:.0f} times a strip's "
           f"thickness: {rim.verdict}. Form: this outline, sawn square from layers of board as "
           f"high as the wall, {rim.strips[0].width_m * MM_PER_M:.0f} mm, or higher, its edge "
           "waxed.")
    yield (f"The wall stands {rim.wall_m[0] * MM_PER_M:.0f} mm over the deck line in front and "
           f"{rim.wall_m[1] * MM_PER_M:.0f} mm behind, and {rim.below_m * MM_PER_M:.0f} mm under "
           "it between its notches. Notches in its lower edge, up to the deck line, over: "
           + "; ".join(f"{one.over}, middle {one.round_m * MM_PER_M:.0f} mm round the inside from "
                       f"the front's centre, {one.wide_m * MM_PER_M:.0f} mm wide"
                       for one in rim.notches)
           + ". A frame's notch is on both sides. Mark them in the dry fit, then saw.")
    room = [one * MM_PER_M for one in under_lip_m(rim.wall_m)]
    yield (f"Fastening: bore the wall's {RIM_HOLES}, and lash it: {RIM_LASHED}. The skin goes "
           "up the wall's outside to the lip and is sewn through "
           f"{SEWING_HOLES}. Under the lip are {room[0]:.0f} mm in front, "
           f"{room[1]:.0f} behind. The spray deck is ordered by the varnished rim and tried on it "
           "before the skin is on. Common practice, no source; figures our judgement.")
