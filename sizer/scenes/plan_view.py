"""The boat from above, with its opening and its paddler."""

import numpy as np
from shapely import box as box_of

from sizer.drawing import marks
from sizer.drawing.hull_lines import waterline, widest
from sizer.drawing.one_scale import beside_boat, long_paper
from sizer.drawing.record import Path
from sizer.scenes.afloat import ends_m
from sizer.scenes.figure import plan_figure
from sizer.scenes.flesh import without
from sizer.scenes.hull_views import plan_hull, plan_pencil
from sizer.scenes.side_view import CLOSE_MARGIN, SIDE_MARGIN, WIDE_INSET, close_span_m

WIDTH_LINE_M = 0.10  # of the opening's width dimension behind the opening
BELOW = 50.0  # room under the boat for the opening's length
PADDLE = 16.0  # of the paddle shown beyond the gunwales, mm of paper


def plan_view(boat, base_boat, particulars, person, length_text, narrow=False):
    """View from above: gunwale and opening in ink, base in pencil, the body, the waterline.

    Parameters as `side_view`.
    """
    what = (boat, base_boat, particulars, plan_figure(person, boat.design.cockpit.entry))
    opening = boat.opening
    return marks.picture("View from above", (
        f"View from above of {boat.design.name}: beam {length_text(boat.beam_m)}, cockpit opening "
        f"{length_text(opening.length_m)} long and {length_text(opening.width_m)} wide, with the "
        "paddler's hips, legs and shoulders."),
        (_narrow if narrow else _wide)(*what, length_text))


def _wide(boat, base, particulars, figure, length_text):
    paper = long_paper(_box(boat, base), marks.WIDE, SIDE_MARGIN, 30.0, BELOW)
    return [paper.on_paper([
        *_lines(boat, base, particulars, figure, paper, None),
        *marks.legend(paper.at(8.0, 20.0), paper.unit_m), *_sizes(boat, paper, beside_boat(
            paper, _box(boat, base), SIDE_MARGIN - WIDE_INSET)[1], length_text)])]


def _narrow(boat, base, particulars, figure, length_text):
    front, port, back, starboard = _box(boat, base)
    small = long_paper((front, port, back, starboard), marks.NARROW, 6.0, 28.0, 16.0)
    span = close_span_m(boat, figure.legs_m)
    large = marks.paper_round((span[0], port, span[1], starboard), marks.NARROW, CLOSE_MARGIN, 26.0,
                              BELOW)
    return [small.on_paper([*_lines(boat, base, particulars, figure, small, None),
                            *marks.legend(small.at(4.0, 14.0), small.unit_m)]),
            large.on_paper([*_lines(boat, base, particulars, figure, large, span),
                            *_sizes(boat, large, large.at(marks.NARROW - 10.0, 0.0)[0],
                                    length_text)])]


def _box(boat, base):
    front, back, _ = ends_m(boat, base)
    half = 0.5 * max(boat.beam_m, base.beam_m)
    return front, -half, back, half


def _lines(boat, base, particulars, figure, paper, span):
    """Water, base, frames, sticks, body, outline and opening, back to front."""
    hull = plan_hull(boat, paper.unit_m, span)
    surface = waterline(boat, particulars, span)
    legs, trunk, head, *paddle = (outline * (-1.0, 1.0) + (boat.seat_x_m, 0.0) for outline in (
        figure.legs_m, figure.trunk_m, figure.head_m, *figure.paddle_m))
    far = widest(boat)[1] + PADDLE * paper.unit_m  # of the paddle's line from the middle
    return [
        Path("waterline", surface), Path("waterline", surface * marks.MIRROR),
        *plan_pencil(base, span, ends_m(boat, base)[2]), *hull.wood,
        Path("hidden-body", legs, closed=True), Path("body", trunk, closed=True),
        Path("body", head, closed=True), *hull.outline,
        *(Path("paddle", part) for line in paddle for part in without(
            line, box_of(-99.0, far, 99.0, 99.0), box_of(-99.0, -99.0, 99.0, -far)))]


def _sizes(boat, paper, right, length_text):
    """Beam at an x on the right; the opening's length below and its width behind it."""
    opening, unit = boat.opening, paper.unit_m
    at_m, half = widest(boat)
    sides, beam = np.array([(at_m, half), (at_m, -half)]), np.array([(right, half), (right, -half)])
    below = paper.frame_m[1] + (BELOW - 24.0) * unit
    ends = np.array([(opening.front_x_m, 0.0), (opening.back_x_m, 0.0)])
    length = np.add(ends, (0.0, below))
    turn = np.linspace(0.0, 1.0, 101) * opening.length_m + opening.front_x_m
    half = 0.5 * opening.width_m
    rim, width = (np.array([(x, half), (x, -half)]) for x in (
        turn[opening.half_width_m(turn).argmax()], opening.back_x_m + WIDTH_LINE_M))
    beside = width[0, 0] + 8.0 * unit
    return [
        *(Path("extension", np.array(line)) for start, end in (
            (sides, beam), (ends, length), (rim, width)) for line in zip(start, end, strict=True)),
        *marks.dimension(*beam, unit, f"beam {length_text(boat.beam_m)}",
                   beam[0] + np.array([6.0, 8.0]) * unit, "end"),
        *marks.dimension(*length, unit, f"cockpit length {length_text(opening.length_m)}",
                   (length[:, 0].mean(), below - 18.0 * unit)),
        marks.size_line(*width, unit),
        marks.words((beside, 6.0 * unit), "width", unit, "start", rim=True),
        marks.words((beside, -15.0 * unit), length_text(opening.width_m), unit, "start", "size",
              rim=True)]
