"""A stem piece as a drawing: saw line, holes, landings, waterline, words, the keel beside it."""

import numpy as np
from shapely.geometry import Point

from sizer.drawing.record import LETTER_WIDTH, Drawing, Path, Text
from sizer.shop.labels import on_wood, up_arrow, written
from sizer.shop.lashing import COUNTERSINK_M, HOLE_M
from sizer.units import MM_PER_M

SMALL_M = 0.004  # letters beside the wood; our drawing
GAP_M = 0.010  # between the wood and words beside it; our drawing
SPOT_STEP_M = 0.012  # of the grid of places tried for words
TURNS_DEG = (0.0, -45.0, -60.0, -30.0, -75.0)  # of words, tried in order; the stem leans so


def stem_drawing(pattern):
    """The Drawing of a StemPattern, the boat's end on the left."""
    lines = [*(landing.line_m for landing in pattern.landings),
             *([] if pattern.water_m is None else [pattern.water_m])]
    strokes, free = on_wood(pattern.wood, lines, [spot for _, spot in pattern.holes])
    return Drawing(pattern.name, (*strokes, *_words(pattern, free), *_beside(pattern)),
                   tuple(_notes(pattern)))


def _words(pattern, free):
    left, low, right, high = pattern.wood.bounds
    spots = [((float(across), float(up)), turn) for turn in TURNS_DEG
             for up in np.arange(low, high, SPOT_STEP_M)
             for across in np.arange(left, right, SPOT_STEP_M)
             if pattern.wood.contains(Point(across, up))]
    texts, free, _ = written(
        free, (pattern.name, f"{pattern.thickness_m * MM_PER_M:.0f} mm"), spots)
    return [*texts, *up_arrow(free, spots)[0]]


def _beside(pattern):
    """Names of the landings left of the stem, and the keel's end."""
    for landing in pattern.landings:
        right, up = landing.line_m[0]
        word = landing.stringer
        yield Text("guide", (float(right) - GAP_M - 0.5 * LETTER_WIDTH * SMALL_M * len(word),
                             float(up)), SMALL_M, word)
    keel = pattern.keel_m
    along = (keel[1] - keel[0]) / np.hypot(*(keel[1] - keel[0]))
    upward = pattern.keel_depth_m * np.array([-along[1], along[0]])
    yield Path("guide", np.concatenate([(keel[0] + upward)[None], keel]))
    yield Text("guide", tuple((keel[len(keel) // 2] - (0.0, GAP_M)).tolist()), SMALL_M,
               "keel's moulded line")
    yield Path("guide", pattern.profile_m)
    if pattern.water_m is not None:
        end = pattern.water_m[-1] + (GAP_M, 0.0)
        yield Path("guide", np.array([pattern.water_m[-1], end]))
        yield Text("guide", (float(end[0]) + 0.013, float(end[1])), SMALL_M, "water")


def _notes(pattern):
    yield (f"{pattern.name}: {pattern.thickness_m * MM_PER_M:.0f} mm, seen from the side with the "
           f"{pattern.end} on the left; the left edge is the moulded profile, inside the skin.")
    yield (f"The step below is the bird's mouth: it takes the keel's square-cut end, "
           f"{pattern.keel_depth_m * MM_PER_M:.0f} mm deep, and the tail lies on the keel. The "
           "ridge lies on the head, its end cut to the rake.")
    yield "Lines marked inboard of the profile are the stringers that land there: moulded lines."
    yield (f"Lashing holes {HOLE_M * MM_PER_M:g} mm (1/8 in), lightly countersunk on both faces to "
           f"{COUNTERSINK_M * MM_PER_M:g} mm.")
