"""The strongback with all its marks, to scale: from above and, below it, from the side.

Drawn in the boat's own metres along the tape: right is aft from the strongback's forward end. Seen
from above starboard is up; in the side view up is height over the strongback's top.
"""

import numpy as np

from sizer.drawing.record import LETTER_WIDTH, LINE_HEIGHT, Circle, Drawing, Path, Text, joined
from sizer.units import MM_PER_M

STRONGBACK_M = (0.10, 0.09)  # width and depth of the beam as drawn; our drawing
RISER_M = 0.04  # of a riser along the tape; our drawing
RING_M = 0.04  # radius of the ring round a hollow or bump; our drawing
COUNT = 61  # points along the opening
WORD_LETTERS = 3.5  # of a frame's words along the tape, four narrow figures
SHORT = {  # words beside the plan, where the mark's own name is long
    "keel's forward end, in the bow stem": "keel's end",
    "keel's after end, in the stern stem": "keel's end",
    "footbrace, farthest": "footbrace, far",
    "footbrace, this paddler": "footbrace, here",
    "footbrace, nearest": "footbrace, near",
    "seat, front edge": "seat, front",
    "seat, top under the sitting bones": "sitting bones",
    "seat, back of the buttocks": "seat, back",
}


def strongback_drawing(job, bench, letters_m):
    """The Drawing of a job's strongback; letters as high as told, so that they read when scaled.

    Parameters
    ----------
    job : Job
    bench : Bench of it
    letters_m : height of the letters in the boat's metres: that on paper over the scale
    """
    above = _from_above(job, bench, letters_m)
    beside = _from_the_side(job, bench, letters_m)
    gap = above.box_m[1] - beside.box_m[3] - 1.5 * letters_m
    return joined("strongback", [above, beside.moved((0.0, gap))])


def _from_above(job, bench, letters):
    boat, up = job.fitted.assessed.boat, job.setting_up
    sections, start = boat.sections, up.strongback_start_x_m
    half = STRONGBACK_M[0] / 2.0
    side = sections.y_m[:, sections.sheer]
    along = sections.x_m - start
    strokes = [Path("guide", np.column_stack([along, sign * side])) for sign in (1.0, -1.0)]
    strokes += [Path("guide", np.array([(along[0], 0.0), (along[-1], 0.0)])),
                _box("cut", 0.0, -half, up.strongback_length_m, half)]
    x = np.linspace(boat.opening.front_x_m, boat.opening.back_x_m, COUNT)
    rim = boat.opening.half_width_m(x)
    strokes.append(Path("mark", np.column_stack([np.append(x, x[::-1]) - start,
                                                 np.append(rim, -rim[::-1])]), closed=True))
    for station, place in zip(up.stations, _word_places(up, letters), strict=True):
        strokes += _frame_from_above(station, place, half, float(side.max()) + letters, letters)
    strokes += _marks(bench.marks, -float(side.max()) - 0.5 * letters, half, letters)
    strokes += _rings(bench.unfair, "plan", start, 0.0, 1, letters)
    return Drawing("from above", tuple(strokes))


def _word_places(up, letters):
    """Where each frame's words stand along the tape: at its mark, moved where two would meet."""
    return _apart([one.strongback_m for one in up.stations], WORD_LETTERS * LETTER_WIDTH * letters)


def _frame_from_above(station, place, half, top, letters):
    """Reference face, plywood, riser, name and mark of one frame."""
    mark = station.strongback_m
    away = 1.0 if station.plywood_lies == "aft" else -1.0
    reach = max(y for y, _ in station.points_m.values())
    yield Path("cut", np.array([(mark, -reach), (mark, reach)]))
    yield _box("mark", mark, -reach, mark + away * station.thickness_m, reach)
    yield _box("mark", mark, -half, mark - away * RISER_M, half)
    tip = mark + away * (station.thickness_m + 0.5 * letters)
    yield Path("mark", np.array([(mark, reach + 0.4 * letters), (tip, reach + 0.15 * letters),
                                 (mark, reach - 0.1 * letters)]), closed=True)
    yield Text("text", (place, top + 1.7 * letters), letters, station.name)
    yield Text("text", (place, top + 0.2 * letters), letters, f"{mark * MM_PER_M:.0f}")


def _marks(marks, bottom, half, letters):
    """The other marks: a line from the tape down to words that stand upright, clear of others."""
    step = LINE_HEIGHT * letters
    places = _apart([mark.strongback_m for mark in marks.marks], step)
    for mark, place in zip(marks.marks, places, strict=True):
        words = f"{SHORT.get(mark.name, mark.name)} {mark.strongback_m * MM_PER_M:.0f}"
        long = 0.8 * LETTER_WIDTH * letters * len(words)
        yield Path("guide", np.array([(mark.strongback_m, half), (mark.strongback_m, bottom),
                                      (place, bottom - letters)]))
        yield Text("text", (place, bottom - 1.5 * letters - 0.5 * long), letters, words, 90.0)


def _apart(wanted, step):
    """The places, moved as little as keeps neighbours one step apart; `wanted` rises."""
    order = np.arange(len(wanted)) * step
    free = np.asarray(wanted) - order
    blocks = []  # of equal shift: the mean of what they want, merged while they would cross
    for value in free:
        blocks.append([value, 1])
        while len(blocks) > 1 and blocks[-2][0] > blocks[-1][0]:
            (one, count), (other, more) = blocks[-2:]
            blocks[-2:] = [[(one * count + other * more) / (count + more), count + more]]
    return np.repeat([value for value, _ in blocks], [count for _, count in blocks]) + order


def _from_the_side(job, bench, letters):
    """Over each frame its gunwale's height, under it its keel's, both over the strongback's top."""
    boat, up = job.fitted.assessed.boat, job.setting_up
    sections, start, base = boat.sections, up.strongback_start_x_m, up.baseline_height_m
    along = sections.x_m - start
    strokes = [Path("guide", np.column_stack([along, sections.z_m[:, column] + base]))
               for column in (0, sections.sheer, -1)]
    strokes.append(_box("cut", 0.0, -STRONGBACK_M[1], up.strongback_length_m, 0.0))
    top = float(sections.z_m.max()) + base + letters
    row = -STRONGBACK_M[1] - 1.3 * letters
    for station, place, riser in zip(up.stations, _word_places(up, letters), bench.marks.risers,
                                     strict=True):
        mark = station.strongback_m
        away = 1.0 if station.plywood_lies == "aft" else -1.0
        high = max(z for _, z in station.points_m.values())
        strokes += [
            Path("cut", np.array([(mark, station.keel_height_m), (mark, high)])),
            _box("mark", mark, station.keel_height_m, mark + away * station.thickness_m, high),
            _box("mark", mark, 0.0, mark - away * RISER_M, riser.height_m),
            Text("text", (place, top), letters, f"{station.gunwale_height_m * MM_PER_M:.0f}"),
            Text("text", (place, row), letters, f"{station.keel_height_m * MM_PER_M:.0f}")]
    strokes += _rings(bench.unfair, "profile", start, base, 2, letters)
    return Drawing("from the side", tuple(strokes))


def _rings(unfair, axis, start, base, column, letters):
    """A numbered ring round every hollow or bump that does not pass."""
    shown = [one for one in unfair if one.status != "pass"]
    for number, one in enumerate(shown, start=1):
        if one.axis == axis:
            at = (one.point_m[0] - start, one.point_m[column] + base)
            yield Circle("cut", at, RING_M)
            yield Text("text", (at[0], at[1] + RING_M + letters), letters, f"!{number}")


def _box(layer, left, low, right, high):
    return Path(layer, np.array([(left, low), (right, low), (right, high), (left, high)]),
                closed=True)
