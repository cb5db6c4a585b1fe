"""A stem piece as a drawing: saw line, holes, landings, waterline, words, the keel beside it."""

from collections import Counter

import numpy as np
from shapely import LineString, Polygon, contains_xy

from sizer.drawing.leaders import with_leaders
from sizer.drawing.record import LETTER_WIDTH, Drawing, Path, Text
from sizer.drawing.told import in_full, in_mm, size, told
from sizer.shop.labels import on_wood, up_arrow, written
from sizer.shop.lashing import HOLE_WORDS
from sizer.shop.shapes import largest, line_pieces, ring_path
from sizer.shop.stem_sticks import inside_of
from sizer.shop.trade_sizes import section_told, sold_told, truly_told

SMALL_M = 0.004  # letters beside the wood; our drawing
RIDGE_M = 0.040  # of the ridge drawn behind its lap; our drawing
GAP_M = 0.010  # between the wood and words beside it; our drawing
SPOT_STEP_M = 0.012  # of the grid of places tried for words
TURNS_DEG = (0.0, -45.0, -60.0, -30.0, -75.0)  # of words, tried in order; the stem leans so


def stem_drawing(pattern):
    """The Drawing of a StemPattern, the boat's end on the left."""
    lines = [*(landing.line_m for landing in pattern.landings),
             *([] if pattern.water_m is None else [pattern.water_m])]
    strokes, free = on_wood(pattern.wood, lines, [spot for _, spot in pattern.holes])
    return Drawing(pattern.name,
                   (*strokes, *_words(pattern, free), *with_leaders(_beside(pattern))),
                   tuple(_notes(pattern)))


def _words(pattern, free):
    left, low, right, high = pattern.wood.bounds
    across, up = (one.ravel() for one in np.meshgrid(
        np.arange(left, right, SPOT_STEP_M), np.arange(low, high, SPOT_STEP_M)))
    on_it = contains_xy(pattern.wood, across, up)
    places = np.column_stack([across, up])[on_it].tolist()
    spots = [(tuple(place), turn) for turn in TURNS_DEG for place in places]
    texts, free, _ = written(
        free, (pattern.name, sold_told(pattern.thickness_m)), spots)
    return [*texts, *up_arrow(free, spots)[0]]


def _beside(pattern):
    """What meets the stem: names of the landings left of it, sticks over it, keel and ridge."""
    for landing in pattern.landings:
        (right, up), word = landing.line_m[0], landing.stringer
        marked = min(line_pieces(pattern.wood.intersection(LineString(landing.line_m))),
                     key=lambda one: one[0, 0], default=None)
        yield Text("guide", (float(right) - GAP_M - 0.5 * LETTER_WIDTH * SMALL_M * len(word),
                             float(up)), SMALL_M, word,
                   of_m=None if marked is None else tuple(marked[0].tolist()))
    for one in pattern.beside:
        yield ring_path("stick", one.band().exterior)
    yield Path("guide", pattern.profile_m)
    yield from _keel(pattern)
    if pattern.ridge_lap:
        yield from _ridge(pattern)
    if pattern.water_m is not None:
        end = pattern.water_m[-1] + (GAP_M, 0.0)
        yield Path("guide", np.array([pattern.water_m[-1], end]))
        yield Text("guide", (float(end[0]) + 0.013, float(end[1])), SMALL_M, "water",
                   of_m=tuple(end.tolist()))


def _keel(pattern):
    """The keel's end from the side and, under it, from below with its taper."""
    keel, end = pattern.keel_m, pattern.keel_end
    along = (keel[1] - keel[0]) / np.hypot(*(keel[1] - keel[0]))
    upward = pattern.keel_depth_m * np.array([-along[1], along[0]])
    yield Path("guide", np.concatenate([(keel[0] + upward)[None], keel, (keel[-1] + upward)[None]]))
    yield Text("guide", tuple((keel[len(keel) // 2] - (0.0, GAP_M)).tolist()), SMALL_M,
               "keel's moulded line")
    left, right = float(keel[0, 0]), float(keel[-1, 0])
    middle = float(pattern.wood.bounds[1]) - 2.5 * GAP_M - 0.5 * end.width_m
    half, tip, whole = 0.5 * end.width_m, 0.5 * end.end_width_m, left + end.taper_m
    yield Path("guide", np.array([(right, middle + half), (whole, middle + half),
                                  (left, middle + tip), (left, middle - tip),
                                  (whole, middle - half), (right, middle - half)]))
    yield Text("guide", (0.5 * (left + right), middle), SMALL_M, "keel's end from below")


def _ridge(pattern):
    """The ridge's lap over the head, from the side, its end cut to the rake."""
    lap = pattern.ridge_lap
    line = lap.line_m[lap.line_m[:, 0] <= lap.length_m + RIDGE_M]
    over = line[line[:, 0] <= lap.flat_m] - (0.0, lap.left_m)
    behind = line[line[:, 0] >= lap.length_m] - (0.0, lap.depth_m)
    whole = Polygon(np.concatenate([over, behind, line[::-1]]))
    cut = largest(whole.intersection(inside_of(pattern.profile_m)))
    yield ring_path("stick", cut.exterior)
    yield Text("guide", (0.5 * lap.length_m, float(line[:, 1].max()) + GAP_M), SMALL_M,
               "ridge, lapped over the head",
               of_m=(0.5 * lap.length_m, float(over[:, 1].mean()) + 0.5 * lap.left_m))


def _notes(pattern):
    yield told("{}: {}, seen from the side with the {} on the left; the left edge is the moulded "
               "profile, inside the skin.", pattern.name, truly_told(pattern.thickness_m),
               pattern.end)
    yield told("The step below is the bird's mouth: it takes the keel's square-cut end, {} deep, "
               "and the tail lies on the keel. {}", size(pattern.keel_depth_m, form=in_mm),
               _taper(pattern.keel_end))
    if pattern.ridge_lap:
        yield _lap(pattern.ridge_lap)
    yield ("Lines marked inboard of the profile are the stringers that land there: moulded lines. "
           "Dashed: the sticks on the stem's sides, each end fair with its edge; it bears from "
           "there as far back as its card tells the bevel.")
    yield (f"{HOLE_WORDS}, beside the sticks. Each lashing takes both sides: "
           + "; ".join(f"{said}{f', {count} times' * (count > 1)}" for said, count in Counter(
               map(_tied, pattern.lashings)).items()) + ".")


def _taper(end):
    if not end.taper_m:
        return told("Keel {} wide: no taper, it is no wider than the stem.", size(end.width_m))
    return told("Taper the keel's end on both sides from {} to {} over the last {}, {:.1f} degrees "
                "a side.", section_told(end.width_m), section_told(end.end_width_m),
                size(end.taper_m, form=in_mm), end.bevel_deg)


def _lap(lap):
    narrower = told(" Plane its sides there from {} to {}.", in_full(lap.width_m), size(
        lap.end_width_m)) if lap.end_width_m < lap.width_m else ""
    return told("The ridge is lapped over the head: over the last {}, from its finished end's "
                "upper corner, cut its underside away until {} of {} are left, from there aslant, "
                "along the stem's inner edge, to its whole depth {} from the same corner, and its "
                "end to the rake.{}", size(lap.flat_m, form=in_mm), in_full(lap.left_m),
                size(lap.depth_m), size(lap.length_m, form=in_mm), narrower)


def _tied(lashing):
    """A lashing in words: its sticks, and how the cord goes."""
    names = " and ".join(lashing.sticks)
    return f"{names} through {'two holes' if len(lashing.holes) == 2 else 'one hole'}"
