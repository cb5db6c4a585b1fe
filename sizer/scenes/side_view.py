"""The boat from the side, afloat, with its paddler."""

from dataclasses import replace
from math import radians, tan

import numpy as np

from sizer.drawing import marks
from sizer.drawing.one_scale import beside_boat, long_paper, scale_bar
from sizer.drawing.record import Path
from sizer.scenes.afloat import scene_of, trim_text
from sizer.scenes.hull_views import side_hull, side_pencil
from sizer.scenes.seat_shapes import seat_side

SIDE_MARGIN = 30.0  # room for a dimension line at each end of the wide picture
WIDE_INSET = 14.0  # of it, where the line stands
CLOSE_MARGIN = 18.0  # and at each end of the close view
BEHIND_SEAT_M = 0.78  # of the boat shown behind the seat in the close view
AHEAD_OF_FEET_M = 0.22  # and ahead of the footbrace
TICK_INSET = 6.0  # of a margin text past its dimension line
WET_STEPS = 241  # places along the wetted part
BAG_STEPS = 41  # and along a bag
LABEL = 130.0  # reach of the longest margin text


def side_view(boat, base_boat, particulars, person, length_text, narrow=False):
    """Side view: boat in ink, base in pencil, the water at the trim found, the seated paddler.
    `length_text` says m in a dimension; for a phone (`narrow`) the whole boat stands above, the
    middle of it larger below."""
    scene = scene_of(boat, base_boat, particulars, person, length_text)
    return marks.picture("Side view", (
        f"Side view of {boat.design.name}, {length_text(boat.length_m)} long and "
        f"{length_text(boat.depth_m)} deep, with its paddler seated. It floats with a draft of "
        f"{length_text(particulars.draft_m)} and a freeboard of "
        f"{length_text(particulars.freeboard_m)}; {trim_text(particulars.trim_deg)}."),
        _narrow(scene) if narrow else [_wide(scene)])


def flooded_view(boat, base_boat, particulars, person, length_text, bags, seated, narrow=False):
    """The side view of a boat full of water, with its float bags, a tuple of Chamber; nobody is
    drawn in it where the paddler cannot sit in it like this (`seated`)."""
    scene = replace(scene_of(boat, base_boat, particulars, person, length_text), seated=seated,
                    bags=bags)
    ends = ", ".join(f"a float bag from {length_text(one.front_x_m)} to "
                     f"{length_text(one.back_x_m)} from the bow" for one in bags)
    return marks.picture("Flooded", (
        f"Side view of {boat.design.name} full of water, {ends or 'no float bag in it'}, "
        f"{'its paddler' if seated else 'nobody'} in the seat. Freeboard "
        f"{length_text(particulars.freeboard_m)}; {trim_text(particulars.trim_deg)}."),
        _narrow(scene) if narrow else [_wide(scene)])


def _wide(scene):
    paper = long_paper(scene.box_m, marks.WIDE, SIDE_MARGIN, 14.0, 62.0)
    return paper.on_paper([
        *_afloat(scene, paper, None), *_heights(scene, paper, beside_boat(
            paper, scene.box_m, SIDE_MARGIN - WIDE_INSET)),
        *_length(scene, paper, 48.0), *_legend(scene, paper, 8.0, 20.0)])


def _narrow(scene):
    small = long_paper(scene.box_m, marks.NARROW, 6.0, 40.0, 44.0)
    span = close_span_m(scene.boat, scene.figure.body_m)
    large = marks.paper_round((span[0], scene.low_m, span[1], scene.top_m), marks.NARROW,
                              CLOSE_MARGIN, 14.0, 30.0)
    return [small.on_paper([*_afloat(scene, small, None, 12.0), *_length(scene, small, 34.0),
                            *_legend(scene, small, 4.0, 14.0)]),
            large.on_paper([*_afloat(scene, large, span), *_heights(scene, large, [
                large.at(right, 0.0)[0] for right in (10.0, marks.NARROW - 10.0)])])]


def close_span_m(boat, body_m):
    """The x between which the close views show a boat, from a figure's outline."""
    foot = boat.seat_x_m - float(body_m[:, 0].max())
    return foot - AHEAD_OF_FEET_M, boat.seat_x_m + BEHIND_SEAT_M


def _afloat(scene, paper, span, under=None):
    """Water, base, frames, sticks, paddler, seat and outline, back to front."""
    left, bottom, right, _ = paper.frame_m
    if under is not None:
        bottom = scene.low_m - under * paper.unit_m
    ends = np.array([left, right])
    surface = np.column_stack([ends, scene.water_m(ends)])
    hull = side_hull(scene.boat, paper.unit_m, span)
    return [
        *marks.water_over(surface, bottom), _wet(scene, hull),
        *side_pencil(scene.base, span, scene.shift_m), *_bags(scene.bags, hull), *hull.wood,
        *(_paddler(scene) if scene.seated else ()),
        Path("edge", scene.body(scene.figure.foot_rest_m)),
        *seat_side(scene.boat), *hull.outline]


def _paddler(scene):
    figure = scene.figure
    return [*(Path("body-fill", scene.body(part), closed=True)
              for part in (figure.body_m, *figure.beside_m)),
            *(Path("body-line", scene.body(part)) for part in figure.lines_m),
            *(Path("paddle", scene.body(part)) for part in figure.paddle_m)]


def _bags(bags, hull):
    """Each float bag, from keel to deck, as far as the hull is shown."""
    start, end = hull.bottom.points_m[[0, -1], 0]
    for bag in bags:
        x = np.linspace(max(bag.front_x_m, start), min(bag.back_x_m, end), BAG_STEPS)
        if x[0] < x[-1]:
            low, top = (np.interp(x, *line.points_m.T) for line in (hull.bottom, hull.deck))
            yield Path("block", np.concatenate([np.column_stack([x, top]),
                                                np.column_stack([x, low])[::-1]]), closed=True)


def _wet(scene, hull):
    """The hull under water: from the bottom's line up to the water's surface."""
    bottom = hull.bottom.points_m
    x = np.linspace(bottom[0, 0], bottom[-1, 0], WET_STEPS)
    keel, level = np.interp(x, *bottom.T), scene.water_m(x)
    wet = keel < level
    under, surface = (np.column_stack([x[wet], z[wet]]) for z in (keel, level))
    return Path("wet", np.concatenate([under, surface[[-1, 0]]]), closed=True)


def _heights(scene, paper, margins):
    """Depth at the left x of two, freeboard over draft at the right, with extension lines."""
    sections, particulars, unit = scene.boat.sections, scene.particulars, paper.unit_m
    x, keel, sheer = sections.x_m, sections.z_m[:, 0], sections.z_m[:, sections.sheer]
    level = scene.water_m(x)
    low, deep = int((sheer - level).argmin()), int((level - keel).argmax())
    left, right = margins
    slope = tan(radians(particulars.trim_deg))
    top, water, bottom = np.array([  # parallel to the water from where each is measured
        (right, sheer[low] + slope * (right - x[low])), (right, scene.water_m(right)),
        (right, keel[deep] + slope * (right - x[deep]))])
    starts = np.array([(x[sheer.argmin()], sheer.min()), (x[keel.argmin()], keel.min())])
    reach = np.column_stack([(left, left), starts[:, 1]])
    near = x > right - LABEL * unit
    over = max(sections.z_m[near].max(), scene.base.sections.z_m.max()) + 4.0 * unit
    text = scene.length_text
    lines = [((x[low], sheer[low]), top), ((x[deep], keel[deep]), bottom), (top, (right, over)),
             (starts[0], reach[0]), (starts[1], reach[1])]
    return [
        *(Path("extension", np.array(line)) for line in lines),
        *marks.dimension(top, water, unit, f"freeboard {text(particulars.freeboard_m)}",
                   (right + TICK_INSET * unit, over + 4.0 * unit), "end"),
        *marks.dimension(water, bottom, unit, f"draft {text(particulars.draft_m)}",
                   bottom + np.array([TICK_INSET, -19.0]) * unit, "end"),
        *marks.dimension(reach[0], reach[1], unit, f"depth {text(scene.boat.depth_m)}",
                   reach[1] + np.array([-TICK_INSET, -19.0]) * unit, "start")]


def _length(scene, paper, below):
    long, z = scene.boat.length_m, scene.low_m - below * paper.unit_m
    return marks.dimension((0.0, z), (long, z), paper.unit_m, f"length {scene.length_text(long)}",
                     (0.5 * long, z + 6.0 * paper.unit_m))


def _legend(scene, paper, left, down):
    return [*marks.legend(paper.at(left, down), paper.unit_m),
            marks.words(paper.at(left, down + 18.0), trim_text(scene.particulars.trim_deg),
                  paper.unit_m, "start"),
            *scale_bar(paper.at(left + 3.0, down + 32.0), paper.unit_m,
                       scene.length_text)]
