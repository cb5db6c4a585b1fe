"""The strongback with all its marks, to scale: from above and, below it, from the side.

Drawn in the boat's own metres along the tape: right is aft from the strongback's forward end. Seen
from above starboard is up; in the side view up is height over the strongback's top.
"""

import numpy as np

from sizer.drawing.hull_lines import side_lines, top_lines
from sizer.drawing.marks import MIRROR, apart, box, line, unit_of
from sizer.drawing.record import LETTER_WIDTH, LINE_HEIGHT, Drawing, Path, Text, joined
from sizer.drawing.told import in_mm
from sizer.scenes.hull_views import rings
from sizer.shop.bench_marks import RIM_MARKS
from sizer.shop.cross_feet import SECTION_M
from sizer.shop.risers import FOOT_M, LEG_M
from sizer.shop.seat import SIT_MARK
from sizer.shop.stem_posts import FOOT_LONG_M, STOCK_M
from sizer.shop.sundries import BEAM_M

NARROW_FIGURE = 0.97  # of a letter: a frame's words are figures
SHORT = {  # words beside the plan, where the mark's own name is long
    "bow stem's post, inner face": "bow post",
    "stern stem's post, inner face": "stern post",
    "keel's forward end, in the bow stem": "keel's end",
    "keel's after end, in the stern stem": "keel's end",
    "footbrace, farthest": "footbrace, far",
    "footbrace, this paddler": "footbrace, here",
    "footbrace, nearest": "footbrace, near",
    "seat, front edge": "seat, front",
    **dict(zip(RIM_MARKS, ("rim, front", "rim, back"), strict=True)),
    SIT_MARK: "sitting bones",
    "seat, back of the buttocks": "seat, back",
}


def strongback_drawing(job, bench, letters_m, text=in_mm):
    """The Drawing of a job's strongback; `text` writes a figure in m."""
    above = _from_above(job, bench, letters_m, text)
    beside = _from_the_side(job, bench, letters_m, text)
    gap = above.box_m[1] - beside.box_m[3] - 1.5 * letters_m
    return joined("strongback", [above, beside.moved((0.0, gap))])


def _from_above(job, bench, letters, text):
    boat, up = job.fitted.assessed.boat, job.setting_up
    lines, half = top_lines(boat, shift_m=-up.strongback_start_x_m), BEAM_M[0] / 2.0
    widest = max(float(lines.sheer[:, 1].max()), *(
        0.5 * one.foot_m for one in bench.marks.risers), 0.5 * bench.cross_feet.long_m)
    strokes = [*(Path("guide", one) for one in (lines.sheer, lines.sheer * MIRROR)),
               Path("guide", lines.deck[[0, -1]]),
               box("cut", 0.0, -half, up.strongback_length_m, half),
               Path("mark", lines.coaming, closed=True)]
    places = _word_places(up, letters, text)
    for station, place, riser in zip(up.stations, places, bench.marks.risers, strict=True):
        strokes += _frame_from_above(station, place, riser, (widest + letters, letters), text)
    for post in bench.marks.posts:
        strokes += [_lying("mark", post.tape_m, STOCK_M), _lying("extension", post.foot_tape_m,
                                                                 FOOT_LONG_M)]
    for tape in bench.cross_feet.tapes_m:
        strokes.append(_lying("extension", (tape - 0.5 * SECTION_M[0], tape + 0.5 * SECTION_M[0]),
                              bench.cross_feet.long_m))
    for one in _laths(bench):
        ends = one.ends_m[:, :2]
        strokes += [Path("here", ends), Path("here", ends * MIRROR)]
    strokes += _marks(bench.marks, (-widest - 0.5 * letters, half), letters, text)
    strokes += _rings(bench, "plan", (-up.strongback_start_x_m, 0.0), letters)
    return Drawing("from above", tuple(strokes))


def _laths(bench):
    """The laths that stay stems and legs, of which a way is drawn."""
    return *bench.stays, *(one for one in bench.leg_stays if one.clear)


def _word_places(up, letters, text):
    """Where each frame's words stand along the tape: at its mark, moved where two would meet."""
    longest = max(len(figure) for one in up.stations for figure in map(text, (
        one.strongback_m, one.gunwale_height_m, one.keel_height_m)))
    return apart([one.strongback_m for one in up.stations],
                 NARROW_FIGURE * longest * LETTER_WIDTH * letters)


def _frame_from_above(station, place, riser, words, text):
    """Reference face, plywood, riser, name and mark of one frame; words: (height, letters)."""
    top, letters = words
    mark = station.strongback_m
    away = 1.0 if station.plywood_lies == "aft" else -1.0
    reach = max(y for y, _ in station.points_m.values())
    yield line("cut", (mark, -reach), (mark, reach))
    yield box("mark", mark, -reach, mark + away * station.thickness_m, reach)
    boards = [(riser.inner_m, riser.outer_m)]
    if riser.leg_m is not None:
        boards.append((riser.leg_m, riser.leg_m + LEG_M))
    left, right = riser.boards_tape_m
    for inner, outer in boards:
        for side in (1.0, -1.0):
            yield box("mark", left, side * inner, right, side * outer)
    yield _lying("extension", riser.foot_tape_m, riser.foot_m)
    tip = mark + away * (station.thickness_m + 0.5 * letters)
    yield Path("mark", np.array([(mark, reach + 0.4 * letters), (tip, reach + 0.15 * letters),
                                 (mark, reach - 0.1 * letters)]), closed=True)
    yield Text("text", (place, top + 1.7 * letters), letters, station.name)
    yield Text("text", (place, top + 0.2 * letters), letters, text(mark))


def _lying(pen, tape, across):
    """Something of that breadth across the beam's middle, from above."""
    return box(pen, tape[0], -0.5 * across, tape[1], 0.5 * across)


def _marks(marks, ends, letters, text):
    """The other marks: a line from the tape down to words that stand upright, clear of others."""
    bottom, half = ends
    step = LINE_HEIGHT * letters
    places = apart([mark.strongback_m for mark in marks.marks], step)
    for mark, place in zip(marks.marks, places, strict=True):
        words = f"{SHORT.get(mark.name, mark.name)} {text(mark.strongback_m)}"
        long = 0.8 * LETTER_WIDTH * letters * len(words)
        yield line("guide", (mark.strongback_m, half), (mark.strongback_m, bottom),
                   (place, bottom - letters))
        yield Text("text", (place, bottom - 1.5 * letters - 0.5 * long), letters, words, 90.0)


def _from_the_side(job, bench, letters, text):
    """Over each frame its gunwale's height, under it its keel's, both over the strongback's top."""
    boat, up = job.fitted.assessed.boat, job.setting_up
    start, base = up.strongback_start_x_m, up.baseline_height_m
    lines = side_lines(boat, shift_m=-start)
    strokes = [Path("guide", np.add(one, (0.0, base)))
               for one in (lines.bottom, lines.sheer, lines.deck, lines.coaming)]
    strokes.append(box("cut", 0.0, -BEAM_M[1], up.strongback_length_m, 0.0))
    top = max(float(boat.sections.z_m.max()) + base,
              *(riser.height_m for riser in bench.marks.risers)) + letters
    row = -BEAM_M[1] - SECTION_M[1] - 1.3 * letters
    places = _word_places(up, letters, text)
    for station, place, riser in zip(up.stations, places, bench.marks.risers, strict=True):
        mark = station.strongback_m
        away = 1.0 if station.plywood_lies == "aft" else -1.0
        high = max(z for _, z in station.points_m.values())
        strokes += [
            line("cut", (mark, station.keel_height_m), (mark, high)),
            box("mark", mark, station.keel_height_m, mark + away * station.thickness_m, high),
            *_riser_from_the_side(riser),
            Text("text", (place, top), letters, text(station.gunwale_height_m)),
            Text("text", (place, row), letters, text(station.keel_height_m))]
    for post in bench.marks.posts:
        strokes += [_upright("mark", post.tape_m, 0.0, post.inner_floor_m),
                    _upright("extension", post.foot_tape_m, 0.0, STOCK_M)]
    for tape in bench.cross_feet.tapes_m:
        strokes.append(_upright("extension", (tape - 0.5 * SECTION_M[0], tape + 0.5 * SECTION_M[0]),
                                -BEAM_M[1] - SECTION_M[1], -BEAM_M[1]))
    strokes += [Path("here", one.ends_m[:, ::2]) for one in _laths(bench)]
    strokes += _rings(bench, "profile", (-start, base), letters)
    return Drawing("from the side", tuple(strokes))


def _riser_from_the_side(riser):
    """Its cheek, or hanger and leg, its foot and a bar."""
    yield _upright("mark", riser.boards_tape_m, riser.low_m, riser.height_m)
    yield _upright("extension", riser.foot_tape_m, 0.0, FOOT_M[1])
    if riser.leg_m is not None:
        yield _upright("extension", riser.boards_tape_m, 0.0, riser.low_m)
        yield _upright("extension", riser.foot_tape_m, *riser.bar_m)


def _upright(pen, tape, low, high):
    """Something between those heights, from the side."""
    return box(pen, tape[0], low, tape[1], high)


def _rings(bench, axis, shift, letters):
    """A numbered ring round every hollow or bump that does not pass."""
    shown = [one for one in bench.unfair if one.status != "pass"]
    return Drawing("rings", tuple(rings(shown, axis, unit_of(letters), "cut", "!"))).moved(
        shift).strokes
