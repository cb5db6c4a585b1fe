"""The coaming for the sheets: its form in its own plane with clamps, its section, its notches."""

import numpy as np
from shapely.geometry import LineString, Polygon

from sizer.drawing.marks import box, line, size_line, unit_of
from sizer.drawing.measured import both_text_short, label, measured
from sizer.drawing.record import Circle, Drawing, Path
from sizer.drawing.told import Told, in_mm, in_tenths, size, told
from sizer.shop.coaming import (
    CLAMP_HOLE_M,
    LIP_HEIGHT_M,
    LIP_M,
    RIM_HOLE_UNDER_M,
    SEWING_HOLE_M,
    SEWING_STEP_M,
    SEWN,
    WALL_M,
    under_lip_m,
)
from sizer.shop.coaming_drawing import clamp_hole_in_m, clamp_holes_m
from sizer.shop.lashing import HOLE_M
from sizer.shop.shapes import ring_path
from sizer.shop.trade_sizes import section_told

LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


def coaming_form(rim, boat, letters_m):
    """The form from above, the bow on the left: strips round it, clamps, faces, notches."""
    form = Polygon(rim.outline_m[:-1])
    out = WALL_M + LIP_M
    strokes = [Path("cut", rim.outline_m[:-1], closed=True)]
    strokes += [ring_path("guide", form.buffer(far).exterior) for far in (WALL_M, out)]
    ring = LineString(rim.outline_m)
    strokes += [Circle("extension", spot, 0.5 * CLAMP_HOLE_M) for spot in clamp_holes_m(ring)]
    half = 0.5 * rim.width_m + out
    along = np.cos(np.radians(rim.slope_deg))
    places = (boat.frame_x_m - boat.opening.front_x_m) / along
    faces = {one.name: float(place) for one, place in zip(boat.design.frames, places, strict=True)
             if 0.0 <= place <= rim.length_m}
    strokes += _notches(rim, ring, faces, letters_m)
    for name, place in faces.items():
        strokes += [line("guide", (place, -half), (place, half)),
                    label((place, -half - letters_m),
                          f"{name}'s face at {both_text_short(place)}", letters_m, "middle")]
    low = -half - 3.5 * letters_m
    strokes += measured((0.0, low), (rim.length_m, low), letters_m, both_text_short, -1.2)
    right = rim.length_m + out + 2.0 * letters_m
    strokes += measured((right, -0.5 * rim.width_m), (right, 0.5 * rim.width_m), letters_m,
                        both_text_short, -1.2)
    strokes.append(label((0.68 * rim.length_m, 0.0), "form", letters_m, "middle"))
    return Drawing("coaming", tuple(strokes))


def _notches(rim, ring, faces, letters):
    """Both ends of every notch across the wall, on both sides, and its letter inside of the clamps'
    holes, off its frame's face."""
    centre = np.array([0.5 * rim.length_m, 0.0])
    for letter, notch in zip(LETTERS, rim.notches, strict=False):
        for place in (notch.round_m - 0.5 * notch.wide_m, notch.round_m + 0.5 * notch.wide_m):
            for at in (place % ring.length, -place % ring.length):
                spot = ring.interpolate(at)
                yield Circle("drill", (spot.x, spot.y), 0.3 * letters)
        one = np.array(ring.interpolate(notch.round_m % ring.length).coords[0])
        central = abs(one[1]) < 1e-3
        for spot in ([one] if central else [one, one * (1.0, -1.0)]):
            inward = (centre - spot) / np.hypot(*(centre - spot))
            at = spot + (clamp_hole_in_m() + 0.5 * CLAMP_HOLE_M + 2.0 * letters) * inward
            face = faces.get(notch.over, -np.inf)
            at[0] = max(at[0], face + letters) if at[0] > face else min(at[0], face - letters)
            yield label(at, letter, 1.2 * letters, "middle")


def notch_words(rim):
    for letter, notch in zip(LETTERS, rim.notches, strict=False):
        yield told(f"{letter} over {notch.over}: middle {both_text_short(notch.round_m)} round the "
                   "inside from the front's centre line, {} wide, {} deep", in_mm(notch.wide_m),
                   in_mm(notch.deep_m))


def _of_strips(value_m):
    """What strips add up to, as their thickness is told."""
    return Told(in_mm(value_m), section_told(value_m).inches)


def coaming_section(rim, letters_m):
    """The wall and lip cut across in front, the opening on the right, the skin and the lashing."""
    high, below = rim.wall_m[0], rim.below_m
    sewn = 0.5 * under_lip_m(rim.wall_m)[0]
    strip = rim.strips[0].thickness_m
    strokes = [box("cut", -WALL_M, -below, 0.0, high),
               box("cut", -WALL_M - LIP_M, high - LIP_HEIGHT_M, -WALL_M, high)]
    strokes += [line("extension", (-step * strip, -below), (-step * strip, high))
                for step in range(1, rim.strips[0].count)]
    skin = np.array([(-3.2 * (WALL_M + LIP_M), -0.004), (-WALL_M - 0.003, 0.0),
                     (-WALL_M - 0.001, high - LIP_HEIGHT_M - 0.002)])
    strokes += [Path("here", skin), line("guide", (skin[0, 0], 0.0), (0.02, 0.0)),
                Circle("drill", (-0.5 * WALL_M, sewn), 0.5 * SEWING_HOLE_M),
                Circle("drill", (-0.5 * WALL_M, -RIM_HOLE_UNDER_M), 0.5 * HOLE_M)]
    top, right = high + letters_m, 2.0 * letters_m
    strokes += measured((-WALL_M - LIP_M, top), (-WALL_M, top), letters_m, _of_strips)
    strokes += measured((-WALL_M, top + 2.4 * letters_m), (0.0, top + 2.4 * letters_m), letters_m,
                        _of_strips)
    for low, up in ((0.0, high), (-below, 0.0)):
        strokes += [size_line((right, low), (right, up), unit_of(letters_m)),
                    label((right + letters_m, 0.5 * (low + up)), Told(
                      both_text_short(up - low), in_mm(up - low).inches), letters_m)]
    strokes += [size_line((-WALL_M - LIP_M - letters_m, high - LIP_HEIGHT_M),
                          (-WALL_M - LIP_M - letters_m, high), unit_of(letters_m)),
                label((-WALL_M - LIP_M - 2.0 * letters_m, high - 0.5 * LIP_HEIGHT_M),
                      both_text_short(LIP_HEIGHT_M), letters_m, "end")]
    rows = ((told("sewing holes {}, {}, {} apart", size(SEWING_HOLE_M, form=in_tenths), SEWN,
                  size(SEWING_STEP_M)), sewn), ("deck's line", 0.0),
            (told("lashing holes {}, {} under it", size(HOLE_M, form=in_tenths),
                  size(RIM_HOLE_UNDER_M)), -RIM_HOLE_UNDER_M))
    left = skin[0, 0] - letters_m
    for row, (text, z) in enumerate(rows):
        up = z + (1 - row) * 1.2 * letters_m
        strokes += [label((left, up), text, letters_m, "end"),
                    line("extension", (left + 0.3 * letters_m, up), (-0.5 * WALL_M, z))]
    strokes.append(label((left, -below - 0.8 * letters_m), "heavy: the skin, up to the lip",
                         letters_m, "end"))
    return Drawing("section", tuple(strokes))
