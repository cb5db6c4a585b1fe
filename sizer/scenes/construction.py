"""The construction drawing: the boat from the side over from above, each part with its number."""

import numpy as np

from sizer.drawing.hull_lines import top_lines
from sizer.drawing.marks import MIRROR, box, unit_of
from sizer.drawing.measured import balloons
from sizer.drawing.record import Drawing, Path, joined
from sizer.scenes.bag_views import bag_outline
from sizer.scenes.hull_views import plan_hull, side_hull
from sizer.scenes.seat_shapes import seat_plan_m, seat_side
from sizer.shop.boards import strip_m
from sizer.shop.spacers import ends_x_m, leaning_at
from sizer.shop.thigh import POST_LONG_M, THICK_M

OVER = 3.2  # of a row of balloons from the boat, over the letters' height


def construction(boat, bench, parts, letters_m):
    """The Drawing of a boat with the BoatParts of its Bench, letters as high as told."""
    side, plan = _side(boat, bench, letters_m), _plan(boat, bench, letters_m)
    shown = {view: [(one.number, one.at_m) for one in parts if one.view == view and one.at_m]
             for view in ("side", "plan")}
    views = [_with_balloons(drawing, shown[name], letters_m, boat.length_m)
             for name, drawing in (("side", side), ("plan", plan))]
    drop = views[0].box_m[1] - views[1].box_m[3] - 1.5 * letters_m
    return joined("construction", [views[0], views[1].moved((0.0, drop))])


def _with_balloons(drawing, shown, letters, long):
    _, low, _, top = drawing.box_m
    middle = 0.5 * (low + top)
    rows = [([one for one in shown if one[1][1] >= middle], top + OVER * letters),
            ([one for one in shown if one[1][1] < middle], low - OVER * letters)]
    return Drawing(drawing.name, (*drawing.strokes, *(
        stroke for some, row in rows for stroke in balloons(some, row, letters, (0.0, long)))))


def _side(boat, bench, letters):
    hull = side_hull(boat, unit_of(letters))
    rails = bench.foot_rails
    fore = bench.seat.footbrace.start_x_m
    high = 0.5 * rails.size_m[1]
    strokes = [*hull.wood, *seat_side(boat), *hull.outline,
               box("mark", fore, rails.z_m - high, fore + rails.long_m, rails.z_m + high)]
    if bench.thigh:
        one = bench.thigh
        strokes.append(box("block", one.fore_x_m, one.inner_z_m, one.aft_x_m,
                           one.inner_z_m + THICK_M))
    return Drawing("side", tuple(strokes))


def _plan(boat, bench, letters):
    hull = plan_hull(boat, unit_of(letters))
    rails = bench.foot_rails
    fore = bench.seat.footbrace.start_x_m
    rail = np.array([(fore, rails.fore_half_m), (fore + rails.long_m, rails.aft_half_m)])
    sheer = top_lines(boat).sheer
    strokes = [*(bag_outline(one, sheer, "guide") for one in bench.bag_ties), *hull.wood,
               *(Path("block", one, closed=True) for one in seat_plan_m(boat)),
               *hull.outline, Path("edge", rail), Path("edge", rail * MIRROR),
               *(Path("block", one * side, closed=True) for one in _beside_m(boat, bench)
                 for side in (1.0, MIRROR))]
    if bench.thigh:
        one = bench.thigh
        ends = one.fore_x_m, one.aft_x_m - POST_LONG_M, one.aft_x_m
        edges = [*((x, one.edge_m(x)[0]) for x in ends), (one.aft_x_m, one.outer_m),
                 (one.fore_x_m, one.outer_m)]
        strokes += [Path("block", np.multiply(edges, (1.0, side)), closed=True)
                    for side in (1.0, -1.0)]
    return Drawing("plan", tuple(strokes))


def _beside_m(boat, bench):
    """Spacers, hip pads on their boards and pedals from above, to starboard, (4, 2) each."""
    frames = {one.name: one for one in bench.frames}
    for one in bench.spacers:
        ends, half = ends_x_m(one, frames), 0.5 * one.thickness_m
        (fore, aft), (start, end) = ends, (leaning_at(one, frames, x)[0] for x in ends)
        yield np.array([(fore, start - half), (aft, end - half), (aft, end + half),
                        (fore, start + half)])
    if bench.hip_pads:
        one = bench.hip_pads
        yield strip_m(one.fore_x_m, one.aft_x_m, *(
            one.face_m(one.hips_z_m, behind) for behind in (-one.pad_m, one.board_m[0])))
    sole = boat.seat_x_m - bench.seat.footbrace.set_m
    yield strip_m(sole - bench.pedals.size_m[0], sole, *(
        edge(bench.pedals.plate_m[:, 0]) for edge in (np.min, np.max)))
