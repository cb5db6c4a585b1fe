"""The coaming for the sheets: its form in its own plane with clamps, its section, its notches."""

import numpy as np
from shapely.geometry import LineString, Polygon

from sizer.drawing.marks import box, line
from sizer.drawing.measured import both_text_short, label, measured, mm_text
from sizer.drawing.record import Circle, Drawing, Path
from sizer.shop.coaming import LIP_HEIGHT_M, LIP_M, WALL_M
from sizer.shop.sundries import CLAMP_STEP_M

SECTION_LETTERS = 22.0  # of the section's words beside it, over the letters' height


def coaming_form(rim, boat, letters_m):
    """The form from above, the bow on the left: strips round it, clamps, faces, notches."""
    form = Polygon(rim.outline_m[:-1])
    out = WALL_M + LIP_M
    strokes = [Path("cut", rim.outline_m[:-1], closed=True)]
    strokes += [Path("guide", np.asarray(form.buffer(far).exterior.coords)[:-1], closed=True)
                for far in (WALL_M, out)]
    ring = LineString(rim.outline_m)
    for at in np.arange(0.0, ring.length, CLAMP_STEP_M):
        spot = ring.interpolate(at)
        strokes.append(Circle("extension", (spot.x, spot.y), 0.006))
    half = 0.5 * rim.width_m + out
    strokes += _notches(rim, ring, half, letters_m)
    along = np.cos(np.radians(rim.slope_deg))
    for name, x in zip((one.name for one in boat.design.frames), boat.frame_x_m, strict=True):
        place = float(x - boat.opening.front_x_m) / along
        if 0.0 <= place <= rim.length_m:
            strokes += [line("guide", (place, -half), (place, half)),
                        label((place, -half - letters_m),
                              f"{name}'s face, {both_text_short(place)} from the front",
                              letters_m, "middle")]
    low = -half - 3.5 * letters_m
    strokes += measured((0.0, low), (rim.length_m, low), letters_m, both_text_short, -1.2)
    right = rim.length_m + out + 2.0 * letters_m
    strokes += measured((right, -0.5 * rim.width_m), (right, 0.5 * rim.width_m), letters_m,
                        both_text_short, -1.2)
    strokes.append(label((0.5 * rim.length_m, 0.0), "form, true outline of the wall's inside",
                         letters_m, "middle"))
    return Drawing("coaming", tuple(strokes))


def _notches(rim, ring, half, letters):
    """Both ends of every notch across the wall, on both sides, with its place round the inside."""
    for row, notch in enumerate(rim.notches):
        for place in (notch.round_m - 0.5 * notch.wide_m, notch.round_m + 0.5 * notch.wide_m):
            for at in (place % ring.length, -place % ring.length):
                spot = ring.interpolate(at)
                yield Circle("drill", (spot.x, spot.y), 0.4 * letters)
        spot = ring.interpolate(notch.round_m % ring.length)
        up = half + (1.2 + 1.8 * (len(rim.notches) - 1 - row)) * letters
        text = (f"over {notch.over}: {both_text_short(notch.round_m)} round the inside from the "
                f"front, {mm_text(notch.wide_m)} wide, {mm_text(notch.deep_m)} deep")
        yield line("extension", (spot.x, spot.y), (spot.x, up - 0.7 * letters))
        yield label((0.0 if spot.x < 0.5 * rim.length_m else rim.length_m, up), text, letters,
                    "start" if spot.x < 0.5 * rim.length_m else "end")


def coaming_section(rim, letters_m):
    """The wall and lip cut across in front, the opening on the right, the skin and the lashing."""
    high, below = rim.wall_m[0], rim.below_m
    strip = rim.strips[0].thickness_m
    strokes = [box("cut", -WALL_M, -below, 0.0, high),
               box("cut", -WALL_M - LIP_M, high - LIP_HEIGHT_M, -WALL_M, high)]
    strokes += [line("extension", (-step * strip, -below), (-step * strip, high))
                for step in range(1, rim.strips[0].count)]
    skin = np.array([(-3.2 * (WALL_M + LIP_M), -0.004), (-WALL_M - 0.003, 0.0),
                     (-WALL_M - 0.001, high - LIP_HEIGHT_M - 0.002)])
    strokes += [Path("here", skin), line("guide", (skin[0, 0], 0.0), (0.02, 0.0)),
                Circle("drill", (-0.5 * WALL_M, high - LIP_HEIGHT_M - 0.008), 0.0012),
                Circle("drill", (-0.5 * WALL_M, -0.008), 0.0016)]
    strokes += measured((-WALL_M - LIP_M, high + letters_m), (-WALL_M, high + letters_m),
                        letters_m)
    strokes += measured((-WALL_M, high + 3.2 * letters_m), (0.0, high + 3.2 * letters_m),
                        letters_m)
    right = 2.0 * letters_m
    strokes += measured((right, 0.0), (right, high), letters_m, both_text_short, -4.6)
    strokes += measured((right, -below), (right, 0.0), letters_m, both_text_short, -4.6)
    told = (("sewing holes, 8 mm under the lip, 25 mm apart", high - LIP_HEIGHT_M - 0.008),
            ("deck's line", 0.0), ("lashing holes 3.2 mm, 8 mm under it", -0.008))
    left = skin[0, 0] - letters_m
    for row, (text, z) in enumerate(told):
        up = z + (1 - row) * 1.2 * letters_m
        strokes += [label((left, up), text, letters_m, "end"),
                    line("extension", (left + 0.3 * letters_m, up), (-0.5 * WALL_M, z))]
    strokes.append(label((left, -below - 0.8 * letters_m), "heavy: the skin, up to the lip",
                         letters_m, "end"))
    return Drawing("section", tuple(strokes))
