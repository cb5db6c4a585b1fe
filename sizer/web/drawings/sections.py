"""The boat across: its frames one over the other, and the section where the hips sit."""

from math import radians, tan

import numpy as np

from sizer.design.records import SIT_AHEAD_M
from sizer.fit.assess import HIP_HEIGHT_M
from sizer.hull.sections import half_section_at
from sizer.web.drawings.marks import (
    BODY_FILL,
    BODY_LINE,
    CENTRE_LINE,
    EXTENSION_LINE,
    FINE_LINE,
    INK_LINE,
    NARROW,
    PENCIL_LINE,
    THIN_LINE,
    WATER_LINE,
    WATER_TONE,
    WIDE,
    WOOD_BLOCK,
    WOOD_DOT,
    View,
    dimension,
    drawing,
    legend,
    path,
    paths,
    smooth,
    words,
)
from sizer.web.drawings.seat_shapes import seat_across_m

TRUNK_SHOWN_M = 0.40  # of the paddler above the seat
LABEL_STEP = 15.0  # least distance between two frame names
TRUNK = ((0.60, 0.0), (0.90, 0.015), (0.985, 0.055), (1.0, 0.10), (0.97, 0.155), (0.89, 0.23),
         (0.84, 0.31), (0.86, TRUNK_SHOWN_M))  # share of half the hip width, height above the seat
LABEL_ROOM_M = 0.09  # over the deck, for the words beside the trunk
SKIN_GAP_M = 0.006  # drawn between body and bottom skin
MIRROR = np.array([-1.0, 1.0])


def sections_svg(boat, base_boat, particulars, person, length_text, narrow=False):
    """Frames one over the other, forward ones to the right, and the section through the hips.

    Parameters as `profile_svg`.
    """
    room_m = hip_room_m(boat)
    hips = person.hip_sitting.high_m
    gap = 0.5 * (room_m - hips)
    half = 0.5 * max(boat.beam_m, base_boat.beam_m)
    level = particulars.sinkage_m
    seat_level = level + tan(radians(particulars.trim_deg)) * (
        boat.seat_x_m - SIT_AHEAD_M - boat.sections.mid_x_m)
    top = max(boat.seat_z_m + TRUNK_SHOWN_M, float(boat.sections.z_m.max()) + LABEL_ROOM_M)
    low = float(min(boat.sections.z_m.min(), base_boat.sections.z_m.min()))
    if narrow:
        upper = View(0.0, float(max(boat.sections.z_m.max(), base_boat.sections.z_m.max())),
                     NARROW / 2.0, 36.0, 0.5 * (NARROW - 100.0) / half)
        under = float(upper.at(0.0, low)[1])
        lower = View(0.0, top, NARROW / 2.0, under + 50.0, 0.5 * (NARROW - 104.0) / half)
        spans, bottoms = ((0.0, NARROW), (0.0, NARROW)), (under + 28.0, None)
    else:
        scale = 0.40 * WIDE / (2.0 * half)
        lower = View(0.0, top, 0.74 * WIDE, 22.0, scale)
        small = 0.78 * scale
        keel = float(lower.at(0.0, low)[1])
        upper = View(0.0, low, 0.22 * WIDE, keel, small)
        spans, bottoms = ((0.0, 0.44 * WIDE), (0.48 * WIDE, WIDE)), (keel + 28.0, None)
    floor = float(lower.at(0.0, low)[1]) + 28.0
    parts = [
        legend(4.0 if narrow else 8.0, 20.0),
        *_water(upper, level, spans[0], bottoms[0]),
        *_body_plan(boat, base_boat, upper, 0.5 * (spans[0][1] - spans[0][0]) - 30.0),
        words((upper.left - 8.0, bottoms[0] - 8.0), "after frames", anchor="end"),
        words((upper.left + 8.0, bottoms[0] - 8.0), "forward frames", anchor="start"),
        *_water(lower, seat_level, spans[1], floor),
        *_hip_section(boat, base_boat, lower, hips, room_m, length_text),
        words((lower.left, floor - 8.0), "section at the hips")]
    room = (f"{length_text(gap)} clear" if gap >= 0.0 else f"{length_text(-gap)} too little")
    sentence = (f"Frames of {boat.design.name} one over the other, and the section at the hips: "
                f"hips {length_text(hips)} wide with {room} on each side.")
    return drawing(NARROW if narrow else WIDE, floor, "Sections", sentence, parts)


def hip_room_m(boat):
    """Clear width between the stringers at hip height, as the fit's checks take it."""
    y, z = half_section_at(boat.sections, boat.seat_x_m - SIT_AHEAD_M)
    hull = slice(0, boat.sections.sheer + 1)
    stock = max(line.stringer.depth_m for line in boat.lines.between)
    return 2.0 * (float(np.interp(boat.seat_z_m + HIP_HEIGHT_M, z[hull], y[hull])) - stock)


def _water(view, level_m, span, bottom):
    surface = float(view.at(0.0, level_m)[1])
    left, right = span
    corners = np.array([(left, surface), (right, surface), (right, bottom), (left, bottom)])
    return [path(corners, WATER_TONE, closed=True), path(corners[:2], WATER_LINE)]


def _body_plan(boat, base, view, column):
    """Half-sections at the frames, with their names in a column at each side."""
    def halves(one):
        y, z = half_section_at(one.sections, one.frame_x_m)
        forward = one.frame_x_m < 0.5 * one.length_m
        return np.where(forward, 1.0, -1.0)[:, None] * y[:, :-1], z[:, :-1]

    y, z = halves(boat)
    corners = view.at(y, z)
    sheer = corners[:, boat.sections.sheer]
    sticks = corners[:, 1:boat.sections.sheer + 1].reshape(-1, 2)
    dots = np.stack([sticks, np.add(sticks, (0.1, 0.0))], axis=1)
    ends = view.at(0.0, np.array([z.max() + 0.03, z.min() - 0.01]))
    names = [frame.name for frame in boat.design.frames]
    marks = []
    for side in (1.0, -1.0):
        here = np.flatnonzero(np.sign(y[:, boat.sections.sheer]) == side)
        order = here[np.argsort(sheer[here, 1])]
        heights = _apart(sheer[order, 1])
        x = view.left + side * column
        for index, height in zip(order, heights, strict=True):
            marks.append(path(np.array([sheer[index], (x - 4.0 * side, height)]), EXTENSION_LINE))
            marks.append(words((x, height + 4.5), names[index],
                               anchor="start" if side > 0 else "end"))
    return [path(ends, CENTRE_LINE), paths(view.at(*halves(base)), PENCIL_LINE), *marks,
            paths(corners, FINE_LINE),
            paths(dots, WOOD_DOT)]


def _apart(heights):
    """Heights, rising, moved as little as need be to stand LABEL_STEP apart."""
    places = np.asarray(heights, float).copy()
    for index in range(1, places.size):
        places[index] = max(places[index], places[index - 1] + LABEL_STEP)
    return places - 0.5 * (places - heights).max(initial=0.0)


def _hip_section(boat, base, view, hips_m, hip_room_m, length_text):
    """Skin, stringers, seat and hips, with the hip width and the room beside it."""
    y, z = half_section_at(boat.sections, boat.seat_x_m - SIT_AHEAD_M)
    by, bz = half_section_at(base.sections, base.seat_x_m - SIT_AHEAD_M)
    skin = [view.at(side * y[:-1], z[:-1]) for side in (1.0, -1.0)]
    before = [view.at(side * by[:-1], bz[:-1]) for side in (1.0, -1.0)]
    seat = boat.seat_z_m
    side = np.add(smooth(np.array(TRUNK) * (0.5 * hips_m, 1.0), closed=False), (0.0, seat))
    sheer = boat.sections.sheer
    inside = np.interp(side[:, 1], z[:sheer + 1], y[:sheer + 1]) - SKIN_GAP_M
    under = side[:, 1] < seat + HIP_HEIGHT_M  # flesh takes the shape of what it sits in
    side[under, 0] = np.minimum(side[under, 0], inside[under])
    trunk = np.concatenate([side[::-1] * MIRROR, side])
    body = view.at(*trunk.T)
    line = seat + HIP_HEIGHT_M
    hips = view.at(0.5 * hips_m * np.array([-1.0, 1.0]), line)
    room = view.at(0.5 * hip_room_m * np.array([-1.0, 1.0]), line)
    gap = 0.5 * (hip_room_m - hips_m)
    over = float(view.at(0.0, max(z.max(), bz.max()))[1]) - 14.0
    middle = 0.5 * (hips[1] + room[1])
    told = "clear" if gap >= 0.0 else "too tight"
    return [
        path(view.at(0.0, np.array([z.min() - 0.01, seat + TRUNK_SHOWN_M])), CENTRE_LINE),
        paths(before, PENCIL_LINE),
        *(path(view.at(*corners.T), WOOD_BLOCK, closed=True) for corners in _stock(boat, y, z)),
        *(path(view.at(*board.T), WOOD_BLOCK, closed=True) for board in seat_across_m(boat)),
        path(body, BODY_FILL), path(body, BODY_LINE), paths(skin, INK_LINE),
        path(np.array([middle, (middle[0], over - 2.0 * LABEL_STEP)]), THIN_LINE),
        dimension(room[0], hips[0]), dimension(hips[1], room[1]),
        dimension(hips[0], hips[1], f"hips {length_text(hips_m)}",
                  (view.left, hips[0, 1] - 7.0)),
        *(words((middle[0] + 6.0, over + 14.0 - LABEL_STEP * up), line, "start", "sz-size")
          for up, line in enumerate(("each side", told, length_text(abs(gap)))))]


def _stock(boat, y, z):
    """Corners of each stick's stock at a section, inside the moulded line, both sides.

    The keel is planed to the bottom's slope; every other stick has its outer corner on the moulded
    line and a face along the skin below it.
    """
    x = boat.seat_x_m - SIT_AHEAD_M
    alive = boat.alive[int(np.abs(boat.sections.x_m - x).argmin())]
    points = np.stack([y, z], axis=1)
    keel = boat.lines.lines[0].stringer
    half = 0.5 * keel.width_m
    edge = float(np.interp(half, y[:2], z[:2]))
    side = np.array([(half, edge), (half, max(edge, z[0] + keel.depth_m))])
    yield np.concatenate([[points[0]], side, side[::-1] * MIRROR])
    for column, line in enumerate(boat.lines.between, start=1):
        if not alive[column]:
            continue
        along = points[column] - points[column - 1]
        along = along / (np.hypot(*along) or 1.0)
        inward = np.array([-along[1], along[0]])
        width, depth = line.stringer.width_m * along, line.stringer.depth_m * inward
        corners = points[column] + np.array([-width, 0.0 * width, depth, depth - width])
        yield corners
        yield corners * MIRROR
