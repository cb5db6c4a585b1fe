"""A stick to scale along its length, folded into rows, with every mark of its tape; and its ends
and scarf in the views in which their slopes are seen.

Drawn in the stick's own metres, the bow on the left. On the card its outer face is towards the
eye, of a pair the port one's with its upper edge up; across it is drawn larger, by ACROSS.
Frames stand over it, scarfs, tapers and ends under it. An end is seen in profile with its cut,
and, where it is bevelled, under it from above with its outer face down; what is sawn off dashed,
with the tape's first or last mark. A scarf on the face that its slope runs over, the outer face
down."""

from functools import lru_cache
from itertools import pairwise
from math import ceil

import numpy as np

from sizer.drawing.marks import apart, box, broken_edge, line
from sizer.drawing.measured import label, measured
from sizer.drawing.record import LETTER_WIDTH, Drawing, Path, Text, side_by_side
from sizer.drawing.told import READERS, in_marks, in_mm, read, told
from sizer.shop.stick_marks import bevel_back_m, beyond_m, cut_high_m, scarf_faces, stick_marks
from sizer.shop.stringers import ALLOWANCE_M, bent_thickness_m

ACROSS = 3.0  # times the scale along it; our drawing
ROW_LETTERS = 9.8  # of a row's height, and the stick's; our drawing
NARROW = 0.85  # of a letter's usual width, for figures
APART = 0.6  # of a letter, between two words; our drawing
TAIL_M = 0.030  # of the stick shown inboard of an end's cut or a scarf; our drawing


@lru_cache(maxsize=256)  # a job's, at the scales tried: the plan set has them and a file of its own
def stick_card(stick, row_m, letters_m, unit=READERS[0]):
    """The Drawing of a Stick, `row_m` of it in one row, its figures in a reader's unit: marks move
    along for the room that theirs takes."""
    wide = ACROSS * stick.stringer.width_m
    step = wide + ROW_LETTERS * letters_m
    marks = stick_marks(stick)
    strokes = []
    for row in range(ceil(stick.length_m / row_m - 1e-9)):
        start, end = row * row_m, min((row + 1) * row_m, stick.length_m)
        shift = np.array([-start, -row * step])
        own = Drawing("", (*_body(stick, marks, (start, end), wide, letters_m),
                           *_marks(stick, marks, (start, end, row_m), wide, letters_m,
                                  unit)))
        strokes += own.moved(shift).strokes
    return Drawing(stick.name, tuple(strokes))


def crowded(card):
    """Whether two words on one line of a stick's card stand nearer than APART of a letter."""
    lines = {}
    for one in card.strokes:
        if isinstance(one, Text):
            wide = one.width_m + APART * LETTER_WIDTH * one.height_m
            lines.setdefault(round(one.at_m[1], 6), []).append((one.at_m[0], wide))
    return any(other - at < 0.5 * NARROW * (one + more) for line in lines.values()
               for (at, one), (other, more) in pairwise(sorted(line)))


def _body(stick, marks, ends, wide, letters):
    """The stick from one place to another; where it goes on in another row its edge is broken."""
    start, end = ends
    places, widths = _widths(stick)
    whole = [one.along_m for one in marks if one.kind == "taper"]
    at = np.unique([start, *(one for one in (*places, *whole) if start < one < end), end])
    gone = wide - ACROSS * np.interp(at, places, widths)
    ahead = stick.forward.planed if stick.forward.taper else stick.after.planed
    planed = np.where(at > stick.length_m / 2.0, stick.after.planed or ahead, ahead)
    upper = np.column_stack([at, wide / 2.0 - np.where(planed == "upper", gone, 0.0)])
    lower = np.column_stack([at, np.where(planed == "lower", gone, 0.0) - wide / 2.0])
    for away, cut in ((at, stick.forward), (stick.length_m - at, stick.after)):
        if cut.sides and cut.sides.taper_m:
            off = 0.5 * ACROSS * (cut.sides.width_m - cut.sides.end_width_m)
            upper[:, 1] -= np.interp(away, (0.0, cut.sides.taper_m), (off, 0.0))
            lower[:, 1] += np.interp(away, (0.0, cut.sides.taper_m), (off, 0.0))
    for edge, cut in ((0, stick.forward), (-1, stick.after)):
        if at[edge] in (0.0, stick.length_m):
            out = beyond_m(stick, cut) if cut.kind == "stem side" else np.zeros(2)
            upper[edge, 0], lower[edge, 0] = at[edge] + (out if edge else -out)
    yield Path("ink", upper)
    yield Path("ink", lower)
    for place, edge in ((start, 0), (end, -1)):
        low, high = lower[edge], upper[edge]
        if place in (0.0, stick.length_m):
            yield line("ink", low, high)
        else:
            yield broken_edge(low, high, letters / 9.0)


def _widths(stick):
    """Places along a stick and the width there."""
    full = stick.stringer.width_m
    fore, aft = (end.taper.widths_m if end.taper else ((0.0, full),)
                 for end in (stick.forward, stick.after))
    return np.transpose([*fore, *((stick.length_m - place, width) for place, width in aft[::-1])])


def _marks(stick, marks, row, wide, letters, unit):
    start, end, row_m = row
    last = end >= stick.length_m
    shown = [mark for mark in marks
             if start <= mark.along_m < end or (last and mark.along_m == stick.length_m)]
    crossings = {one.along_m: one for one in stick.crossings}
    for mark in shown:
        if mark.kind == "frame":
            yield from _frame(crossings[mark.along_m], wide, letters)
        elif mark.kind == "scarf":
            pen = "guide" if "starboard" in mark.what else "cut"
            yield from _scarf(stick, mark.along_m, wide / 2.0, pen)
        else:
            yield line("fine", (mark.along_m, -wide / 2.0 - 0.6 * letters),
                       (mark.along_m, -wide / 2.0))
    frames = [mark for mark in shown if mark.kind == "frame"]
    others = [mark for mark in shown if mark.kind != "frame"]
    yield from _labels(frames, [(mark.what.split(",")[0], in_marks(mark.along_m))
                                for mark in frames], (start, start + row_m), wide / 2.0, 1.0,
                       letters, unit)
    yield from _labels(others, [(in_marks(mark.along_m), _short(mark)) for mark in others],
                       (start, start + row_m), -wide / 2.0, -1.0, letters, unit)


def _scarf(stick, middle, half, pen):
    """On the outer face: the slope itself where it runs through the width, else the joint's line
    there, square across at its after end."""
    reach = stick.joints.scarf_m / 2.0
    fore = middle - reach if stick.stringer.width_m < stick.stringer.depth_m else middle + reach
    yield line(pen, (fore, -half), (middle + reach, half))


def _frame(crossing, wide, letters):
    """A frame's plywood, its reference face the heavier line."""
    reach = wide / 2.0 + 0.6 * letters
    yield box("block", min(crossing.along_m, crossing.far_m), -wide / 2.0,
              max(crossing.along_m, crossing.far_m), wide / 2.0)
    yield line("here", (crossing.along_m, -wide / 2.0), (crossing.along_m, reach))


def _labels(marks, words, row, edge, away, letters, unit):
    """Two lines of words at every mark, moved along where they would meet, with a line to each."""
    if not marks:
        return
    words = [[read(one, unit) for one in pair] for pair in words]
    widths = [NARROW * LETTER_WIDTH * letters * (2.0 + max(map(len, pair))) for pair in words]
    wanted = [mark.along_m for mark in marks]
    places = _in_row(apart(wanted, max(widths)), row, widths)
    for mark, place, (upper, lower) in zip(marks, places, words, strict=True):
        yield line("extension", (mark.along_m, edge + 0.6 * away * letters),
                   (place, edge + 1.3 * away * letters))
        for text, up in ((upper, 3.8 if away > 0.0 else -2.1), (lower, 2.1 if away > 0 else -3.8)):
            yield Text("text", (float(place), edge + up * letters), letters, text)


def _in_row(places, row, widths):
    """The places, moved so that no word leaves its row: evenly spread where they need all of it."""
    half, count = max(widths) / 2.0, np.arange(len(places))
    low, high = row[0] + half, row[1] - half
    step = min(max(widths), (high - low) / max(1, count[-1]))
    return np.clip(places, low + count * step, high - count[::-1] * step)


def _short(mark):
    """What a mark under the stick is, in few letters."""
    if mark.kind == "scarf":
        side = "P" if "port" in mark.what else "S" if "starboard" in mark.what else ""
        return f"scarf {side}".strip()
    if mark.kind == "taper":
        return told("{} wide", in_marks(mark.width_m))
    return "end"


@lru_cache(maxsize=256)  # as `stick_card`
def stick_details(stick, letters_m):
    """The Drawing of a Stick's cut ends and its scarf; None where it has none of them."""
    views = [_end(stick, end, sign, letters_m)
             for end, sign in ((stick.forward, 1.0), (stick.after, -1.0))
             if end.cut_deg is not None]
    if stick.joints.middles_m or stick.starboard.middles_m:
        views.insert(1, _scarf_seen(stick, letters_m))
    return side_by_side("details", views, 3.0 * letters_m) if views else None


def _end(stick, end, sign, letters):
    """An end whose mark is at x = 0, the stick running to +x where `sign` is 1."""
    (top, low), back = -beyond_m(stick, end), bevel_back_m(stick, end)
    thick, high = bent_thickness_m(stick.stringer)[0], cut_high_m(stick, end)
    inner = end.aslant.inner_m if end.aslant else (top, low)
    inboard = max(*inner, top + (back or 0.0)) + TAIL_M
    shapes = [_ended((top, high), (low, 0.0), inboard)]
    under, under_high = -1.0 * letters, 0.0
    if end.aslant:
        under_high = high
        under = -1.5 * letters - high
        shapes += [_begins(end.aslant, high),
                   _ended((inner[1], under + high), (inner[0], under), inboard)]
    elif back is not None:
        under_high = thick
        under = -1.5 * letters - thick
        shapes.append(_ended((top + back, under + thick), (top, under), inboard))
    strokes = [line(pen, *(np.array(points) * (sign, 1.0)))
               for shape in shapes for pen, points in shape]
    strokes.append(line("extension", (0.0, high + 1.2 * letters), (0.0, under - letters)))
    if under_high:
        spans = [(0.0, inner[0]), (0.0, inner[1])] if end.aslant else [(top, top + back)]
        for row, span in enumerate(spans):
            ends = sorted(sign * one for one in span)
            down = under - (1.2 + 2.2 * row) * letters
            strokes += measured((ends[0], down), (ends[1], down), letters, beside=-1.2)
    tape = "tape 0" if sign > 0.0 else "last mark"
    strokes += [label((0.0, high + 2.0 * letters), tape, letters, "middle"),
                *measured(*sorted(((0.0, high + 3.6 * letters),
                                   (-sign * ALLOWANCE_M, high + 3.6 * letters))), letters,
                          lambda value: told("{} off", in_mm(value)), 1.2)]
    return Drawing("end", tuple(strokes))


def _begins(lay, high):
    """(pen, points) of where an aslant bevel begins on the outer face, dashed."""
    (low, upper), at = lay.outer_m, (0.0, -lay.edges_m[0])
    yield "guide", ((low, 0.0), at) if low > 0.0 else (at, (upper, high))


def _ended(high, low, inboard):
    """(pen, points) of a stick that ends from one place to another, and of what is sawn off."""
    yield "cut", ((inboard, high[1]), high, low, (inboard, low[1]))
    yield "guide", (high, (-ALLOWANCE_M, high[1]), (-ALLOWANCE_M, low[1]), low)


def _scarf_seen(stick, letters):
    long, thick = stick.joints.scarf_m, min(stick.stringer.width_m, stick.stringer.depth_m)
    left, right = -TAIL_M, long + TAIL_M
    beside = right + 1.2 * letters
    seen, _ = scarf_faces(stick)
    return Drawing("scarf", (
        line("cut", (left, thick), (right, thick)), line("cut", (left, 0.0), (right, 0.0)),
        line("cut", (0.0, thick), (long, 0.0)),
        *measured((0.0, -1.2 * letters), (long, -1.2 * letters), letters, beside=-1.2),
        *measured((beside, 0.0), (beside, thick), letters, beside=-1.2),
        label((0.5 * long, thick + 2.6 * letters), "scarf, seen on", letters, "middle"),
        label((0.5 * long, thick + 1.1 * letters), seen, letters, "middle")))
