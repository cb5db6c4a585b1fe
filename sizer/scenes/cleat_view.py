"""The cleats ahead of the footbrace's after frame: across the boat, and from above."""

import numpy as np
from shapely.geometry import Point

from sizer.drawing.marks import box, line
from sizer.drawing.measured import label, measured
from sizer.drawing.record import Circle, Drawing, Path, joined
from sizer.drawing.told import size, told
from sizer.shop.lashing import HOLE_M
from sizer.shop.shapes import ring_path

AROUND_M = 0.055  # of the frame's plywood round a cleat's middle; our drawing
STICK_M = 0.030  # of the stick past the cleat and past the frame; our drawing


def cleat_view(bench, letters_m):
    """A cleat to starboard at its frame, from astern, and the same from above, bow on the left."""
    across, above = _across(bench, letters_m), _from_above(bench, letters_m)
    right = across.box_m[2] - above.box_m[0] + 2.0 * letters_m
    middle = 0.5 * (across.box_m[1] + across.box_m[3] - above.box_m[1] - above.box_m[3])
    return joined("cleat", [across, above.moved((right, middle))])


def _across(bench, letters):
    cleats = bench.cleats
    pattern = next(one for one in bench.frames if one.name == cleats.frame)
    _, *middle = cleats.middle_m
    near = Point(middle).buffer(AROUND_M)
    wood = pattern.wood.intersection(near)
    strokes = [ring_path("guide", one.exterior) for one in getattr(wood, "geoms", [wood])]
    strokes += [Circle("drill", spot, 0.5 * HOLE_M) for name, spot in pattern.holes
                if name == cleats.stick and near.contains(Point(spot))]
    strokes += [Path("cut", cleats.stick_m, closed=True),
                Path("block", cleats.section_m, closed=True)]
    left, low, right, high = near.bounds
    for text, spot, up in ((cleats.stick, cleats.stick_m.mean(axis=0), 1.0), (
            "cleat", cleats.section_m.mean(axis=0), -0.6),
            (f"{cleats.frame}, its window on the left", (left + 0.3 * AROUND_M, low), -2.2)):
        at = right + letters, 0.5 * (low + high) + 1.6 * up * letters
        strokes.append(label(at, text, letters))
        if not text.startswith(cleats.frame):
            strokes.append(line("extension", spot, (at[0] - 0.4 * letters, at[1])))
    corner, far = cleats.stick_m[0], cleats.section_m[0]
    away = -1.6 * letters * np.array(_unit(cleats.section_m[3] - cleats.section_m[0])) * -1.0
    strokes += [line("extension", spot, spot + 1.2 * away) for spot in (corner, far)]
    return Drawing("across", tuple(strokes))


def _unit(run):
    return run / np.hypot(*run)


def _from_above(bench, letters):
    cleats = bench.cleats
    thick, long, _ = cleats.size_m
    wood = next(one.thickness_m for one in bench.frames if one.name == cleats.frame)
    deep = float(np.linalg.norm(cleats.stick_m[2] - cleats.stick_m[1]))
    strokes = [box("cut", -long - STICK_M, 0.0, wood + STICK_M, deep),
               box("block", -long, -thick, 0.0, 0.0),
               box("guide", 0.0, -2.5 * thick, wood, 0.6 * deep)]
    low = -thick - 1.2 * letters
    strokes += measured((-long, low), (0.0, low), letters, beside=-1.2)
    strokes += measured((-long - 0.8 * letters, -thick), (-long - 0.8 * letters, 0.0), letters,
                        lambda value: told("{} thick", size(value)), beside=1.2)
    strokes += [label((wood + letters, -1.8 * thick), cleats.frame, letters),
                label((-0.5 * long, 0.5 * deep), cleats.stick, letters, "middle")]
    return Drawing("above", tuple(strokes))
