"""The boat from above, with its opening and its paddler."""

import numpy as np

from sizer.web.drawings.figure import plan_figure
from sizer.web.drawings.hull_lines import top_lines, waterline, widest
from sizer.web.drawings.marks import (
    BODY_HIDDEN,
    BODY_SHAPE,
    CENTRE_LINE,
    EXTENSION_LINE,
    INK_LINE,
    NARROW,
    PENCIL_LINE,
    WATER_LINE,
    WIDE,
    WOOD_LINE,
    View,
    broken_edge,
    dimension,
    drawing,
    legend,
    path,
    paths,
    words,
)
from sizer.web.drawings.profile import AHEAD_OF_FEET_M, BEHIND_SEAT_M, SIDE_MARGIN

WIDTH_LINE_M = 0.10  # of the opening's width dimension behind the opening
MIRROR = np.array([1.0, -1.0])


def plan_svg(boat, base_boat, particulars, person, length_text, narrow=False):
    """View from above: gunwale and opening in ink, base in pencil, the body, the waterline.

    Parameters as `profile_svg`.
    """
    parts, height = (_narrow if narrow else _wide)(
        boat, base_boat, particulars, person, length_text)
    opening = boat.opening
    sentence = (
        f"View from above of {boat.design.name}: beam {length_text(boat.beam_m)}, cockpit opening "
        f"{length_text(opening.length_m)} long and {length_text(opening.width_m)} wide, with the "
        "paddler's hips, legs and shoulders.")
    return drawing(NARROW if narrow else WIDE, height, "View from above", sentence, parts)


def _wide(boat, base, particulars, person, length_text):
    view = _whole(boat, base, WIDE, SIDE_MARGIN, 30.0)
    low = float(view.at(0.0, -_half(boat, base))[1])
    parts = [*_lines(boat, base, particulars, person, view, None), legend(8.0, 20.0),
             *_sizes(boat, view, WIDE - 14.0, low + 24.0, length_text)]
    return parts, low + 50.0


def _narrow(boat, base, particulars, person, length_text):
    small = _whole(boat, base, NARROW, 6.0, 28.0)
    middle = float(small.at(0.0, -_half(boat, base))[1]) + 16.0
    foot = boat.seat_x_m - float(plan_figure(person, boat.design.cockpit.entry).legs_m[:, 0].max())
    span = (foot - AHEAD_OF_FEET_M, boat.seat_x_m + BEHIND_SEAT_M)
    large = View(span[0], _half(boat, base), 6.0, middle + 26.0,
                 (NARROW - 26.0) / (span[1] - span[0]))
    low = float(large.at(0.0, -_half(boat, base))[1])
    parts = [*_lines(boat, base, particulars, person, small, None), legend(4.0, 14.0),
             *_lines(boat, base, particulars, person, large, span),
             *_sizes(boat, large, NARROW - 10.0, low + 24.0, length_text)]
    return parts, low + 50.0


def _half(boat, base):
    return 0.5 * max(boat.beam_m, base.beam_m)


def _whole(boat, base, width, margin, top):
    front = min(0.0, 0.5 * (boat.length_m - base.length_m))
    scale = (width - 2.0 * margin) / max(boat.length_m, base.length_m)
    return View(front, _half(boat, base), margin, top, scale)


def _lines(boat, base, particulars, person, view, span):
    """Water, base, frames, sticks, body, outline and opening, back to front."""
    before = top_lines(base, span, 0.5 * (boat.length_m - base.length_m))
    lines = top_lines(boat, span)

    def on_paper(several):
        return [view.at(*one.T) for one in several]

    def both_sides(several):
        return on_paper([*several, *(one * MIRROR for one in several)])

    figure = plan_figure(person, boat.design.cockpit.entry)
    legs, shoulders, head = (view.at(boat.seat_x_m - outline[:, 0], outline[:, 1])
                             for outline in (figure.legs_m, figure.shoulders_m, figure.head_m))
    cuts = [] if span is None else [
        broken_edge(*view.at(*np.array([lines.sheer[i], lines.sheer[i] * MIRROR]).T))
        for i in (0, -1)]
    front, back = boat.opening.front_x_m, boat.opening.back_x_m
    ridge = lines.deck[:, 0]
    ridges = [lines.deck[ridge <= front], lines.deck[ridge >= back]]
    surface = waterline(boat, particulars, span)
    return [
        paths(both_sides([surface]), WATER_LINE),
        paths(both_sides([before.sheer]), PENCIL_LINE),
        path(view.at(*before.coaming.T), PENCIL_LINE, closed=True),
        paths(on_paper(lines.frames), WOOD_LINE), paths(both_sides(lines.sticks), WOOD_LINE),
        paths(on_paper(ridges), CENTRE_LINE),
        path(legs, BODY_HIDDEN, closed=True), path(shoulders, BODY_SHAPE, closed=True),
        path(head, BODY_SHAPE, closed=True),
        path(view.at(*lines.coaming.T), INK_LINE, closed=True),
        paths(both_sides([lines.sheer]), INK_LINE), *cuts]


def _sizes(boat, view, margin, below, length_text):
    """Beam at the right margin; the opening's length below and its width behind it."""
    opening = boat.opening
    at_m, half = widest(boat)
    sides = view.at(np.array([at_m, at_m]), np.array([half, -half]))
    beam = sides * (0.0, 1.0) + (margin, 0.0)
    ends = view.at(np.array([opening.front_x_m, opening.back_x_m]), 0.0)
    length = ends * (1.0, 0.0) + (0.0, below)
    turn = np.linspace(0.0, 1.0, 101) * opening.length_m + opening.front_x_m
    widest_m = float(turn[opening.half_width_m(turn).argmax()])
    rim = view.at(np.array([widest_m, widest_m]), opening.width_m * np.array([0.5, -0.5]))
    width = view.at(opening.back_x_m + WIDTH_LINE_M, opening.width_m * np.array([0.5, -0.5]))
    return [
        paths([np.array([sides[0], beam[0]]), np.array([sides[1], beam[1]]),
               np.array([ends[0], length[0]]), np.array([ends[1], length[1]]),
               np.array([rim[0], width[0]]), np.array([rim[1], width[1]])], EXTENSION_LINE),
        dimension(beam[0], beam[1], f"beam {length_text(boat.beam_m)}",
                  (beam[0, 0] + 6.0, beam[0, 1] - 8.0), "end"),
        dimension(length[0], length[1], f"cockpit length {length_text(opening.length_m)}",
                  (length[:, 0].mean(), below + 18.0)),
        dimension(width[0], width[1]),
        words((width[0, 0] + 8.0, width[:, 1].mean() - 6.0), "width", "start", rim=True),
        words((width[0, 0] + 8.0, width[:, 1].mean() + 15.0), length_text(opening.width_m),
              "start", "sz-size", rim=True)]
