"""How much room the body has in the boat: the middle part, large, from the side and from above.

The numbers are the engine's checks; only where their marks stand is worked out here.
"""

from dataclasses import dataclass, replace

import numpy as np

from sizer.design.records import SIT_AHEAD_M
from sizer.drawing.marks import (
    NARROW,
    STATUS_MARK,
    WIDE,
    box,
    broken_edge,
    line,
    paper_round,
    picture,
    size_line,
    status_mark,
    words,
)
from sizer.drawing.record import Path
from sizer.fit.assess import THIGH_AHEAD_M, UNDER_DECK_M
from sizer.fit.check import Check
from sizer.fit.checks import checks_of
from sizer.fit.facts import facts_of
from sizer.hull.inside import DECK_BEAM_M
from sizer.scenes.afloat import scene_of
from sizer.scenes.figure import plan_figure, up_to
from sizer.scenes.hull_views import plan_hull, side_hull
from sizer.scenes.seat_shapes import seat_plan_m, seat_side
from sizer.shop.leg_room import heels_z_m

AHEAD_OF_FEET_M, BEHIND_SEAT_M = 0.36, 0.27  # of the boat shown past the foot rest and the seat
MARGIN = 14.0  # beside the boat
TRUNK_SHOWN_M = 0.36  # of the paddler above the seat
LINE = 16.0  # from one line of words to the next
BELOW = 118.0  # room under the view from above: the footbrace, the key
APART = 18.0  # least distance between the marks at thighs and knees


@dataclass(frozen=True)
class Mark:
    """One clearance: across a line at `x_m`, from `floor_m` the body's need and the clear space."""

    name: str
    check: Check
    x_m: float
    floor_m: float  # where both are measured from; 0 for a width, half to each side

    @property
    def need_m(self):
        """What the likely body takes, dressed."""
        return self.check.window_si[0]

    @property
    def clear_m(self):
        return self.check.value_si


def marks_of(assessed):
    """Marks from the side (feet, knees, thighs), from above (feet, hips), of the footbrace."""
    boat, room = assessed.boat, assessed.room
    found = {check.key: check for check in checks_of(facts_of(assessed))}
    covered = boat.opening.front_x_m - UNDER_DECK_M
    feet = boat.seat_x_m - room.foot_rest_ahead_m
    floor, seat = heels_z_m(boat, feet), boat.seat_z_m
    side = (
        Mark("feet", found["feet"], feet, floor),
        Mark("knees", found["knees"],
             min(boat.seat_x_m - room.knee_ahead_m, covered), seat),
        Mark("thighs", found["thighs"],
             min(boat.seat_x_m - THIGH_AHEAD_M, covered), seat))
    above = (
        Mark("feet together", found["feet-wide"], feet, 0.0),
        Mark("hips, both sides together", found["hips"], boat.seat_x_m - SIT_AHEAD_M, 0.0))
    brace = (Mark("footbrace, ahead", found["brace-far"], feet, 0.0),
             Mark("footbrace, behind", found["brace-near"], feet, 0.0))
    return side, above, brace


def clearances(assessed, body, length_text, narrow=False):
    """Side view and view from above of the cockpit, with the room at thighs, knees, feet and hips
    that a Body has; `length_text` as in `side_view`."""
    boat, width = assessed.boat, NARROW if narrow else WIDE
    side_marks, plan_marks, braces = marks_of(assessed)
    span = (side_marks[0].x_m - AHEAD_OF_FEET_M, boat.seat_x_m + BEHIND_SEAT_M)
    unit = (span[1] - span[0]) / (width - 2.0 * MARGIN)
    hull = side_hull(boat, unit, span)
    deck = hull.deck.points_m
    ahead = float(deck[deck[:, 0] < side_marks[1].x_m, 1].max())
    top, keel = boat.seat_z_m + TRUNK_SHOWN_M, float(hull.bottom.points_m[:, 1].min())
    over = 46.0 + max(0.0, 27.0 - (top - ahead) / unit)
    half = 0.5 * boat.beam_m
    side = paper_round((span[0], keel, span[1], top), width, MARGIN, over, 0.0)
    above = paper_round((span[0], -half, span[1], half), width, MARGIN, 62.0, BELOW)
    said = "; ".join(f"{mark.name} {spare_text(mark.check, length_text)}"
                     for mark in (*side_marks, *plan_marks, *braces))
    return picture("Room for the body", f"Room for the body in {boat.design.name}: {said}.", [
        side.on_paper([*_side(assessed, body, hull, unit, length_text),
                       *_side_marks(side_marks, side, ahead, length_text)]),
        above.on_paper([*_plan(assessed, body, span, unit),
                        *_plan_marks(plan_marks, above, length_text),
                        *_brace(assessed, braces, above, length_text), *_key(above)])])


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


def _side(assessed, body, hull, unit, length_text):
    """Frames, sticks, body to the trunk, outline, back to front."""
    boat = assessed.boat
    scene = scene_of(boat, boat, assessed.particulars, body, length_text)
    outline = scene.body(up_to(scene.figure, TRUNK_SHOWN_M))
    return [*hull.wood, Path("body-fill", outline, closed=True), Path("body-line", outline),
            broken_edge(outline[0], outline[-1], unit),
            Path("edge", scene.body(scene.figure.foot_rest_m)), *seat_side(boat), *hull.outline]


def _side_marks(marks, paper, deck_m, length_text):
    """Upright marks from seat or floor to the deck beam; knees left of their line, thighs right."""
    feet, knees, thighs = marks
    unit, head = paper.unit_m, paper.frame_m[3]
    apart = max(0.0, APART * unit - (thighs.x_m - knees.x_m)) / 2.0
    over = deck_m + 10.0 * unit
    for mark, shift, top in ((feet, 0.0, over - 4.0 * unit), (knees, -apart, head - 6.0 * unit),
                             (thighs, apart, head - 6.0 * unit)):
        x = mark.x_m + shift
        floor, need, clear, beam = np.array([(x, mark.floor_m + height) for height in (
            0.0, mark.need_m, mark.clear_m, mark.clear_m + DECK_BEAM_M)])
        yield line("extension", beam, (x, top))
        yield line("edge", clear, beam)
        yield line("bar", floor, need)
        yield _spare(need, clear, mark.check, unit)
        place, anchor = {
            "feet": (paper.at(4.0, (head - over) / unit), "start"),
            "knees": (np.array([x - 6.0 * unit, head - 33.0 * unit]), "end"),
            "thighs": (np.array([x + 6.0 * unit, head - 33.0 * unit]), "start")}[mark.name]
        yield from _label(place, anchor, mark, length_text, unit)


def _plan(assessed, body, span, unit):
    """Frames, sticks, legs, gunwale and opening from above."""
    boat = assessed.boat
    hull = plan_hull(boat, unit, span)
    legs = plan_figure(body, boat.design.cockpit.entry).legs_m
    return [*hull.wood, *(Path("wood", board, closed=True) for board in seat_plan_m(boat)),
            Path("hidden-body", legs * (-1.0, 1.0) + (boat.seat_x_m, 0.0), closed=True),
            *hull.outline]


def _plan_marks(marks, paper, length_text):
    """Marks across the boat, their words above it."""
    unit = paper.unit_m
    left, row = paper.at(4.0, 18.0 + LINE)
    for mark in marks:
        outer, inner, other, last = np.array([
            (mark.x_m, half) for half in (0.5 * mark.clear_m, 0.5 * mark.need_m,
                                          -0.5 * mark.need_m, -0.5 * mark.clear_m)])
        yield line("extension", (mark.x_m, row - 4.0 * unit), outer)
        yield line("bar", inner, other)
        yield _spare(inner, outer, mark.check, unit)
        yield _spare(other, last, mark.check, unit)
        feet = mark is marks[0]
        place = (left if feet else mark.x_m + 20.0 * unit, row)
        yield from _label(place, "start" if feet else "end", mark, length_text, unit)


def _brace(assessed, marks, paper, length_text):
    """How far the footbrace goes either way from where the legs want it, below the boat."""
    boat, unit = assessed.boat, paper.unit_m
    low = paper.frame_m[1] + (BELOW - 20.0) * unit
    near, far = assessed.space.footbrace_m
    fore, rest, back = np.array([(boat.seat_x_m - ahead, low) for ahead in (
        far, assessed.room.foot_rest_ahead_m, near)])
    farther, nearer = marks
    yield line("extension", (rest[0], -0.5 * assessed.space.foot_width_m), rest)
    yield _spare(rest, fore, farther.check, unit)
    yield _spare(rest, back, nearer.check, unit)
    row = low - (24.0 + LINE) * unit
    yield from _label((paper.at(4.0, 0.0)[0], row), "start", farther, length_text, unit)
    yield from _label((rest[0] + 80.0 * unit, row), "start", nearer, length_text, unit)


def _spare(start, end, check, unit):
    """From the body's need to the clear space; in the colour of failing where it is negative."""
    return size_line(start, end, unit, "short" if spare_m(check) < 0.0 else "dimension")


def _label(place, anchor, mark, length_text, unit):
    """Name over number; the number with its shape where it does not plainly pass."""
    x, low = place
    yield words((x, low + LINE * unit), mark.name, unit, anchor)
    if mark.check.status != "pass":
        left = x if anchor == "start" else x - STATUS_MARK * unit
        yield from status_mark((left, low - 2.0 * unit), mark.check.status, unit)
        x += (1.0 if anchor == "start" else -1.0) * (STATUS_MARK + 4.0) * unit
    yield words((x, low), spare_text(mark.check, length_text), unit, anchor, "size")


def _key(paper):
    unit, bar = paper.unit_m, np.array([(0.0, 4.0), (22.0, 4.0)])
    for right, up, text, stroke in (
            (0.0, 18.0, "body, dressed", Path("bar", bar)),
            (142.0, 18.0, "spare room", size_line(*bar, 1.0)),
            (250.0, 18.0, "deck beam", Path("edge", bar)),
            (0.0, 0.0, "seat, backband", box("block", 0.0, 1.0, 22.0, 7.0)),
            (142.0, 0.0, "footbrace", Path("edge", bar))):
        at = paper.at(4.0 + right, paper.below - 12.0 - up)
        yield replace(stroke, points_m=stroke.points_m * unit + at)
        yield words(np.add(at, (28.0 * unit, 0.0)), text, unit, "start")
