"""The skin: where its seams run from above, how the cloth lies round the boat across, and its cloth
close up: drawn and tacked, sewn, round a stem's edge, at the rim.

Close up layers lie APART_M from each other as drawn, so that each shows."""

import numpy as np

from sizer.drawing.hull_lines import top_lines
from sizer.drawing.marks import MIRROR, box, line, unit_of
from sizer.drawing.measured import label, measured
from sizer.drawing.record import Circle, Drawing, Path, joined, side_by_side
from sizer.drawing.told import size, told
from sizer.hull.boat import sections_at
from sizer.scenes.hull_views import plan_hull
from sizer.shop.boards import sticks_at
from sizer.shop.coaming import LIP_HEIGHT_M, LIP_M, SEWING_HOLE_M, WALL_M, under_lip_m
from sizer.shop.shapes import ring_path
from sizer.shop.skin import (
    DECK_TACK_M,
    FOLD_M,
    HULL_TACK_M,
    LAP_M,
    SEAM_UNDER_M,
    STEM_LAP_M,
    STEM_SEAM_M,
)

LARGER = 2.5  # of the section over the plan; our drawing
OFF_M = 0.006  # of the cloth from the skin's line as drawn, so that both show
APART_M = 0.0014  # between layers, and from the wood; our drawing
BEYOND_M = 0.022  # of cloth shown past what is told of it; our drawing
THREAD_M = 0.004  # of a stitch's ends out of the cloth; our drawing
STEM_LONG_M = 0.050  # of a stem shown inboard of its edge; our drawing


def skin_drawing(boat, sewn, letters_m):
    """The Drawing of a boat's Seams; the section is LARGER times the plan's scale."""
    hull, lines = plan_hull(boat, unit_of(letters_m)), top_lines(boat)
    seams = [one for line in _seams(boat, lines, sewn) for one in line]
    plan = Drawing("plan", (*hull.wood, *hull.outline, *(Path("bar", one) for one in seams)))
    across = _across(boat, sewn, letters_m / LARGER).scaled(LARGER)
    left = 0.5 * (boat.length_m - across.box_m[0] - across.box_m[2])
    drop = plan.box_m[1] - across.box_m[3] - 1.5 * letters_m
    return joined("skin", [plan, across.moved((left, drop))])


def _seams(boat, lines, sewn):
    if sewn.lengths > 1:
        yield (lines.sheer, lines.sheer * MIRROR)
    else:
        opening = boat.opening
        yield (np.array([(0.0, 0.0), (opening.front_x_m, 0.0)]),
               np.array([(opening.back_x_m, 0.0), (boat.length_m, 0.0)]))
    yield (np.concatenate([lines.coaming, lines.coaming[:1]]),)


def _across(boat, sewn, letters):
    """A section behind the opening, seen from astern."""
    x = boat.opening.back_x_m + 0.10
    there = sections_at(boat, np.array([x]))
    skin = np.stack([there.y_m[0], there.z_m[0]], axis=1)
    top, sheer = skin[-1], skin[there.sheer]
    run = np.gradient(skin, axis=0)
    out = np.column_stack([run[:, 1], -run[:, 0]])
    away = skin + OFF_M * (out / np.maximum(np.hypot(*out.T), 1e-9)[:, None])
    strokes = [ring_path("block", one.exterior) for one in sticks_at(boat, x).geoms]
    strokes += [Path("here", away * side) for side in ((1.0, 1.0), (-1.0, 1.0))]
    spots = ([sheer, sheer * (-1.0, 1.0)] if sewn.lengths > 1 else [top])
    strokes += [Circle("ink", tuple(map(float, spot)), 1.5 * letters) for spot in spots]
    words = "seam, deck lapped over the hull" if sewn.lengths > 1 else "seam on the ridge, lapped"
    strokes.append(label((0.0, float(top[1]) + 3.0 * letters), words, letters, "middle"))
    return Drawing("across", tuple(strokes))


def seam_drawing(boat, bought, letters_m):
    """What the Materials' Seams and Coaming want of a boat's cloth, in a row."""
    sewn, rim = bought.seams, bought.coaming
    role = "gunwale" if sewn.lengths > 1 else "ridge"
    stick = next(one for one in boat.design.stringers if one.role == role)
    views = ([_tacked(stick, letters_m), _sewn(stick, letters_m)] if sewn.lengths > 1
             else [_on_ridge(stick, letters_m)])
    if sewn.stems:
        views.append(_stem(boat.design.bow.thickness_m, letters_m))
    return side_by_side("seams", [*views, _rim(rim, letters_m)], 2.5 * letters_m)


def _face(stick):
    """A gunwale across, its upper outer corner at the origin, and its cloths' ways by layer."""
    return box("block", -stick.depth_m, -stick.width_m, 0.0, 0.0)


def _hull(stick, top_m, layer=1.0):
    """Up the gunwale's outer face to a height."""
    return [(layer * APART_M, -stick.width_m - BEYOND_M), (layer * APART_M, top_m)]


def _deck(stick, low_m, layer):
    """Over the gunwale's upper face, down its outer one to a height."""
    return [(-stick.depth_m - BEYOND_M, layer * APART_M), (0.0, layer * APART_M),
            (layer * APART_M, 0.0), (layer * APART_M, low_m)]


def _tacked(stick, letters):
    """The hull's cloth drawn over the corner, the deck's down over it, a tack of each."""
    over, low = LAP_M - SEAM_UNDER_M, -SEAM_UNDER_M - LAP_M
    hull = [*_hull(stick, 0.0), (0.0, APART_M), (-over, APART_M)]
    right = 3.0 * APART_M + letters
    return Drawing("tacked", (
        _face(stick), Path("here", np.array(hull)), Path("ink", np.array(_deck(stick, low, 2.0))),
        *_nail((-HULL_TACK_M, 2.5 * APART_M), (0.0, -1.0)),
        *_nail((3.0 * APART_M, -DECK_TACK_M), (-1.0, 0.0)),
        line("centre", (-0.6 * stick.depth_m, -SEAM_UNDER_M), (right + letters, -SEAM_UNDER_M)),
        *_tall(right + 1.5 * letters, (-SEAM_UNDER_M, 0.0), letters),
        *_tall(right + 1.5 * letters, (low, -SEAM_UNDER_M), letters),
        *_titled(-stick.depth_m, (2.0 * APART_M, "drawn and tacked:"), letters,
                 "heavy hull, fine deck")))


def _sewn(stick, letters):
    """Both edges folded in under, stitched through all four layers on the seam's line."""
    high, low = -SEAM_UNDER_M + LAP_M - FOLD_M, -SEAM_UNDER_M - (LAP_M - FOLD_M)
    hull = [*_hull(stick, high, 2.0), (APART_M, high), (APART_M, high - FOLD_M)]
    deck = [*_deck(stick, low, 4.0), (3.0 * APART_M, low), (3.0 * APART_M, low + FOLD_M)]
    right = 4.0 * APART_M + THREAD_M + letters
    return Drawing("sewn", (
        _face(stick), Path("here", np.array(hull)), Path("ink", np.array(deck)),
        line("here", (0.5 * APART_M, -SEAM_UNDER_M), (4.0 * APART_M + THREAD_M, -SEAM_UNDER_M)),
        *_tall(right, (low, -SEAM_UNDER_M), letters),
        *_titled(-stick.depth_m, (4.0 * APART_M, "sewn:"), letters,
                 told("each edge folded {}", size(FOLD_M)))))


def _on_ridge(stick, letters):
    """The same on a ridge, its middle at the origin."""
    half, past = 0.5 * stick.width_m, LAP_M - FOLD_M
    far = half + BEYOND_M
    under = [(-far, 2.0 * APART_M), (past, 2.0 * APART_M), (past, APART_M),
             (past - FOLD_M, APART_M)]
    over = [(far, 4.0 * APART_M), (-past, 4.0 * APART_M), (-past, 3.0 * APART_M),
            (FOLD_M - past, 3.0 * APART_M)]
    up = 4.0 * APART_M + THREAD_M + letters
    return Drawing("on the ridge", (
        box("block", -half, -stick.depth_m, half, 0.0), Path("here", np.array(under)),
        Path("ink", np.array(over)),
        line("here", (0.0, 0.5 * APART_M), (0.0, 4.0 * APART_M + THREAD_M)),
        *measured((0.0, up), (past, up), letters),
        *_titled(-far, (up + 2.0 * letters, "sewn on the ridge:"), letters,
                 told("each edge folded {}", size(FOLD_M)))))


def _stem(thick, letters):
    """A stem cut level, the boat's end up: both halves past its edge, sewn, the flap turned."""
    half, seam = 0.5 * thick, STEM_SEAM_M
    sides = [[(side * (half + APART_M), -STEM_LONG_M), (side * (half + APART_M), 0.0),
              (side * 0.5 * APART_M, seam)] for side in (-1.0, 1.0)]
    edge = np.hypot(half + 2.0 * APART_M, seam)
    low = min(edge - STEM_LAP_M, -APART_M)
    flap = [[(side * 0.5 * APART_M, seam), (half + out * APART_M, 0.0),
             (half + out * APART_M, low)] for side, out in ((-1.0, 3.0), (1.0, 2.0))]
    outside = half + 3.0 * APART_M + THREAD_M
    pens = ("here", "ink")
    return Drawing("stem", (
        box("block", -half, -STEM_LONG_M, half, 0.0),
        *(Path(pen, np.array(way)) for ways in (sides, flap)
          for pen, way in zip(pens, ways, strict=True)),
        line("here", (-THREAD_M, seam - 0.5 * APART_M), (THREAD_M, seam - 0.5 * APART_M)),
        line("here", (half + 0.5 * APART_M, 0.5 * low), (outside, 0.5 * low)),
        label((outside + letters, 0.0), told("flap {}", size(STEM_LAP_M)), letters),
        *_titled(-half, (seam + APART_M, "stem, cut level:"), letters, "slit, sewn, turned")))


def _rim(rim, letters):
    """The coaming's wall and lip in front, the opening on the right: the cloth up to the lip, its
    edge folded in towards the wall, a stitch through both layers and the wall."""
    high, below, under = rim.wall_m[0], rim.below_m, under_lip_m(rim.wall_m)[0]
    out, top, sewn = -WALL_M, under - APART_M, 0.5 * under
    cloth = [(out - LIP_M - BEYOND_M, 0.0), (out - 2.0 * APART_M, 0.0),
             (out - 2.0 * APART_M, top), (out - APART_M, top), (out - APART_M, 0.0)]
    left = out - LIP_M - letters
    return Drawing("rim", (
        box("block", out, -below, 0.0, high), box("block", out - LIP_M, high - LIP_HEIGHT_M, out,
                                                  high),
        Path("here", np.array(cloth)),
        line("fine", (0.0, sewn - 0.5 * SEWING_HOLE_M), (out, sewn - 0.5 * SEWING_HOLE_M)),
        line("fine", (0.0, sewn + 0.5 * SEWING_HOLE_M), (out, sewn + 0.5 * SEWING_HOLE_M)),
        line("here", (0.003, sewn), (out - 2.0 * APART_M - THREAD_M, sewn)),
        *_tall(left, (0.0, under), letters, -1.0),
        *_titled(out - LIP_M - BEYOND_M, (high, "rim, in front:"), letters, "edge folded in")))


def _nail(head, way):
    """A tack from its head along its way into the wood."""
    head, way = np.asarray(head), np.asarray(way)
    across = 0.003 * np.array([-way[1], way[0]])
    yield line("ink", head - across, head + across)
    yield line("ink", head, head + 0.012 * way)


def _tall(at, ends, letters, beside=1.0):
    """An upright dimension, its length right of it, or left."""
    low, high = ends
    yield from measured((at, low), (at, high), letters, beside=-beside)


def _titled(left, over, letters, second):
    """Two lines of words over a view."""
    top, first = over
    return (label((left, top + 3.4 * letters), first, letters),
            label((left, top + 1.8 * letters), second, letters))
