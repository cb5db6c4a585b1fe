"""The steadiness trial, drawn from above: who is where, where the lath lies and where the weight.
"""

import numpy as np

from sizer.drawing.marks import (
    MIRROR,
    NARROW,
    WIDE,
    box,
    dimension,
    line,
    paper_round,
    picture,
    smooth,
    words,
)
from sizer.drawing.record import Path

# Our drawing, all of it, and no body measure: half a helper, half a paddler along and across, how
# far a helper's middle stands from the gunwale.
HELPER_M, BODY_M, ASIDE_M = (0.14, 0.22), (0.13, 0.21), 0.36
ARMS_M = 0.10  # half of what is between a helper's arms
WEIGHT_M, LATH_M = 0.09, 0.03  # side of the weight, width of the lath
AHEAD_M, BESIDE_M = 0.45, 0.85  # of the boat drawn ahead of the one helper and behind the other
STEPS = 61  # of a line along the boat
TURN = np.linspace(0.0, 2.0 * np.pi, 16, endpoint=False)


def trial_view(boat, hold, at, text, narrow=False):
    """The picture of one reading at a TrialPlace, the weight to starboard, the bow to the left; one
    helper at the Station where he holds, the other beside the weight; `text` writes metres."""
    opening, behind = boat.opening, at.x_m >= boat.opening.back_x_m
    one_x, two_x = hold.x_m, at.x_m + 0.5 * AHEAD_M
    if not behind:  # the weight ahead of the opening: the first helper stands behind it
        one_x, two_x = opening.back_x_m + 0.5 * AHEAD_M, at.x_m - 0.5 * AHEAD_M
    first, last = sorted((one_x, two_x))
    span = np.linspace(max(first - AHEAD_M, 0.0), min(last + BESIDE_M, boat.length_m), STEPS)
    half = _half_m(boat, span)
    out = float(half.max()) + ASIDE_M
    paper = paper_round((span[0], -out - HELPER_M[1], span[-1], out + HELPER_M[1]),
                        NARROW if narrow else 0.55 * WIDE, 6.0, 6.0, 6.0)
    unit = paper.unit_m
    lath_x = lath_at_m(boat, behind)
    reach = float(_half_m(boat, np.array([lath_x]))[0])
    rim = np.linspace(opening.front_x_m, opening.back_x_m, STEPS)
    rims = np.column_stack([rim, opening.half_width_m(rim)])
    side = np.column_stack([span, half])
    end = span[-1] if behind else span[0]  # nearer to the weight
    near, away = ("end", "start") if behind else ("start", "end")
    sized = at.x_m + (1.0 if behind else -1.0) * (0.5 * WEIGHT_M + 8.0 * unit)
    strokes = [
        Path("ink", side), Path("ink", side * MIRROR), Path("ink", rims),
        Path("ink", rims * MIRROR), line("centre", (span[0], 0.0), (span[-1], 0.0)),
        _across(boat, at.x_m), *_held(boat, one_x, -out + HELPER_M[1]),
        Path("body", _oval((boat.seat_x_m - BODY_M[0], 0.0), BODY_M), closed=True),
        box("block", lath_x - 0.5 * LATH_M, -reach, lath_x + 0.5 * LATH_M, reach),
        box("block", at.x_m - 0.5 * WEIGHT_M, at.off_centre_m - 0.5 * WEIGHT_M,
            at.x_m + 0.5 * WEIGHT_M, at.off_centre_m + 0.5 * WEIGHT_M),
        line("thin", (sized, 0.0), (sized, -reach - 24.0 * unit)),
        *dimension((sized, 0.0), (sized, at.off_centre_m), unit, text(at.off_centre_m),
                   (end, -reach - 38.0 * unit), near)]
    for number, x, y in ((1, one_x, -out), (2, two_x, out)):
        strokes += [Path("body", _oval((x, y), HELPER_M), closed=True),
                    words((x + HELPER_M[0] + 4.0 * unit, y), f"helper {number}", unit, "start")]
    strokes += [words((lath_x, reach + 6.0 * unit), "lath, phone on its middle", unit, near),
                words((boat.seat_x_m - BODY_M[0], -reach - 20.0 * unit), "paddler", unit),
                words((at.x_m, reach + 6.0 * unit), f"weight at {at.frame}", unit, away),
                words((span[0], 6.0 * unit), "bow", unit, "start", rim=True),
                words((span[-1], 5.0 * unit), "starboard", unit, "end", rim=True),
                words((span[-1], -16.0 * unit), "port", unit, "end", rim=True)]
    if behind:
        beside = one_x + ARMS_M + 4.0 * unit, 6.0 * unit
        strokes += [_across(boat, one_x), words(beside, hold.name, unit, "start", rim=True)]
    return picture("Steadiness trial", f"From above: a weight {text(at.off_centre_m)} to starboard "
                   f"of the centre line, on the deck at {at.frame}, heels the boat; a "
                   "phone upright along a lath across the rim shows by how much; a helper beside "
                   "each deck.",
                   [paper.on_paper(strokes)])


def lath_at_m(boat, behind):
    """Where the lath lies across the rim: behind the paddler's back, or ahead of the body."""
    opening = boat.opening
    if behind:
        return 0.5 * (boat.seat_x_m + opening.back_x_m)
    return 0.5 * (opening.front_x_m + boat.seat_x_m - 2.0 * BODY_M[0])


def _across(boat, x_m):
    """A frame's line, from gunwale to gunwale."""
    half = _half_m(boat, np.array([x_m]))[0]
    return line("thin", (x_m, -half), (x_m, half))


def _held(boat, x_m, from_m):
    """A helper's arms, to the near gunwale and across to the far one."""
    for to, off in ((-1.0, -ARMS_M), (1.0, ARMS_M)):
        half = float(_half_m(boat, np.array([x_m + off]))[0])
        yield line("ink", (x_m + off, from_m), (x_m + off, to * half))


def _half_m(boat, x_m):
    """Half the boat's width at the sheer."""
    sections = boat.sections
    return np.interp(x_m, sections.x_m, sections.y_m[:, sections.sheer])


def _oval(middle, half_m):
    return smooth(np.column_stack([np.cos(TURN), np.sin(TURN)]) * half_m + middle)
