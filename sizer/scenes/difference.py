"""The boat as it stands over its design: from above, from the side to starboard and to port.

The design is in pencil; what differs is drawn that many times larger than it is, or to scale.
"""

from itertools import groupby
from math import ceil

import numpy as np

from sizer.built.notches import in_order
from sizer.drawing.marks import NARROW, apart, line, paper_round, picture, words
from sizer.drawing.record import Circle, Path

LARGER = 10.0  # times; our drawing
WIDE = 640.0  # on a desk it stands in a column
BESIDE, OVER, UNDER = 14.0, 34.0, 12.0  # mm of paper round a view, without its rows of numbers
TITLE = 16.0  # of the view under the paper's top
RING, STEP, ROW = 5.0, 20.0, 15.0  # of a numbered ring, and from number to number, mm of paper


def difference_view(dry_fit, times=LARGER, narrow=False):
    """The picture of a DryFit, its differences so many times larger.

    A ring with a number stands where a stick is unfair, in the order of `unfair_points`; a ring
    alone where it is fair, but off beyond what the tape can tell.
    """
    points = dry_fit.standing.points
    width = NARROW if narrow else WIDE
    plan = _view(dry_fit, ("starboard", "port"), 0, times, width, "from above")
    sides = [_view(dry_fit, (side,), 1, times, width, f"from the side, {side}")
             for side in ("starboard", "port")]
    scale = "to scale" if times == 1.0 else f"{times:g} times larger"
    off = sum(one.beyond for one in dry_fit.points)
    return picture("As it stands", "The boat as it stands over its design of "
                   f"{points.length_m:.2f} m, differences {scale}; {off} places are off beyond the "
                   f"tape's spread, {len(unfair_points(dry_fit))} unfair.", [plan, *sides])


def unfair_points(dry_fit):
    """The PointTold where a stick is unfair, what matters most first."""
    return in_order(one for one in dry_fit.points if one.unfair)


def _view(dry_fit, sides, axis, times, width, title):
    """One view; `axis` 0 from above, 1 from the side."""
    points, change = dry_fit.standing.points, dry_fit.standing.change_m
    x = points.frame_x_m[points.frame]
    along = dict(dry_fit.along.frames_m)
    slid = x + times * np.array([along.get(key[1], 0.0) for key in points.keys])
    turn = points.sign if axis == 0 else np.ones_like(points.sign)
    was = np.column_stack([x, turn * points.at[:, axis]])
    now = np.column_stack([slid, turn * (points.at[:, axis] + times * change[:, axis])])
    here = np.isin([key[0] for key in points.keys], sides)
    shown = here | (points.sign == 0.0) if axis else here
    across = np.concatenate([was[shown, 1], now[shown, 1]])
    low, high = across.min(), across.max()
    upper, lower = _numbered(dry_fit, now, shown, 0.0 if axis == 0 else 0.5 * (low + high))
    rows = [ceil(len(some) * STEP / (width - 2.0 * BESIDE)) for some in (upper, lower)]
    paper = paper_round((0.0, low, points.length_m, high), width, BESIDE, OVER + ROW * rows[0],
                        UNDER + ROW * rows[1])
    unit = paper.unit_m
    strokes = [words(paper.at(BESIDE, TITLE), title, unit, "start")]
    if axis == 0:
        strokes.append(line("centre", (0.0, 0.0), (points.length_m, 0.0)))
    names = np.array(["/".join(key[::2]) for key in points.keys])
    for name in dict.fromkeys(names[shown]):
        stick = names == name
        strokes += [Path("pencil", was[stick]), Path("ink", now[stick])]
    strokes += [Circle("fine", tuple(place.tolist()), 0.5 * RING * unit)
                for one, place, seen in zip(dry_fit.points, now, shown, strict=True)
                if seen and one.beyond and not one.unfair]
    strokes += _rings(upper, rows[0], high, unit, points.length_m)
    strokes += _rings(lower, rows[1], low, -unit, points.length_m)
    return paper.on_paper(strokes)


def _numbered(dry_fit, now, shown, middle):
    """[(number, place)] of the unfair points in a view: of those above a middle, of the others."""
    numbers = {(one.side, one.frame, one.stringer): number  # as the Points' keys
               for number, one in enumerate(unfair_points(dry_fit), start=1)}
    found = [(numbers[key], now[index])
             for index, key in enumerate(dry_fit.standing.points.keys)
             if shown[index] and key in numbers]
    return ([one for one in found if one[1][1] > middle],
            [one for one in found if one[1][1] <= middle])


def _rings(numbered, rows, edge, unit, long):
    """Rings, and their numbers in rows beyond the edge of the view, a line from each to its own.

    `unit` is negative where the numbers stand below.
    """
    mm = abs(unit)
    out = _fanned(numbered, edge)
    for row in range(rows):
        some = out[row::rows]
        room = STEP * mm * np.arange(len(some))
        at = apart([place[0] for _, place in some], STEP * mm)
        at = np.minimum(np.maximum(at, room), long - room[::-1])
        for (number, place), x in zip(some, at, strict=True):
            aside = x - place[0]
            side = (np.sign(aside), 0.0) if abs(aside) > RING * mm else (0.0, np.sign(unit))
            y = edge + (12.0 + ROW * row) * unit
            yield Circle("short", tuple(place.tolist()), RING * mm)
            yield line("extension", place + RING * mm * np.array(side), (x, y - 5.0 * unit))
            yield words((x, y - 5.0 * mm), str(number), mm)


def _fanned(numbered, edge):
    """From bow to stern; of those at one frame the nearest to the edge in the middle."""
    fanned = []
    for _, stack in groupby(sorted(numbered, key=lambda one: one[1][0]), lambda one: one[1][0]):
        here = []
        for index, one in enumerate(sorted(stack, key=lambda one: abs(one[1][1] - edge))):
            here.insert(0 if index % 2 else len(here), one)
        fanned += here
    return fanned
