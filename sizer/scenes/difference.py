"""The boat as it stands over its design: from above, from the side to starboard and to port.

The design is in pencil; what differs is drawn that many times larger than it is, or to scale.
"""

import numpy as np

from sizer.built.notches import in_order
from sizer.drawing.marks import MIRROR, NARROW, WIDE, line, paper_round, picture, words
from sizer.drawing.record import Circle, Path

LARGER = 10.0  # times; our drawing
BESIDE, OVER, UNDER = 14.0, 46.0, 16.0  # mm of paper round a view
RING = 6.0


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
    low, high = was[shown, 1].min(), was[shown, 1].max()
    paper = paper_round((0.0, low, points.length_m, high), width, BESIDE, OVER, UNDER)
    unit = paper.unit_m
    strokes = [words((0.0, high + 30.0 * unit), title, unit, "start")]
    if axis == 0:
        strokes.append(line("centre", (0.0, 0.0), (points.length_m, 0.0)))
    names = np.array(["/".join(key[::2]) for key in points.keys])
    for name in dict.fromkeys(names[shown]):
        stick = names == name
        strokes += [Path("pencil", was[stick]), Path("ink", now[stick])]
    strokes += _rings(dry_fit, now, shown, axis, unit)
    return paper.on_paper(strokes)


def _rings(dry_fit, now, shown, axis, unit):
    numbered = {(one.side, one.frame, one.stringer): number  # as the Points' keys
                for number, one in enumerate(unfair_points(dry_fit), start=1)}
    for index, one in enumerate(dry_fit.points):
        key, place = dry_fit.standing.points.keys[index], now[index]
        if shown[index] and one.beyond and key not in numbered:
            yield Circle("fine", tuple(place.tolist()), 0.5 * RING * unit)
        if shown[index] and key in numbered:
            yield Circle("short", tuple(place.tolist()), RING * unit)
            up = (RING + 3.0) * unit * (MIRROR[1] if axis == 0 and place[1] < 0.0 else 1.0)
            yield words((place[0], place[1] + up - (6.0 * unit if up < 0.0 else 0.0)),
                        str(numbered[key]), unit, rim=True)
