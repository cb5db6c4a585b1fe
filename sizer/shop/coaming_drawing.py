"""The coaming as a drawing at full size, in its own sloped plane, the bow on the left.

The saw line is the inside of the wall: a form cut to it takes the strips bent round it. Seen from
above, starboard so is up.
"""

import numpy as np
from shapely.geometry import LineString, Point, Polygon

from sizer.drawing.marks import box
from sizer.drawing.record import LETTER_WIDTH, Drawing, Path, Text
from sizer.shop.coaming import (
    LIP_HEIGHT_M,
    LIP_M,
    RIM_HOLES,
    SEWING_HOLES,
    WALL_M,
    under_lip_m,
)
from sizer.shop.shapes import ring_path
from sizer.units import MM_PER_M

NAME = "coaming"
LETTERS_M = 0.008  # of words on the form; our drawing
SMALL_M = 0.004  # of words beside it; our drawing
BOW_SHARE, NAME_SHARE = 0.14, 0.34  # of the length: where words stand; our drawing
SECTION_M = 0.060  # from the rim to its section beside it; our drawing
BEYOND_M = 0.012  # of guide lines past the lip; our drawing


def coaming_drawing(rim, boat):
    """The Drawing of a boat's Coaming."""
    form = Polygon(rim.outline_m[:-1])
    wall, lip = WALL_M, WALL_M + LIP_M
    strokes = [Path("cut", rim.outline_m[:-1], closed=True)]
    strokes += [ring_path("guide", form.buffer(out).exterior) for out in (wall, lip)]
    strokes += [Path("mark", np.array([(0.0, 0.0), (rim.length_m, 0.0)])),
                Path("mark", np.array([(rim.widest_m, -rim.width_m / 2.0),
                                       (rim.widest_m, rim.width_m / 2.0)]))]
    strokes += _words(rim)
    strokes += _frames(rim, boat, rim.width_m / 2.0 + lip + BEYOND_M)
    strokes += _wall_notches(rim, form)
    strokes += _section(rim, (-lip - SECTION_M, 0.0))
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


def _section(rim, at):
    """The rim cut across in front, at full size, the opening on the right; with its dimensions."""
    left, middle = at
    high = rim.wall_m[0]
    deck = middle - 0.5 * high
    yield box("guide", left - WALL_M, deck - rim.below_m, left, deck + high)
    yield box("guide", left - WALL_M - LIP_M, deck + high - LIP_HEIGHT_M, left - WALL_M,
              deck + high)
    yield Path("guide", np.array([(left - 2.2 * (WALL_M + LIP_M), deck), (left - WALL_M, deck)]))
    words = (f"section in front, mm: wall {WALL_M * MM_PER_M:g} thick,",
             f"{high * MM_PER_M:.0f} over the deck, {rim.below_m * MM_PER_M:.0f} under it;",
             f"lip {LIP_M * MM_PER_M:g} out, {LIP_HEIGHT_M * MM_PER_M:g} high")
    for row, text in enumerate(words):
        yield Text("guide", (left - 0.5 * LETTER_WIDTH * SMALL_M * len(text),
                             deck - rim.below_m - (2.0 + 1.6 * row) * SMALL_M), SMALL_M, text)


def _words(rim):
    middle = rim.length_m / 2.0
    above = 2.0 * LETTERS_M
    yield Text("text", (NAME_SHARE * rim.length_m, above), LETTERS_M, "COAMING FORM")
    yield Text("text", (BOW_SHARE * rim.length_m, above), LETTERS_M, "BOW")
    yield Text("text", (middle, rim.width_m / 2.0 - 4.0 * LETTERS_M), LETTERS_M, "S")
    yield Text("text", (middle, 4.0 * LETTERS_M - rim.width_m / 2.0), LETTERS_M, "P")
    yield Text("text", (rim.widest_m + 0.5 * LETTER_WIDTH * SMALL_M * 9, -2.0 * SMALL_M), SMALL_M,
               "widest")


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
           "inside of the wall. Dashed: outside of the wall, outside of the lip, frames' faces.")
    for one in rim.strips:
        yield (f"{one.name.capitalize()}: {one.count} strips {one.width_m * MM_PER_M:.0f} x "
               f"{one.thickness_m * MM_PER_M:g} mm, {one.length_m * MM_PER_M:.0f} mm long, ends "
               "feathered over each other, joints staggered.")
    yield (f"Laminated, never steamed: bend the strips cold round the form, spread glue between "
           "them, clamp every 80 mm and leave it on the form until the glue has cured. Tightest "
           f"bend: radius {rim.tightest_m * MM_PER_M:.0f} mm, {rim.ratio:.0f} times a strip's "
           f"thickness: {rim.verdict}. Form: this outline, sawn square from layers of board as "
           f"high as the wall, {rim.strips[0].width_m * MM_PER_M:.0f} mm, its edge waxed.")
    yield (f"The wall stands {rim.wall_m[0] * MM_PER_M:.0f} mm over the deck line in front and "
           f"{rim.wall_m[1] * MM_PER_M:.0f} mm behind, and {rim.below_m * MM_PER_M:.0f} mm under "
           "it between its notches. Notches in its lower edge, up to the deck line, over: "
           + "; ".join(f"{one.over}, middle {one.round_m * MM_PER_M:.0f} mm round the inside from "
                       f"the front's centre, {one.wide_m * MM_PER_M:.0f} mm wide"
                       for one in rim.notches)
           + ". A frame's notch is on both sides. Mark them in the dry fit, then saw.")
    room = [one * MM_PER_M for one in under_lip_m(rim.wall_m)]
    yield (f"Fastening: bore the wall's {RIM_HOLES}, and lash it down round the arm or the ridge "
           "it stands on. The skin goes up the wall's outside to the lip and is sewn through "
           f"{SEWING_HOLES}. Under the lip are {room[0]:.0f} mm in front, "
           f"{room[1]:.0f} behind: try the spray deck before it is glued. Common practice, no "
           "source; figures our judgement.")
