"""The boat across: its frames one over the other, and the section where the hips sit."""

from dataclasses import replace

import numpy as np

from sizer.design.records import SIT_AHEAD_M
from sizer.drawing import marks
from sizer.drawing.hull_lines import water_z_m
from sizer.drawing.record import Path, joined
from sizer.fit.assess import HIP_HEIGHT_M
from sizer.hull.boat import sections_at
from sizer.paddler.room import hips_dressed_m
from sizer.scenes.hull_views import LABEL_STEP, body_plan
from sizer.scenes.seat_shapes import seat_across_m
from sizer.scenes.trunk import trunk_below
from sizer.shop.boards import sticks_at
from sizer.shop.shapes import ring_path

TRUNK_SHOWN_M = 0.40  # of the paddler above the seat
LABEL_ROOM_M = 0.09  # over the deck, for the words beside the trunk
SKIN_GAP_M = 0.006  # drawn between body and bottom skin
FOOT = 28.0  # room under each view, for words


def sections(boat, base_boat, particulars, person, length_text, hip_room_m, narrow=False):
    """Frames one over the other, forward ones to the right, and the section through the hips.

    Parameters as `side_view`; `hip_room_m` is the clear width at the hips that the checks take.
    What is spare beside them is over the need that those take too, clothing and all.
    """
    hips = hips_dressed_m(person)
    gap = 0.5 * (hip_room_m - hips)
    frames, seat = _papers(boat, base_boat, narrow)
    sit = boat.seat_x_m - SIT_AHEAD_M
    views = [
        frames.on_paper([
            *frames.water(particulars.sinkage_m),
            *body_plan(boat, frames, 30.0, base_boat),
            *marks.legend(frames.at(4.0 if narrow else 8.0, 20.0), frames.unit_m)]),
        seat.on_paper([
            *seat.water(water_z_m(boat, particulars, sit)),
            *_hip_section(boat, base_boat, seat.unit_m, person, hip_room_m, length_text),
            marks.words((0.0, seat.frame_m[1] + 8.0 * seat.unit_m), "section at the hips",
                  seat.unit_m)])]
    room = f"{length_text(gap)} spare" if gap >= 0.0 else f"{length_text(-gap)} too little"
    return marks.picture(
        "Sections", f"Frames of {boat.design.name} one over the other, and the section at the "
        f"hips: dressed they take {length_text(hips)}, with {room} on each side.",
        views if narrow else [_beside(*views)])


def _papers(boat, base, narrow):
    """Papers of the frames and of the hips: one under the other, or keels on one line."""
    z, other, half = boat.sections.z_m, base.sections.z_m, 0.5 * max(boat.beam_m, base.beam_m)
    low, high = min(z.min(), other.min()), max(z.max(), other.max())
    trunk = max(boat.seat_z_m + TRUNK_SHOWN_M, z.max() + LABEL_ROOM_M)
    seat = marks.paper_round((-half, low, half, trunk),
                             marks.NARROW if narrow else 0.52 * marks.WIDE, 52.0, 22.0, FOOT)
    over = 36.0 if narrow else seat.below - FOOT
    frames = marks.paper_round((-half, low, half, high if narrow else low),
                               marks.NARROW if narrow else 0.44 * marks.WIDE,
                               50.0 if narrow else 55.0, over, FOOT)
    return frames, seat


def _beside(one, other):
    """Two Drawings as one, the second at the right end of a paper for a desk."""
    left, low, _, top = one.frame_m
    right = left + marks.WIDE * marks.PAPER_M
    moved = other.moved((right - other.frame_m[2], top - other.frame_m[3]))
    return replace(joined("", [one, moved]), frame_m=(left, low, right, top))


def section_at(boat, x_m, seat=True):
    """Skin, sticks and, where asked, the seat's boards across the boat, in boat metres."""
    skin = _skin(boat, x_m)
    return [
        *(ring_path("block", one.exterior) for one in sticks_at(boat, x_m).geoms),
        *(Path("block", board, closed=True) for board in (seat_across_m(boat) if seat else ())),
        *(Path("ink", one) for one in (skin, skin * marks.OVER))]


def _skin(boat, x_m):
    there = sections_at(boat, np.array([x_m]))
    return np.stack([there.y_m[0], there.z_m[0]], axis=1)[:-1]


def _hip_section(boat, base, unit, person, hip_room_m, length_text):
    """Skin, stringers, seat and hips, with the width they take and the room beside it."""
    hips_m = hips_dressed_m(person)
    skin, pencil = (_skin(one, one.seat_x_m - SIT_AHEAD_M) for one in (boat, base))
    trunk = _trunk(boat, skin, person)
    level = boat.seat_z_m + HIP_HEIGHT_M
    hips, room = ([np.array([0.5 * side * wide, level]) for side in (-1.0, 1.0)]
                  for wide in (hips_m, hip_room_m))
    gap = 0.5 * (hip_room_m - hips_m)
    over = max(skin[:, 1].max(), pencil[:, 1].max()) + 14.0 * unit
    middle = 0.5 * (hips[1] + room[1])
    told = ("each side", "spare" if gap >= 0.0 else "too tight", length_text(abs(gap)))
    return [
        marks.line("centre", (0.0, skin[:, 1].min() - 0.01), (0.0, boat.seat_z_m + TRUNK_SHOWN_M)),
        Path("pencil", pencil), Path("pencil", pencil * marks.OVER),
        Path("body-fill", trunk), Path("body-line", trunk),
        *section_at(boat, boat.seat_x_m - SIT_AHEAD_M),
        marks.line("thin", middle, (middle[0], over + 2.0 * LABEL_STEP * unit)),
        marks.size_line(room[0], hips[0], unit), marks.size_line(hips[1], room[1], unit),
        *marks.dimension(*hips, unit, f"hips, dressed {length_text(hips_m)}",
                   (0.0, level + 7.0 * unit)),
        *(marks.words((middle[0] + 6.0 * unit, over + (LABEL_STEP * up - 14.0) * unit), text, unit,
                "start", "size") for up, text in enumerate(told))]


def _trunk(boat, skin, person):
    """The body's outline from the hips up, within the skin."""
    hips_m = person.hip_sitting.high_m
    side = np.add(trunk_below(person, hips_m, TRUNK_SHOWN_M), (0.0, boat.seat_z_m))
    sheer = boat.sections.sheer
    inside = np.interp(side[:, 1], skin[:sheer + 1, 1], skin[:sheer + 1, 0]) - SKIN_GAP_M
    under = side[:, 1] < boat.seat_z_m + HIP_HEIGHT_M  # flesh takes the shape of what it sits in
    side[under, 0] = np.minimum(side[under, 0], inside[under])
    return np.concatenate([side[::-1] * marks.OVER, side])
