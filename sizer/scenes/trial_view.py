"""The steadiness trial, drawn: the boat across, heeled by a weight a known distance off its centre.
"""

from functools import partial

import numpy as np

from sizer.drawing.marks import (
    NARROW,
    WIDE,
    box,
    dimension,
    heeled,
    line,
    paper_round,
    picture,
    words,
)
from sizer.drawing.record import Path
from sizer.hull.sections import half_section_at

HEEL_DEG = 4.0  # drawn, so that it shows; our drawing
WEIGHT_M = 0.05  # side of the weight as drawn


def trial_view(boat, level_m, at, side, text, narrow=False):
    """The picture of one reading at a TrialPlace: the water so high over the baseline, upright, the
    weight to a side, 1 starboard, -1 port; `text` writes metres."""
    (y, z), = np.stack(half_section_at(boat.sections, np.array([at.x_m])), axis=1)
    half = np.column_stack([y, z])
    hull = np.concatenate([half[::-1] * (-1.0, 1.0), half[1:]])
    deck_z, top_z = at.height_m, float(half[-1, 1])
    weight = np.array([(-0.5, 0.0), (0.5, 0.0), (0.5, 1.0), (-0.5, 1.0)]) * WEIGHT_M
    over = partial(heeled, heel_deg=side * HEEL_DEG, about=np.array([0.0, level_m]))
    wide = 1.15 * float(half[:, 0].max())
    top = max(deck_z + WEIGHT_M, top_z)
    paper = paper_round((-wide, 0.0, wide, top), NARROW if narrow else 0.55 * WIDE, 12.0, 60.0,
                        30.0)
    unit = paper.unit_m
    place = side * at.off_centre_m
    high = top + 14.0 * unit
    ends = over([(0.0, high), (place, high)])
    foot = over([(0.0, 0.0), (place, deck_z + WEIGHT_M)])
    middle = 0.5 * (ends[0] + ends[1])
    strokes = [box("water", -wide, 0.0, wide, level_m),
               line("waterline", (-wide, level_m), (wide, level_m)),
               Path("ink", over(hull)), line("centre", foot[0], ends[0]),
               line("extension", foot[1], ends[1]),
               Path("block", over(weight + np.array([place, deck_z])), closed=True),
               line("edge", *over([(-0.08, top_z), (0.08, top_z)])),
               *dimension(ends[0], ends[1], unit, text(at.off_centre_m),
                          (middle[0], middle[1] + 8.0 * unit), rim=True),
               words((0.0, -18.0 * unit), "bar: phone on the lath across the rim", unit)]
    name = "starboard" if side > 0 else "port"
    return picture("Steadiness trial", f"A weight {text(at.off_centre_m)} to {name} of the centre "
                   f"line, on the deck at {at.frame}, heels the boat; a level across the rim shows "
                   "by how much.",
                   [paper.on_paper(strokes)])
