"""The lines plan: profile over half-breadth plan with every station, and the body plan."""

import numpy as np

from sizer.drawing.hull_lines import side_lines, top_lines, water_z_m
from sizer.drawing.marks import Window, line, size_line, unit_of
from sizer.drawing.measured import both_text_short, label, measured, words_width_m
from sizer.drawing.record import Drawing, Path, joined
from sizer.scenes.hull_views import body_plan

NAMES = 1.2  # room for the frames' names, over the letters' height
COLUMN = 44.0  # of the body plan's names from its edges, mm of picture
BESIDE = 110.0  # of the body plan to its edges, mm of picture


def profile_and_plan(boat, particulars, letters_m):
    """Profile over half-breadth plan, in boat metres: stations, dimensions, the water."""
    upper, lower = _profile(boat, particulars, letters_m), _half_breadths(boat, letters_m)
    return joined("lines", [upper, lower.moved(
        (0.0, upper.box_m[1] - lower.box_m[3]))])


def body_plan_drawing(boat, letters_m):
    """Half-sections at the frames, forward ones on the right, with beam and depth."""
    unit = unit_of(letters_m)
    half, z = 0.5 * boat.beam_m, boat.sections.z_m
    low, top = float(z.min()), float(z.max())
    paper = Window(-half - BESIDE * unit, top + 20.0 * unit, unit,
                   2.0 * (half / unit + BESIDE), (top - low) / unit + 60.0)
    strokes = [*body_plan(boat, paper, COLUMN)]
    foot = low - 5.5 * letters_m
    strokes += measured((-half, foot), (half, foot), letters_m,
                        lambda value: f"beam {both_text_short(value)}", -1.2)
    return Drawing("body plan", tuple(strokes))


def _profile(boat, particulars, letters):
    lines = side_lines(boat)
    long, z = boat.length_m, boat.sections.z_m
    low, top = min(float(z.min()), 0.0), float(boat.opening.rim_z_m.max())
    x = np.array([0.0, long])
    strokes = [
        *(Path("wood", one) for one in lines.sticks), Path("thin", lines.sheer),
        Path("ink", lines.bottom), Path("ink", lines.deck), Path("ink", lines.coaming),
        Path("waterline", np.column_stack([x, water_z_m(boat, particulars, x)])),
        line("centre", (0.0, 0.0), (long, 0.0)),
        label((0.0, -1.0 * letters), "baseline", letters)]
    for frame, at in zip(boat.design.frames, boat.frame_x_m, strict=True):
        strokes += [line("thin", (at, low - letters), (at, top)),
                    label((at, top + NAMES * letters), frame.name, letters, "middle"),
                    label((at, low - 1.6 * letters), both_text_short(at), letters, "end", 90.0)]
    foot = low - 2.6 * letters - max(words_width_m(both_text_short(at), letters)
                                     for at in boat.frame_x_m)
    strokes += measured((0.0, foot), (long, foot), letters,
                        lambda value: f"length {both_text_short(value)}")
    right = long + 1.5 * letters
    keel, sheer = z[:, 0], z[:, boat.sections.sheer]
    strokes += [size_line((right, keel.min()), (right, sheer.min()), unit_of(letters)),
                line("extension", (float(boat.sections.x_m[sheer.argmin()]), sheer.min()),
                     (right, sheer.min()))]
    middle, told = 0.5 * (keel.min() + sheer.min()), both_text_short(sheer.min() - keel.min())
    strokes += [label((right + letters, middle + up * letters), text, letters, pen="size")
                for up, text in ((0.8, "depth"), (-0.8, told))]
    return Drawing("profile", tuple(strokes))


def _half_breadths(boat, letters):
    lines = top_lines(boat)
    upper = lines.coaming[:, 1] >= 0.0
    strokes = [*(Path("wood", one) for one in lines.sticks), Path("ink", lines.sheer),
               Path("ink", lines.coaming[upper]), Path("centre", lines.deck[[0, -1]])]
    half = float(lines.sheer[:, 1].max())
    for frame, at in zip(lines.frames, boat.frame_x_m, strict=True):
        wide = float(frame[:, 1].max())
        strokes += [line("thin", (at, 0.0), (at, half)),
                    label((at, half + 0.7 * letters), both_text_short(wide), letters, "start",
                          90.0)]
    return Drawing("half-breadths", tuple(strokes))
