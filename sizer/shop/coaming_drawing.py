"""The coaming as a drawing at full size, in its own sloped plane, the bow on the left.

The saw line is the inside of the wall: a form cut to it takes the strips bent round it. Seen from
above, starboard so is up.
"""

import numpy as np
from shapely.geometry import Polygon

from sizer.drawing.record import LETTER_WIDTH, Drawing, Path, Text
from sizer.shop.coaming import LIP_STRIPS, STRIP_M, WALL_STRIPS
from sizer.units import MM_PER_M

NAME = "coaming"
LETTERS_M = 0.008  # of words on the form; our drawing
SMALL_M = 0.004  # of words beside it; our drawing
BOW_SHARE, NAME_SHARE = 0.14, 0.34  # of the length: where words stand; our drawing
BEYOND_M = 0.012  # of guide lines past the lip; our drawing


def coaming_drawing(rim, boat):
    """The Drawing of a boat's Coaming."""
    form = Polygon(rim.outline_m[:-1])
    wall = WALL_STRIPS * STRIP_M
    lip = wall + LIP_STRIPS * STRIP_M
    strokes = [Path("cut", rim.outline_m[:-1], closed=True)]
    strokes += [Path("guide", np.asarray(form.buffer(out).exterior.coords)[:-1], closed=True)
                for out in (wall, lip)]
    strokes += [Path("mark", np.array([(0.0, 0.0), (rim.length_m, 0.0)])),
                Path("mark", np.array([(rim.widest_m, -rim.width_m / 2.0),
                                       (rim.widest_m, rim.width_m / 2.0)]))]
    strokes += _words(rim)
    strokes += _frames(rim, boat, rim.width_m / 2.0 + lip + BEYOND_M)
    return Drawing(NAME, tuple(strokes), tuple(_notes(rim)))


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
    yield (f"The wall stands {rim.wall_m[0] * MM_PER_M:.0f} mm over the deck line in front and "
           f"{rim.wall_m[1] * MM_PER_M:.0f} mm behind. Tightest bend of a strip: radius "
           f"{rim.tightest_m * MM_PER_M:.0f} mm, {rim.ratio:.0f} times its thickness: "
           f"{rim.verdict}.")
