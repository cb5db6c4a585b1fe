"""What is asked for at the bench, drawn: one frame with one measure on it, or the strongback."""

import numpy as np

from sizer.built.asked import ACROSS, DIAGONAL, HALF, HEIGHT, LENGTH, MARK
from sizer.built.points import CENTRE
from sizer.drawing.marks import NARROW, WIDE, box, dimension, line, paper_round, picture, words
from sizer.drawing.record import Circle, Path

BESIDE, OVER, UNDER = 34.0, 26.0, 30.0  # mm of paper round a frame
FRAME_WIDE = 460.0  # mm of paper: a frame need not fill a desk
DOT = 4.0
BEAM_M = (0.05, 0.03)  # half the strongback's width as drawn, and how much of its depth


def asked_view(points, setting_up, asked, text, narrow=False):
    """The picture of one Asked of a boat's Points; `text` writes metres, narrow is for a phone."""
    if asked.what in (MARK, LENGTH):
        return _along(points, setting_up, asked, text, narrow)
    return _frame(points, setting_up.baseline_height_m, asked, text, narrow)


def _frame(points, base_m, asked, text, narrow):
    """The frame seen from the stern, so that starboard is to the right, on its strongback."""
    at = {key[::2]: (sign * place[0], place[1] + base_m) for key, sign, place in zip(
        points.keys, points.sign, points.at, strict=True) if key[1] == asked.frame}
    corners = np.array(list(at.values()))
    reach = np.abs(corners[:, 0]).max()
    paper = paper_round((-reach, -BEAM_M[1], reach, corners[:, 1].max()),
                        NARROW if narrow else FRAME_WIDE, BESIDE, OVER, UNDER)
    unit = paper.unit_m
    strokes = [box("block", -BEAM_M[0], -BEAM_M[1], BEAM_M[0], 0.0),
               line("centre", (0.0, -BEAM_M[1]), (0.0, corners[:, 1].max())),
               Path("fine", _round(corners), closed=True)]
    strokes += [Circle("mark", place, 0.5 * DOT * unit) for place in map(tuple, corners)]
    strokes += _measure(asked, at, unit, text)
    low = -BEAM_M[1] - 18.0 * unit
    strokes += [words((-reach, low), "port", unit, "start"),
                words((reach, low), "starboard", unit, "end")]
    return picture(asked.words, f"{asked.words}: frame {asked.frame} seen from the stern, with "
                   "what is measured.", [paper.on_paper(strokes)])


def _round(corners):
    """Corners of a frame in one way round, by their direction from the middle."""
    middle = corners.mean(axis=0)
    return corners[np.argsort(np.arctan2(*(corners - middle).T))]


def _measure(asked, at, unit, text):
    """The measure's own line, its points heavy."""
    said, name = text(asked.designed_m), asked.stringer
    if asked.what == ACROSS:
        ends = [at["port", name], at["starboard", name]]
    elif asked.what == DIAGONAL:
        ends = [at[asked.side, name], at[asked.to[0], asked.to[2]]]
    else:
        y, z = at[asked.side, name]
        ends = [(y, z), (0.0, z) if asked.what == HALF else (y, 0.0)]
    middle = np.mean(ends, axis=0)
    over = 6.0 * unit
    place = (middle[0] + over, middle[1]) if asked.what == HEIGHT else (middle[0], middle[1] + over)
    heavy = ends if asked.what in (ACROSS, DIAGONAL) else ends[:1]
    out = [line("extension", (min(0.0, ends[0][0]), 0.0), (max(0.0, ends[0][0]), 0.0))]
    if asked.what == HEIGHT and asked.side != CENTRE:
        out.append(line("guide", (0.0, 0.0), (ends[0][0], 0.0)))
    inward = asked.what == HEIGHT and ends[0][0] > 0.0
    return [*out, *(Circle("here", end, DOT * unit) for end in heavy),
            *dimension(*ends, unit, said, (place[0] - 2.0 * over * inward, place[1]),
                       {HEIGHT: "end" if inward else "start"}.get(asked.what, "middle"), True)]


def _along(points, setting_up, asked, text, narrow):
    """The strongback from the side: every mark, and what is measured along it."""
    start = setting_up.strongback_start_x_m
    right = max(points.length_m - start, setting_up.strongback_length_m)
    paper = paper_round((min(-start, 0.0), 0.0, right, 0.05 * right), NARROW if narrow else WIDE,
                        16.0, 70.0, 34.0)
    unit = paper.unit_m
    deep = 14.0 * unit
    strokes = [box("block", 0.0, -deep, setting_up.strongback_length_m, 0.0)]
    for station in setting_up.stations:
        here = station.name == asked.frame
        strokes.append(line("here" if here else "fine", (station.strongback_m, 0.0),
                            (station.strongback_m, (34.0 if here else 22.0) * unit)))
    high = 52.0 * unit
    ends = (0.0, asked.designed_m) if asked.what == MARK else (-start, points.length_m - start)
    strokes += [line("extension", (end, 0.0), (end, high)) for end in ends]
    strokes += dimension((ends[0], high), (ends[1], high), unit, text(asked.designed_m),
                         (np.mean(ends), high + 6.0 * unit), rim=True)
    said = ("from the strongback's forward end to the frame's reference face"
            if asked.what == MARK else "from the foremost point of the boat to the aftmost")
    strokes.append(words((right, -deep - 16.0 * unit), "bow to the left", unit, "end"))
    return picture(asked.words, f"{asked.words}: {said}.", [paper.on_paper(strokes)])
