"""The boat from the side, afloat, with its paddler."""

from math import radians, tan

import numpy as np

from sizer.web.drawings.hull_lines import side_lines
from sizer.web.drawings.marks import (
    BODY_LINE,
    BODY_SHAPE,
    EXTENSION_LINE,
    INK_LINE,
    NARROW,
    PENCIL_LINE,
    THIN_LINE,
    WATER_LINE,
    WATER_TONE,
    WET_TONE,
    WIDE,
    WOOD_BLOCK,
    WOOD_EDGE,
    WOOD_LINE,
    View,
    broken_edge,
    dimension,
    drawing,
    legend,
    path,
    paths,
    words,
)
from sizer.web.drawings.scene import scene_of, trim_text
from sizer.web.drawings.seat_shapes import backband_m, seat_side_m

SIDE_MARGIN = 30.0  # room for a dimension line at each end of the wide picture
BEHIND_SEAT_M = 0.78  # of the boat shown behind the seat in the close view
AHEAD_OF_FEET_M = 0.22  # and ahead of the footbrace
TICK_INSET = 6.0  # of a margin text past its dimension line
WET_STEPS = 241  # places along the wetted part
LABEL = 130.0  # reach of the longest margin text


def profile_svg(boat, base_boat, particulars, person, length_text, narrow=False):
    """Side view: boat in ink, base in pencil, the water at the trim found, the seated paddler.

    Parameters
    ----------
    boat, base_boat : Boat
    particulars : Particulars of `boat` afloat
    person : Body
    length_text : callable from m to the words of a dimension
    narrow : for a phone: the whole boat above, the middle of it larger below
    """
    scene = scene_of(boat, base_boat, particulars, person, length_text)
    parts, height = _narrow(scene) if narrow else _wide(scene)
    sentence = (
        f"Side view of {boat.design.name}, {length_text(boat.length_m)} long and "
        f"{length_text(boat.depth_m)} deep, with its paddler seated. It floats with a draft of "
        f"{length_text(particulars.draft_m)} and a freeboard of "
        f"{length_text(particulars.freeboard_m)}; {trim_text(particulars.trim_deg)}.")
    return drawing(NARROW if narrow else WIDE, height, "Side view", sentence, parts)


def _wide(scene):
    front = min(0.0, scene.shift_m)
    long = max(scene.boat.length_m, scene.base.length_m)
    scale = (WIDE - 2.0 * SIDE_MARGIN) / long
    view = View(front, scene.top_m, SIDE_MARGIN, 14.0, scale)
    keel = float(view.at(0.0, scene.low_m)[1])
    height = keel + 62.0
    parts = [*_water(scene, view, WIDE, height), *_boat(scene, view, None),
             *_heights(scene, view, (14.0, WIDE - 14.0)), _length(scene, view, keel + 48.0),
             *_legend(scene, 8.0, 20.0)]
    return parts, height


def _narrow(scene):
    front = min(0.0, scene.shift_m)
    scale = (NARROW - 12.0) / max(scene.boat.length_m, scene.base.length_m)
    small = View(front, scene.top_m, 6.0, 40.0, scale)
    keel = float(small.at(0.0, scene.low_m)[1])
    middle = keel + 44.0
    parts = [*_water(scene, small, NARROW, keel + 12.0), *_boat(scene, small, None),
             _length(scene, small, keel + 34.0), *_legend(scene, 4.0, 14.0)]
    foot = scene.boat.seat_x_m - float(scene.figure.body_m[:, 0].max())
    span = (foot - AHEAD_OF_FEET_M, scene.boat.seat_x_m + BEHIND_SEAT_M)
    large = View(span[0], scene.top_m, 18.0, middle + 14.0,
                 (NARROW - 36.0) / (span[1] - span[0]))
    height = float(large.at(0.0, scene.low_m)[1]) + 30.0
    parts += [*_water(scene, large, NARROW, height), *_boat(scene, large, span),
              *_heights(scene, large, (10.0, NARROW - 10.0))]
    return parts, height


def _water(scene, view, width, bottom):
    x = view.across_m + (np.array([0.0, width]) - view.left) / view.scale
    surface = view.at(x, scene.water_m(x))
    under = np.array([(width, bottom), (0.0, bottom)])
    return [path(np.concatenate([surface, under]), WATER_TONE, closed=True),
            path(surface, WATER_LINE)]


def _boat(scene, view, span):
    """Base, frames, sticks, outline and paddler, back to front."""
    base = side_lines(scene.base, span, scene.shift_m)
    boat = side_lines(scene.boat, span)

    def on_paper(lines):
        return [view.at(*line.T) for line in lines]

    body = view.at(*scene.body(scene.figure.body_m))
    arm = view.at(*scene.body(scene.figure.arm_m))
    brace = view.at(*scene.body(scene.figure.foot_rest_m))
    seat, band, tie = on_paper([seat_side_m(scene.boat), *backband_m(scene.boat)])
    cuts = [] if span is None else [
        view.at(*np.array([boat.bottom[i], boat.deck[i]]).T) for i in (0, -1)]
    return [
        _wet(scene, view, boat.bottom),
        paths(on_paper([base.bottom, base.sheer, base.deck, base.coaming]), PENCIL_LINE),
        paths(on_paper([*boat.frames, *boat.sticks]), WOOD_LINE),
        path(body, BODY_SHAPE, closed=True), path(arm, BODY_LINE),
        path(brace, WOOD_EDGE), path(seat, WOOD_BLOCK, closed=True),
        path(band, WOOD_BLOCK, closed=True), path(tie, WOOD_LINE),
        path(view.at(*boat.sheer.T), THIN_LINE),
        paths(on_paper([boat.bottom, boat.deck, boat.coaming]), INK_LINE),
        *(broken_edge(*cut) for cut in cuts)]


def _wet(scene, view, bottom):
    """The hull under water: from the bottom's line up to the water's surface."""
    x = np.linspace(bottom[0, 0], bottom[-1, 0], WET_STEPS)
    keel, level = np.interp(x, *bottom.T), scene.water_m(x)
    wet = keel < level
    under = view.at(x[wet], keel[wet])
    surface = view.at(x[wet], level[wet])
    return path(np.concatenate([under, surface[[-1, 0]]]), WET_TONE, closed=True)


def _heights(scene, view, margins):
    """Depth at the left margin, freeboard over draft at the right, with extension lines."""
    sections, particulars = scene.boat.sections, scene.particulars
    x, keel, sheer = sections.x_m, sections.z_m[:, 0], sections.z_m[:, sections.sheer]
    level = scene.water_m(x)
    low, deep = int((sheer - level).argmin()), int((level - keel).argmax())
    left, right = margins
    right_m = view.across_m + (right - view.left) / view.scale
    left_m = view.across_m + (left - view.left) / view.scale
    slope = tan(radians(particulars.trim_deg))
    ends = np.array([  # parallel to the water from where each is measured
        (right_m, sheer[low] + slope * (right_m - x[low])), (right_m, scene.water_m(right_m)),
        (right_m, keel[deep] + slope * (right_m - x[deep]))])
    top, water, bottom = view.at(*ends.T)
    depth_x = np.array([x[int(sheer.argmin())], x[int(keel.argmin())]])
    depth_z = np.array([sheer.min(), keel.min()])
    starts = view.at(depth_x, depth_z)
    reach = view.at(np.array([left_m, left_m]), depth_z)
    text = scene.length_text
    near = x > right_m - LABEL / view.scale
    over = float(view.at(0.0, max(sections.z_m[near].max(), scene.base.sections.z_m.max()))[1])
    return [
        paths([np.array([view.at(x[low], sheer[low]), top]),
               np.array([view.at(x[deep], keel[deep]), bottom]),
               np.array([top, (top[0], over - 4.0)]),
               np.array([starts[0], reach[0]]), np.array([starts[1], reach[1]])],
              EXTENSION_LINE),
        dimension(top, water, f"freeboard {text(particulars.freeboard_m)}",
                  (top[0] + TICK_INSET, over - 8.0), "end"),
        dimension(water, bottom, f"draft {text(particulars.draft_m)}",
                  np.add(bottom, (TICK_INSET, 19.0)), "end"),
        dimension(reach[0], reach[1], f"depth {text(scene.boat.depth_m)}",
                  np.add(reach[1], (-TICK_INSET, 19.0)), "start")]


def _length(scene, view, at):
    bow, stern = float(view.at(0.0, 0.0)[0]), float(view.at(scene.boat.length_m, 0.0)[0])
    return dimension((bow, at), (stern, at), f"length {scene.length_text(scene.boat.length_m)}",
                     (0.5 * (bow + stern), at - 6.0))


def _legend(scene, left, top):
    return [legend(left, top),
            words((left, top + 18.0), trim_text(scene.particulars.trim_deg), anchor="start")]
