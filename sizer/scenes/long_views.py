"""The whole boat, small: from the side over from above, as a glance, with rings, or with frames."""

import numpy as np

from sizer.drawing.hull_lines import water_z_m
from sizer.drawing.marks import NARROW, PAPER_M, WIDE, apart, paper_round, picture, water_over
from sizer.drawing.one_scale import SHOWN_M, scale_bar
from sizer.drawing.record import Drawing, Path, Text, joined
from sizer.scenes.hull_views import body_plan, plan_hull, rings, side_hull

GLANCE, BESIDE = 240.0, 460.0  # widths of a glance and of a design beside its table, mm of paper
COLUMN = 34.0  # room beside the sections for the names
NAME_WIDE, NAMES_APART = 3.0, 3.0  # of a name, and round the names, in letters' heights; ours
APART_M = 0.10  # between the two views on paper, and of water past the ends; our drawing


def glance(boat, shown_m, length_text):
    """A small side view over a plan of a Boat, for choosing a base design or comparing boats.

    The width stands for the scale of all pictures, or for `shown_m` where that is more, so that
    boats compare where it is the same for all. `length_text` is from m to words.
    """
    design = boat.design
    shown = max(SHOWN_M, shown_m, boat.length_m)
    bar = paper_round((0.0, 0.0, shown, 0.0), GLANCE, 4.0, 14.0, 10.0)
    return picture(
        design.name, f"{design.name} from the side and from above: {design.character}.",
        [*_side_over_plan(boat, GLANCE, 4.0, (4.0, 12.0, 4.0), shown_m=shown),
         bar.on_paper(scale_bar((0.0, 0.0), bar.unit_m, length_text))])


def fair_marks(boat, unfair, narrow=False):
    """Side view over plan with a numbered ring at each Unfairness, in the order given."""
    return picture("Fairness", f"Fairness of the sticks. {_said(unfair)}.", _side_over_plan(
        boat, NARROW if narrow else WIDE, 14.0, (30.0, 34.0, 24.0), unfair))


def as_drawn(boat, unfair, frame=None):
    """Side view over plan over frames of an unscaled Boat, a numbered ring at each Unfairness, the
    frame of this name heavier."""
    chosen = next((at for at, one in enumerate(boat.design.frames) if one.name == frame), None)
    views = _side_over_plan(boat, BESIDE, 12.0, (22.0, 38.0, 16.0), unfair, chosen)
    half, z = 0.5 * boat.beam_m, boat.sections.z_m
    across = paper_round((-half, z.min(), half, z.max()), BESIDE, COLUMN + 12.0, 22.0, 26.0)
    views.append(across.on_paper(body_plan(boat, across, COLUMN, chosen=chosen)))
    return picture(boat.design.name, f"{boat.design.name} as drawn: side view, plan and frames. "
                   f"Fairness of the sticks: {_said(unfair)}.", views)


def owners_drawing(boat, particulars, letters_m=0.0):
    """The boat afloat from the side over from above, as an owner wants to see it, in its metres;
    its frames are named between both views where letters so high are given."""
    x = np.array([-APART_M, boat.length_m + APART_M])
    surface = np.column_stack([x, water_z_m(boat, particulars, x)])
    low, half = float(boat.sections.z_m.min()), 0.5 * boat.beam_m
    side, plan = side_hull(boat, PAPER_M), plan_hull(boat, PAPER_M)
    under = low - APART_M - NAMES_APART * letters_m
    names = [Text("text", (x, low - 0.5 * APART_M - 0.5 * NAMES_APART * letters_m), letters_m, name)
             for x, name in _named_apart(boat, letters_m)] if letters_m else []
    return joined("boat", [
        Drawing("side", (*water_over(surface, low - 0.5 * APART_M), *side.wood, *side.outline)),
        Drawing("names", tuple(names)),
        Drawing("plan", (*plan.wood, *plan.outline)).moved((0.0, under - half))])


def _named_apart(boat, letters_m):
    """(x, name) of a boat's frames, as far apart as letters so high ask."""
    names = [one.name for one in boat.design.frames]
    return zip(apart(boat.frame_x_m, NAME_WIDE * letters_m).tolist(), names, strict=True)


def _side_over_plan(boat, width, beside, over, unfair=(), chosen=None, shown_m=0.0):
    """The two views on their papers; `over` is the room above, between and below, mm of paper.

    A boat shorter than `shown_m` stands at the left of them.
    """
    long, half, z = boat.length_m, 0.5 * boat.beam_m, boat.sections.z_m
    papers = []
    for hull, axis, low, high, above, below in (
            (side_hull, "profile", z.min(), z.max(), over[0], 0.0),
            (plan_hull, "plan", -half, half, *over[1:])):
        paper = paper_round((0.0, low, max(long, shown_m), high), width, beside, above, below)
        view = hull(boat, paper.unit_m)
        heavy = [] if chosen is None else [Path("edge", view.frames[chosen].points_m)]
        papers.append(paper.on_paper([*view.wood, *heavy, *view.outline,
                                      *rings(unfair, axis, paper.unit_m)]))
    return papers


def _said(unfair):
    return "; ".join(f"{number}: {found.stringer}, {found.what} {found.place}"
                     for number, found in enumerate(unfair, start=1)) or "nothing to mark"
