"""Where the seat lies in its boat: a plan, bow on the left and starboard up, beside the section
where one sits, seen from astern; both in the boat's own metres.

And how it lies and is tied, to starboard from astern, drawn large: a panel where one sits, slats
at both frames that they lie on. Over each board's edges stand two figures: off the centre line,
and its top over the strongback."""

from functools import lru_cache

import numpy as np
from shapely.geometry import LineString, MultiPoint, Polygon, box
from shapely.ops import unary_union

from sizer.drawing.hull_lines import top_lines
from sizer.drawing.marks import MIRROR, apart, line, size_line, unit_of
from sizer.drawing.measured import label, measured, words_width_m
from sizer.drawing.record import Drawing, Path, Text, joined
from sizer.drawing.told import Told, in_mm, in_tenths, read, size, told
from sizer.hull.seat import SIT_APART_M
from sizer.scenes.sections import section_at
from sizer.shop.boards import hull_at, sticks_at
from sizer.shop.seat_drawing import least_clear_m
from sizer.shop.seat_parts import boards
from sizer.shop.shapes import ring_path
from sizer.shop.stations import setting_up

BEYOND_M = 0.060  # of the plan beyond the seat's ends; our drawing
BESIDE_M = 0.030  # shown outside the outermost board; our drawing
PORT_M = 0.035  # shown to port of the centre line, for the keel's lashing; our drawing
UNDER_M, OVER_M = 0.010, 0.030  # shown under the keel and over the seat; our drawing
WIDEST = Told("0000.0", '00 00/00"')  # a figure as wide as any
CORD_M = 0.0015  # from a lashing as drawn to what it goes round; our drawing


@lru_cache(maxsize=16)  # a job's, at the scales tried, for pages of every size
def seat_views(seat, boat, letters_m):
    """The Drawing of a SeatBuilt in its boat: plan, and section beside it."""
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


@lru_cache(maxsize=16)  # a job's, at the scales tried, for pages of every size
def seat_detail(seat, boat, frames, baseline_m, unit, letters_m):
    """The Drawing of a SeatBuilt among FramePatterns, heights over the strongback by the height of
    the baseline over it, with room for the figures as a reader reads them; None of a sling, which
    is not to be built."""
    if seat.kind == "sling":
        return None
    if seat.kind == "panel":
        return _view(_panel(seat, boat), seat.boards, baseline_m, (letters_m, unit),
                     ((SIT_APART_M, seat.top_m),))
    views, left = [], 0.0
    for frame in (one for one in frames if one.name in seat.stands_on):
        laid = boards(boat, frame.x_m)
        view = _view(_slats(frame, laid), laid, baseline_m, (letters_m, unit))
        low = view.box_m[1] - 2.0 * letters_m
        named = Drawing("", (*view.strokes, label((0.0, low), frame.name, letters_m, "middle")))
        views.append(named.moved((left - named.box_m[0], 0.0)))
        left = views[-1].box_m[2] + 2.0 * letters_m
    return joined("seat, how it lies", views)


def _panel(seat, boat):
    """Skin, sticks and plates where one sits, and each lashing round its stick and its holes."""
    skin, sticks = hull_at(boat, [seat.sit_x_m])[0], sticks_at(boat, seat.sit_x_m)
    window = _window(skin, seat.boards)
    yield from _clipped(LineString(np.concatenate([skin[::-1] * (-1.0, 1.0), skin])), window, "ink")
    for stick in sticks.geoms:
        if stick.intersects(window):
            yield ring_path("block", stick.exterior)
    holes = [hole * (side, 1.0) for board in seat.boards for hole in _holes(seat, board)
             for side in (1.0, -1.0)]
    for stick in sticks.geoms:
        near = [hole for hole in holes if stick.distance(LineString(hole)) < 2.0 * PORT_M]
        if near and stick.intersects(window) and stick.bounds[2] > 0.0:
            yield ring_path("fine", unary_union([stick, MultiPoint(np.concatenate(near))])
                            .convex_hull.buffer(CORD_M).exterior)
    for hole in holes:
        if hole[0, 0] > -PORT_M:
            yield line("mark", *hole)
    for board in seat.boards:
        yield Path("cut", board.section_m, closed=True)
        yield from _clipped(Polygon(board.section_m * (-1.0, 1.0)).exterior, window, "cut")


def _holes(seat, board):
    """Under and upper end of the holes of a plate as far out as they are where one sits."""
    low, high = board.section_m[0], board.section_m[1]
    along = (high - low) / np.hypot(*(high - low))
    up = board.section_m[-1] - low
    (front, inner), (_, outer_front), (back, _), (_, outer_back) = board.holes_m
    at = seat.sit_x_m - seat.front_x_m
    for out in (inner, np.interp(at, (front, back), (outer_front, outer_back))):
        yield np.array([low + out * along, low + out * along + up])


def _slats(frame, laid):
    """The frame's wood as sawn, its sticks, the slats on it, and each lashing round its floor."""
    window = _window(frame.section.skin_m, laid)
    yield from _clipped(frame.section.outline().exterior, window, "guide")
    for ring in (frame.wood.exterior, *frame.wood.interiors):
        yield from _clipped(LineString(ring), window, "cut")
    for notch in frame.section.notches:
        if window.contains(notch.stock()):
            yield ring_path("block", notch.stock().exterior)
    for board in laid:
        yield Path("cut", board.section_m, closed=True)
        inner, outer = board.section_m[:2]
        top = board.section_m[-1]
        wide = board.size_m[0]
        for out in sorted({out for _, out in board.holes_m}):
            y, high = top + (outer - inner) * out / wide
            floor = frame.wood.intersection(LineString([(y, -1.0), (y, high)])).bounds[1]
            yield line("fine", (y, high), (y, floor))


def _window(skin, laid):
    """What is shown of the section, a rectangle."""
    sections = np.concatenate([board.section_m for board in laid])
    return box(-PORT_M, float(skin[0, 1]) - UNDER_M, float(sections[:, 0].max()) + BESIDE_M,
               float(sections[:, 1].max()) + OVER_M)


def _clipped(shape, window, pen):
    found = shape.intersection(window)
    for part in getattr(found, "geoms", [found]):
        if not part.is_empty:
            yield Path(pen, np.asarray(part.coords))


def _view(strokes, laid, baseline, how, also=()):
    """Strokes with the figures of the boards' edges, and of spots on their tops, over them."""
    letters, unit = how
    drawn = Drawing("", tuple(strokes)).moved((0.0, baseline))
    spots = [spot for board in laid for spot in board.section_m[:-3:-1]]
    spots = sorted([*spots, *map(np.array, also)], key=lambda spot: spot[0])
    spots = spots + np.array([0.0, baseline])
    over = drawn.box_m[3] + letters
    step = words_width_m(read(WIDEST, unit), letters)
    places = apart(spots[:, 0].tolist(), step)
    marks = []
    for (half, high), place in zip(spots, places, strict=True):
        marks += [line("extension", (half, high), (place, over)),
                  *(label((place, over + up * letters), read(in_tenths(value), unit), letters,
                          "middle") for up, value in ((2.4, half), (0.8, high)))]
    left = min(drawn.box_m[0], float(places[0]) - step) - 0.5 * letters
    names = [label((left, over + up * letters), text, letters, "end")
             for up, text in ((2.4, "off"), (0.8, "up"))]
    return Drawing("", (*drawn.strokes, *marks, *names))
