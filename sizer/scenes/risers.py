"""Every frame on its riser, seen on its reference face, heights over the strongback's top."""

from dataclasses import replace

import numpy as np
from shapely.affinity import scale

from sizer.drawing.marks import box, line
from sizer.drawing.record import Drawing, Path, Text, in_rows
from sizer.drawing.told import READERS, in_mm, size, told
from sizer.scenes.stem_post import stay_drawing
from sizer.shop.risers import (
    CHEEK_SCREW_MM,
    FOOT_M,
    FOOT_SCREW_MM,
    LEDGE_M,
    LEDGE_SCREW_MM,
    LEG_M,
    THICK_M,
)
from sizer.units import MM_PER_M

IN_A_ROW = {"mm": (6,), "in": (6, 5, 4)}  # tried, by what their reader measures in
ROW = 1.7  # letters' heights from words to those under them, at least; our drawing
SCREWS_UP_M = (0.013, 0.032)  # of a joint, over the lower edge of foot or bar; our drawing


def risers_drawing(bench, baseline_m, unit, in_a_row, letters_m):
    """The Drawing of a Bench's risers, so many in a row from the bow, with room for their words
    as a reader reads them; the baseline stands so high over the strongback's top."""
    views = _views(bench, baseline_m, unit, letters_m)
    return in_rows("risers", views, in_a_row, 2.0 * letters_m, letters_m)


def risers_and_stay_drawing(bench, baseline_m, unit, in_a_row, letters_m):
    """The same, and last the laths that stay the bow stem."""
    views = [*_views(bench, baseline_m, unit, letters_m), stay_drawing(bench, letters_m).read(unit)]
    return in_rows("risers", views, in_a_row, 2.0 * letters_m, letters_m)


def _views(bench, baseline_m, unit, letters_m):
    return [_view(riser, pattern, baseline_m, unit, letters_m).read(unit)
             for riser, pattern in zip(bench.marks.risers, bench.frames, strict=True)]


def _view(riser, pattern, baseline, unit, letters):
    wood = np.asarray(scale(pattern.wood, pattern.right_sign, origin=(0.0, 0.0)).exterior.coords)
    strokes = [Path("guide", wood[:-1, :2] + (0.0, baseline), closed=True)]
    half = 0.5 * riser.foot_m
    strokes += [box("mark", -half, 0.0, half, FOOT_M[1]), line("cut", (-half, 0.0), (half, 0.0))]
    for side in (1.0, -1.0):
        inner, outer = side * riser.inner_m, side * riser.outer_m
        strokes.append(box("cut", inner, riser.low_m, outer, riser.height_m))
        if riser.ledge_m:
            (near, far), low = riser.ledge_m, min(riser.ledge_m) - LEDGE_M
            strokes.append(Path("mark", np.array([(inner, low), (outer, low), (outer, far),
                                                  (inner, near)]), closed=True))
        else:
            leg = side * riser.leg_m
            strokes.append(box("cut", leg, 0.0, leg + side * LEG_M, riser.height_m))
    rows = [f"{riser.frame}: {riser.kind}", told("top {}", in_mm(riser.height_m)),
            told("{} to {} out", in_mm(riser.inner_m), in_mm(riser.outer_m))]
    if riser.leg_m is not None:
        wood = told("plywood {}", in_mm(riser.wood_top_m))
        rows[1:2] = [told("{}, {}", rows[1], wood)] if unit == READERS[0] else [rows[1], wood]
        strokes.append(box("mark", -half, riser.bar_m[0], half, riser.bar_m[1]))
        rows += [told("legs {} to {}", in_mm(riser.leg_m), in_mm(riser.leg_m + LEG_M)),
                 told("bar {} long", in_mm(riser.foot_m))]
    strokes += [Text("text", (0.0, -1.5 * letters * (row + 1)), letters, text)
                for row, text in enumerate(rows)]
    return Drawing(riser.frame, tuple(strokes))


def riser_side(riser, thickness_m, letters_m):
    """The Drawing of a forked Riser from the side with its screws, the bow on the left."""
    under, top = min(riser.ledge_m), riser.height_m
    behind = -THICK_M - FOOT_M[0]
    strokes = [
        line("cut", (behind - 0.03, 0.0), (0.06, 0.0)),
        box("cut", -THICK_M, riser.low_m, 0.0, top), box("cut", behind, 0.0, -THICK_M, FOOT_M[1]),
        box("cut", 0.0, under - LEDGE_M, THICK_M, under),
        box("block", 0.0, under, thickness_m, top + 0.02),
        line("centre", (0.0, -0.02), (0.0, top + 0.03))]
    strokes += _joint(0.0)
    strokes += [_screw((at, FOOT_M[1]), (0.0, -1.0), FOOT_SCREW_MM)
                for at in (behind + 0.012, -THICK_M - 0.012)]
    strokes += [_screw((THICK_M, under - share * LEDGE_M), (-1.0, 0.0), LEDGE_SCREW_MM)
                for share in (0.3, 0.7)]
    ledge = min(under - 0.2 * LEDGE_M, top + 0.01 - 5.1 * letters_m)
    foot = min(0.022, ledge - ROW * letters_m)
    strokes += _told(0.06, letters_m, (
        ((thickness_m, top + 0.01), top + 0.01, "plywood, on the ledge, clamped"),
        ((0.0, top - 0.005), top + 0.01 - 1.7 * letters_m, "mark and reference face"),
        ((-0.5 * THICK_M, under + 0.008), top + 0.01 - 3.4 * letters_m,
         told("cheek {}, top {} over the strongback", size(THICK_M), in_mm(top))),
        ((THICK_M, under - 0.1 * LEDGE_M), ledge, "ledge, two screws a cheek"),
        ((-THICK_M - 0.002, 0.022), foot, "foot: two screws to each cheek, two down"),
        ((0.05, 0.0), foot - ROW * letters_m, "strongback's top")))
    return _bow_left(riser, strokes)


def hung_side(riser, thickness_m, letters_m):
    """The Drawing of a hung Riser's upper part from the side with its screws, the plywood so
    thick, the bow on the left; a leg goes on down from the hangers' plane."""
    behind, (under, top) = -THICK_M - FOOT_M[0], riser.bar_m
    low, high = riser.low_m, riser.wood_top_m
    strokes = [
        box("cut", -THICK_M, low, 0.0, top), box("cut", behind, under, -THICK_M, top),
        box("block", 0.0, low - 0.02, thickness_m, high),
        box("guide", -THICK_M, low - 0.04, 0.0, low),
        line("centre", (0.0, low - 0.05), (0.0, top + 0.02)), *_joint(under)]
    plywood = min(high, top - 3.0 * ROW * letters_m)
    hanger = min(low + ROW * letters_m, plywood - ROW * letters_m)
    leg = min(low - 0.02, hanger - ROW * letters_m)
    strokes += _told(0.06, letters_m, (
        ((-0.5 * THICK_M, top), top, told("tops of hangers, legs, bar {} high", in_mm(top))),
        ((-THICK_M - 0.002, under + 0.022), top - 1.7 * letters_m,
         told("bar {} long, its underside {} high", in_mm(riser.foot_m), in_mm(under))),
        ((-0.018, under + SCREWS_UP_M[0]), top - 3.4 * letters_m,
         "two screws from each hanger and leg"),
        ((thickness_m, high - 0.004), plywood, told("plywood, its highest {} high", in_mm(high))),
        ((-0.5 * THICK_M, low + 0.006), hanger,
         told("hanger {}, from {} up, clamped", size(THICK_M), in_mm(low))),
        ((-0.5 * THICK_M, low - 0.03), leg, "leg, down to the strongback's level")))
    return _bow_left(riser, strokes)


def _bow_left(riser, strokes):
    """Its Drawing from strokes whose boards are on the left of the mark: as they are where they
    stand forward of it, else mirrored, words beside it beginning at their other end."""
    if riser.away > 0.0:
        strokes = [replace(one, at_m=(-one.at_m[0], one.at_m[1]), anchor="end")
                   if isinstance(one, Text) else replace(one, points_m=one.points_m * (-1.0, 1.0))
                   for one in strokes]
    return Drawing(f"{riser.frame} from the side", tuple(strokes))


def _told(right, letters, rows):
    """A line from each spot to its words on the right, (spot, height of the words, words)."""
    at = right + 2.0 * letters
    for spot, high, text in rows:
        yield line("extension", spot, (at - 0.4 * letters, high))
        yield Text("text", (at, high), letters, text, anchor="start")


def _joint(low):
    """The screws of a cheek, hanger or leg into foot or bar, whose lower edge is so high."""
    return [_screw((0.0, low + up), (-1.0, 0.0), CHEEK_SCREW_MM) for up in SCREWS_UP_M]


def _screw(head, along, size_mm):
    """A screw seen from the side, driven along a unit vector: its shaft, its head across it."""
    head, along = np.asarray(head), np.asarray(along)
    across = 0.004 * np.array([-along[1], along[0]])
    tip = head + size_mm[1] / MM_PER_M * along
    return Path("here", np.array([head + across, head - across, head, tip]))
