"""How much room the body has in the boat: the middle part, large, from the side and from above.

The numbers are the engine's checks; only where their marks stand is worked out here.
"""

from dataclasses import dataclass

import numpy as np

from sizer.design.records import SIT_AHEAD_M
from sizer.fit.assess import THIGH_AHEAD_M, UNDER_DECK_M
from sizer.fit.checks import Check, checks_of
from sizer.fit.facts import facts_of
from sizer.hull.inside import DECK_BEAM_M
from sizer.hull.sections import half_section_at
from sizer.paddler.legs import FEET_APART_M
from sizer.web.drawings.figure import plan_figure
from sizer.web.drawings.hull_lines import side_lines, top_lines
from sizer.web.drawings.marks import (
    BODY_BAR,
    BODY_FILL,
    BODY_HIDDEN,
    BODY_LINE,
    CENTRE_LINE,
    EXTENSION_LINE,
    INK_LINE,
    NARROW,
    SIZE_LINE,
    STATUS_MARK,
    THIN_LINE,
    WIDE,
    WOOD_BLOCK,
    WOOD_EDGE,
    WOOD_LINE,
    View,
    broken_edge,
    dimension,
    drawing,
    path,
    paths,
    status_mark,
    status_pen,
    words,
)
from sizer.web.drawings.scene import scene_of, without_arms
from sizer.web.drawings.seat_shapes import backband_m, seat_plan_m, seat_side_m

AHEAD_OF_FEET_M, BEHIND_SEAT_M = 0.36, 0.27  # of the boat shown past the foot rest and the seat
MARGIN = 14.0  # beside the boat
TRUNK_SHOWN_M = 0.36  # of the paddler above the seat
LINE = 16.0  # from one line of words to the next
APART = 18.0  # least distance between the marks at thighs and knees
SHORT_LINE = f'class="sz-short" {status_pen("fail")}'
MIRROR = np.array([1.0, -1.0])


@dataclass(frozen=True)
class Mark:
    """One clearance: across a line at `x_m`, from `floor_m` the body's need and the clear space."""

    name: str
    check: Check
    x_m: float
    floor_m: float  # where both are measured from; 0 for a width, half to each side

    @property
    def need_m(self):
        """What the body takes, dressed and at the large end of its ±."""
        return self.check.window_si[0]

    @property
    def clear_m(self):
        """What the boat has there."""
        return self.check.value_si


def marks_of(assessed):
    """Marks from the side (feet, knees, thighs), from above (feet, hips), of the footbrace."""
    boat, room = assessed.boat, assessed.room
    found = {check.key: check for check in checks_of(facts_of(assessed))}
    covered = boat.opening.front_x_m - UNDER_DECK_M
    feet = boat.seat_x_m - room.foot_rest_ahead_m
    y, z = half_section_at(boat.sections, feet)
    hull = slice(0, boat.sections.sheer + 1)
    floor = float(np.interp(FEET_APART_M, y[hull], z[hull]))
    seat = boat.seat_z_m
    side = (
        Mark("feet", found["feet"], feet, floor),
        Mark("knees", found["knees"],
             min(boat.seat_x_m - room.knee_ahead_m, covered), seat),
        Mark("thighs", found["thighs"],
             min(boat.seat_x_m - THIGH_AHEAD_M, covered), seat))
    above = (
        Mark("feet together", found["feet-wide"], feet, 0.0),
        Mark("hips, both sides", found["hips"], boat.seat_x_m - SIT_AHEAD_M, 0.0))
    brace = (Mark("footbrace farther", found["brace-far"], feet, 0.0),
             Mark("footbrace nearer", found["brace-near"], feet, 0.0))
    return side, above, brace


def clearances_svg(assessed, body, length_text, narrow=False):
    """Side view and view from above of the cockpit, with the room at thighs, knees, feet and hips.

    Parameters
    ----------
    assessed : Assessed
    body : Body
    length_text : callable from m to the words of a dimension
    narrow : for a phone
    """
    boat, width = assessed.boat, NARROW if narrow else WIDE
    side_marks, plan_marks, braces = marks_of(assessed)
    span = (side_marks[0].x_m - AHEAD_OF_FEET_M, boat.seat_x_m + BEHIND_SEAT_M)
    scale = (width - 2.0 * MARGIN) / (span[1] - span[0])
    lines = side_lines(boat, span)
    ahead = float(lines.deck[lines.deck[:, 0] < side_marks[1].x_m, 1].max())
    top_m = boat.seat_z_m + TRUNK_SHOWN_M
    top = 46.0 + max(0.0, 27.0 - (top_m - ahead) * scale)
    side = View(span[0], top_m, MARGIN, top, scale)
    keel = float(side.at(0.0, float(lines.bottom[:, 1].min()))[1])
    above = View(span[0], 0.5 * boat.beam_m, MARGIN, keel + 62.0, scale)
    low = float(above.at(0.0, -0.5 * boat.beam_m)[1])
    parts = [
        *_side(assessed, body, lines, side, length_text),
        *_side_marks(side_marks, side, ahead, length_text),
        *_plan(assessed, body, span, above),
        *_plan_marks(plan_marks, above, keel + 18.0, length_text),
        *_brace(assessed, braces, above, low + 20.0, length_text),
        *_key(low + 88.0)]
    said = "; ".join(f"{mark.name} {spare_text(mark.check, length_text)}"
                     for mark in (*side_marks, *plan_marks, *braces))
    return drawing(width, low + 118.0, "Room for the body", f"Room for the body in "
                   f"{boat.design.name}: {said}.", parts)


def spare_m(check):
    """What a check of the body's room has over the body's need; negative where it pinches."""
    return check.value_si - check.window_si[0]


def spare_text(check, length_text):
    """What is over the need, in words."""
    spare = spare_m(check)
    size = length_text(abs(spare))
    if size == length_text(0.0):
        return "just short" if spare < 0.0 else "just fits"
    if spare < 0.0:
        return f"{size} short"
    return {"small": f"only {size}", "large": f"{size}: loose"}.get(check.too, f"{size} spare")


def _side(assessed, body, lines, view, length_text):
    """Frames, sticks, body to the trunk, outline, back to front."""
    boat = assessed.boat
    scene = scene_of(boat, boat, assessed.particulars, body, length_text)
    outline = view.at(*scene.body(without_arms(scene.figure, body, TRUNK_SHOWN_M)))
    brace = view.at(*scene.body(scene.figure.foot_rest_m))
    seat, band, tie = (view.at(*line.T) for line in (seat_side_m(boat), *backband_m(boat)))
    ends = [view.at(*np.array([lines.bottom[i], lines.deck[i]]).T) for i in (0, -1)]
    return [
        paths([view.at(*line.T) for line in (*lines.frames, *lines.sticks)], WOOD_LINE),
        path(outline, BODY_FILL, closed=True), path(outline, BODY_LINE),
        broken_edge(outline[0], outline[-1]),
        path(brace, WOOD_EDGE), path(seat, WOOD_BLOCK, closed=True),
        path(band, WOOD_BLOCK, closed=True), path(tie, WOOD_LINE),
        path(view.at(*lines.sheer.T), THIN_LINE),
        paths([view.at(*line.T) for line in (lines.bottom, lines.deck, lines.coaming)], INK_LINE),
        *(broken_edge(*end) for end in ends)]


def _side_marks(marks, view, deck_m, length_text):
    """Upright marks from seat or floor to the deck beam; knees left of their line, thighs right."""
    feet, knees, thighs = marks
    apart = max(0.0, APART - (thighs.x_m - knees.x_m) * view.scale) / 2.0
    below = float(view.at(0.0, deck_m)[1]) - 10.0
    parts = []
    for mark, shift, top in ((feet, 0.0, below + 4.0), (knees, -apart, 6.0), (thighs, apart, 6.0)):
        heights = np.array([0.0, mark.need_m, mark.clear_m, mark.clear_m + DECK_BEAM_M])
        at = np.add(view.at(mark.x_m, mark.floor_m + heights), (shift, 0.0))
        parts += [path(np.array([at[3], (at[3, 0], top)]), EXTENSION_LINE),
                  path(at[2:], WOOD_EDGE), path(at[:2], BODY_BAR),
                  _spare(at[1], at[2], mark.check)]
        place, anchor = {"feet": ((4.0, below), "start"),
                         "knees": ((at[0, 0] - 6.0, 33.0), "end"),
                         "thighs": ((at[0, 0] + 6.0, 33.0), "start")}[mark.name]
        parts += _label(place, anchor, mark, length_text)
    return parts


def _plan(assessed, body, span, view):
    """Frames, sticks, legs, gunwale and opening from above."""
    boat = assessed.boat
    lines = top_lines(boat, span)
    legs = plan_figure(body, boat.design.cockpit.entry).legs_m
    both = [side for one in lines.sticks for side in (one, one * MIRROR)]
    sheers = [lines.sheer, lines.sheer * MIRROR]
    return [
        paths([view.at(*line.T) for line in (*lines.frames, *both)], WOOD_LINE),
        path(view.at(np.array(span), 0.0), CENTRE_LINE),
        *(path(view.at(*line.T), WOOD_LINE, closed=True) for line in seat_plan_m(boat)),
        path(view.at(boat.seat_x_m - legs[:, 0], legs[:, 1]), BODY_HIDDEN, closed=True),
        path(view.at(*lines.coaming.T), INK_LINE, closed=True),
        paths([view.at(*line.T) for line in sheers], INK_LINE),
        *(broken_edge(*(view.at(*line[i]) for line in sheers)) for i in (0, -1))]


def _plan_marks(marks, view, top, length_text):
    """Marks across the boat, their words above it."""
    parts = []
    for mark in marks:
        need, clear = 0.5 * mark.need_m, 0.5 * mark.clear_m
        at = view.at(mark.x_m, np.array([clear, need, -need, -clear]))
        parts += [path(np.array([(at[0, 0], top + LINE + 4.0), at[0]]), EXTENSION_LINE),
                  path(at[1:3], BODY_BAR), _spare(at[1], at[0], mark.check),
                  _spare(at[2], at[3], mark.check)]
        feet = mark is marks[0]
        place = (4.0, top + LINE) if feet else (at[0, 0] + 20.0, top + LINE)
        parts += _label(place, "start" if feet else "end", mark, length_text)
    return parts


def _brace(assessed, marks, view, at, length_text):
    """How far the footbrace goes either way from where the legs want it, below the boat."""
    boat = assessed.boat
    near, far = assessed.space.footbrace_m
    x = boat.seat_x_m - np.array([far, assessed.room.foot_rest_ahead_m, near])
    ends = view.at(x, 0.0) * (1.0, 0.0) + (0.0, at)
    rest = view.at(x[1], -0.5 * assessed.space.foot_width_m)
    farther, nearer = marks
    return [path(np.array([rest, ends[1]]), EXTENSION_LINE),
            _spare(ends[1], ends[0], farther.check), _spare(ends[1], ends[2], nearer.check),
            *_label((4.0, at + 24.0 + LINE), "start", farther, length_text),
            *_label((ends[1, 0] + 80.0, at + 24.0 + LINE), "start", nearer, length_text)]


def _spare(start, end, check):
    """From the body's need to the clear space; in the colour of failing where it is negative."""
    return dimension(start, end, pen=SHORT_LINE if spare_m(check) < 0.0 else SIZE_LINE)


def _label(place, anchor, mark, length_text):
    """Name over number; the number with its shape where it does not plainly pass."""
    x, low = place
    parts = [words((x, low - LINE), mark.name, anchor)]
    if mark.check.status != "pass":
        toward = 1.0 if anchor == "start" else -1.0
        parts.append(status_mark((x if toward > 0.0 else x - STATUS_MARK, low + 2.0),
                                 mark.check.status))
        x += toward * (STATUS_MARK + 4.0)
    return [*parts, words((x, low), spare_text(mark.check, length_text), anchor, "sz-size")]


def _key(at):
    bar = np.array([(4.0, at - 4.0), (26.0, at - 4.0)])
    low = at + 18.0
    board = np.array([(4.0, low - 7.0), (26.0, low - 7.0), (26.0, low - 1.0), (4.0, low - 1.0)])
    return [path(bar, BODY_BAR), words((32.0, at), "body, dressed", "start"),
            dimension(*np.add(bar, (142.0, 0.0))), words((174.0, at), "spare room", "start"),
            path(np.add(bar, (250.0, 0.0)), WOOD_EDGE), words((282.0, at), "deck beam", "start"),
            path(board, WOOD_BLOCK, closed=True), words((32.0, low), "seat, backband", "start"),
            path(np.add(bar, (142.0, 18.0)), WOOD_EDGE), words((174.0, low), "footbrace", "start")]
