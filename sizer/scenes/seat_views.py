"""Where the seat lies in its boat: a plan, bow on the left and starboard up, beside the section
where one sits, seen from astern; both in the boat's own metres."""

from functools import lru_cache

import numpy as np

from sizer.drawing.hull_lines import top_lines
from sizer.drawing.marks import MIRROR, line, size_line, unit_of
from sizer.drawing.measured import label, measured
from sizer.drawing.record import Drawing, Path, Text, joined
from sizer.drawing.told import in_mm, size, told
from sizer.hull.seat import SIT_APART_M
from sizer.scenes.sections import section_at
from sizer.shop.boards import hull_at
from sizer.shop.seat_drawing import least_clear_m
from sizer.shop.stations import setting_up

BEYOND_M = 0.060  # of the plan beyond the seat's ends; our drawing


@lru_cache(maxsize=16)  # a job's, at the scales tried, for pages of every size
def seat_views(seat, boat, letters_m):
    """The Drawing of a SeatBuilt in its boat: plan, and section beside it; letters as high as
    told."""
    plan, section = _plan(seat, boat, letters_m), _section(seat, boat, letters_m)
    right = plan.box_m[2] - section.box_m[0] + 3.0 * letters_m
    up = 0.5 * (plan.box_m[1] + plan.box_m[3]) - 0.5 * (section.box_m[1] + section.box_m[3])
    return joined("seat", [plan, section.moved((right, up))])


def _plan(seat, boat, letters):
    front, back = seat.front_x_m - BEYOND_M, seat.back_x_m + BEYOND_M
    lines = top_lines(boat, (front, back))
    half = float(lines.sheer[:, 1].max())
    strokes = [Path("guide", line * side) for line in (lines.sheer, *lines.sticks) if len(line)
               for side in (1.0, MIRROR)]
    for station in setting_up(boat).stations:
        if front <= station.x_m <= back:
            strokes += [line("guide", (face, -half), (face, half))
                        for face in station.faces_x_m]
            strokes.append(Text("text", (station.x_m, half + letters), letters, station.name))
    strokes += [Path("cut", board.plan_m * side, closed=True)
                for board in seat.boards for side in (1.0, MIRROR)]
    strokes += [line("mark", (seat.sit_x_m, -half), (seat.sit_x_m, half)),
                Text("text", (seat.sit_x_m, -half - letters), letters, "sitting bones")]
    wide, low = max(board.plan_m[:, 1].max() for board in seat.boards), -half - 2.8 * letters
    return Drawing("plan", (
        *strokes, *measured((seat.front_x_m, low), (seat.back_x_m, low), letters, beside=-1.2),
        *measured((back + letters, -wide), (back + letters, wide), letters)))


def _section(seat, boat, letters):
    skin = hull_at(boat, [seat.sit_x_m])[0]
    top, low, wide = seat.top_m, float(skin[:, 1].min()), float(skin[:, 0].max())
    left = -wide - 2.0 * letters
    return Drawing("section", (
        *section_at(boat, seat.sit_x_m),
        *(line("guide", (left - 0.3 * letters, z), (wide, z)) for z in (0.0, top)),
        size_line((left, 0.0), (left, top), unit_of(letters)),
        label((left - letters, 0.5 * top), in_mm(top), letters, "end", pen="size"),
        *measured((0.0, top + 2.5 * letters), (SIT_APART_M, top + 2.5 * letters), letters),
        line("extension", (SIT_APART_M, top), (SIT_APART_M, top + 2.5 * letters)),
        line("extension", (0.0, low), (0.0, top + 2.5 * letters)),
        *_clearance(seat, boat, low, letters)))


def _clearance(seat, boat, low, letters):
    """The shortest way from the seat to the skin, and what is left of it with the paddler on it."""
    at, to = least_clear_m(seat, boat)
    words = told("clear of the skin {}, {} least with the paddler on it", *(
        size(one, form=in_mm) for one in (np.hypot(*np.subtract(at, to)), seat.clear_of_skin_m)))
    yield line("mark", at, to)
    yield line("mark", to, (to[0], low - letters))
    yield Text("text", (0.0, low - 2.0 * letters), letters, words)
