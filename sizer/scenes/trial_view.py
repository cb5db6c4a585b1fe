"""The steadiness trial, drawn from above: who is where, where the lath lies and where the weight.
"""

import numpy as np

from sizer.drawing import marks
from sizer.drawing.record import CAP_HEIGHT, LINE_HEIGHT, Path

# Our drawing, all of it, and no body measure: half a helper, half a paddler along and across, how
# far a helper's middle stands from the gunwale.
HELPER_M, BODY_M, ASIDE_M = (0.14, 0.22), (0.13, 0.21), 0.36
ARMS_M = 0.10  # half of what is between a helper's arms
WEIGHT_M, LATH_M = 0.09, 0.03  # side of the weight, width of the lath
BEYOND_M, BESIDE_M = 0.45, 0.85  # of the boat drawn beyond the one helper, beyond the weight's
STEPS = 61  # of a line along the boat
TURN = np.linspace(0.0, 2.0 * np.pi, 16, endpoint=False)


def trial_view(boat, hold, at, text, narrow=False):
    """The picture of one reading at a TrialPlace, the weight to starboard, the bow to the left; one
    helper at the Station where he holds, the other beside the weight; `text` writes metres."""
    opening, behind = boat.opening, at.x_m >= boat.opening.back_x_m
    one_x, two_x = hold.x_m, at.x_m + 0.5 * BEYOND_M
    if not behind:  # the weight ahead of the opening: the first helper stands behind it
        one_x, two_x = opening.back_x_m + 0.5 * BEYOND_M, at.x_m - 0.5 * BEYOND_M
    first, last = sorted((one_x, two_x))
    ahead, after = (BEYOND_M, BESIDE_M) if behind else (BESIDE_M, BEYOND_M)
    span = np.linspace(max(first - ahead, 0.0), min(last + after, boat.length_m), STEPS)
    half = _half_m(boat, span)
    out = float(half.max()) + ASIDE_M
    paper = marks.paper_round((span[0], -out - HELPER_M[1], span[-1], out + HELPER_M[1]),
                              marks.NARROW if narrow else 0.55 * marks.WIDE, 6.0, 6.0, 6.0)
    unit = paper.unit_m
    lath_x = lath_at_m(boat, behind)
    reach = float(_half_m(boat, np.array([lath_x]))[0])
    rim = np.linspace(opening.front_x_m, opening.back_x_m, STEPS)
    rims = np.column_stack([rim, opening.half_width_m(rim)])
    side = np.column_stack([span, half])
    near, away = ("end", "start") if behind else ("start", "end")
    beside = 1.0 if behind else -1.0
    sized = at.x_m + beside * (0.5 * WEIGHT_M + 8.0 * unit)
    strokes = [
        Path("ink", side), Path("ink", side * marks.MIRROR), Path("ink", rims),
        Path("ink", rims * marks.MIRROR), marks.line("centre", (span[0], 0.0), (span[-1], 0.0)),
        _across(boat, at.x_m), *_held(boat, one_x, -out + HELPER_M[1]),
        Path("body", _oval((boat.seat_x_m - BODY_M[0], 0.0), BODY_M), closed=True),
        marks.box("block", lath_x - 0.5 * LATH_M, -reach, lath_x + 0.5 * LATH_M, reach),
        marks.box("block", at.x_m - 0.5 * WEIGHT_M, at.off_centre_m - 0.5 * WEIGHT_M,
            at.x_m + 0.5 * WEIGHT_M, at.off_centre_m + 0.5 * WEIGHT_M),
        marks.size_line((sized, 0.0), (sized, at.off_centre_m), unit),
        *_beside((sized + beside * 8.0 * unit, 0.5 * at.off_centre_m), text(at.off_centre_m), unit,
                 away)]
    for who, x, y in ((("helper 1,", "to port"), one_x, -out),
                      (("helper 2,", "to starboard"), two_x, out)):
        strokes += [Path("body", _oval((x, y), HELPER_M), closed=True),
                    *(marks.words((x + HELPER_M[0] + 4.0 * unit, y + up * unit), told, unit,
                                  "start") for told, up in zip(who, (6.0, -12.0), strict=True))]
    strokes += [marks.words((lath_x, reach + 6.0 * unit), "lath, phone on its middle", unit, near),
                marks.words((boat.seat_x_m - BODY_M[0], -reach - 20.0 * unit), "paddler", unit),
                marks.words((at.x_m, reach + 6.0 * unit), f"weight at {at.frame}", unit, away),
                marks.words((span[0], -20.0 * unit), "bow", unit, "start", rim=True)]
    if behind:
        named = one_x + ARMS_M + 4.0 * unit, 6.0 * unit
        strokes += [_across(boat, one_x), marks.words(named, hold.name, unit, "start", rim=True)]
    return marks.picture(
        "Steadiness trial", f"From above: a weight {text(at.off_centre_m)} to starboard of the "
        f"centre line, on the deck at {at.frame}, heels the boat; a phone upright along a lath "
        "across the rim shows by how much; a helper beside each deck.", [paper.on_paper(strokes)])


def _beside(middle, size, unit, anchor):
    """A size beside the middle of its line, the same in other units under it."""
    lines = size.replace(" (", "\n(").split("\n")
    high = LINE_HEIGHT * CAP_HEIGHT * marks.TEXT * unit
    x, y = middle[0], middle[1] - 0.5 * CAP_HEIGHT * marks.TEXT * unit
    for row, part in enumerate(lines):
        down = row - 0.5 * (len(lines) - 1)
        yield marks.words((x, y - down * high), part, unit, anchor, "size", rim=True)


def lath_at_m(boat, behind):
    """Where the lath lies across the rim: behind the paddler's back, or ahead of the body."""
    opening = boat.opening
    if behind:
        return 0.5 * (boat.seat_x_m + opening.back_x_m)
    return 0.5 * (opening.front_x_m + boat.seat_x_m - 2.0 * BODY_M[0])


def _across(boat, x_m):
    """A frame's line, from gunwale to gunwale."""
    half = _half_m(boat, np.array([x_m]))[0]
    return marks.line("thin", (x_m, -half), (x_m, half))


def _held(boat, x_m, from_m):
    """A helper's arms, to the near gunwale and across to the far one."""
    for to, off in ((-1.0, -ARMS_M), (1.0, ARMS_M)):
        half = float(_half_m(boat, np.array([x_m + off]))[0])
        yield marks.line("ink", (x_m + off, from_m), (x_m + off, to * half))


def _half_m(boat, x_m):
    sections = boat.sections
    return np.interp(x_m, sections.x_m, sections.y_m[:, sections.sheer])


def _oval(middle, half_m):
    return marks.smooth(np.column_stack([np.cos(TURN), np.sin(TURN)]) * half_m + middle)
