"""A check's window as a bar: where it fails, cautions and passes, and where the boat is."""

import numpy as np

from sizer.drawing.marks import box, line
from sizer.drawing.record import Drawing
from sizer.units import MM_PER_M

WIDTH, HEIGHT = 150.0, 18.0
LOW, HIGH = 4.0, 14.0  # of the bar
ROOM = 0.18  # of the span, beyond the outermost side or the value
KINDS = ("fail", "caution", "pass", "caution", "fail")


def window_bar(check):
    """The bar of a Check; None where its window is open on all sides or it is a yes or no."""
    sides = [side for side in check.window_si if np.isfinite(side)]
    if not sides or check.unit == "of 1":
        return None
    low, high = min(*sides, check.value_si), max(*sides, check.value_si)
    span = max(high - low, 2.0 * check.row.scale)
    low, high = low - ROOM * span, high + ROOM * span

    def at(value):
        return WIDTH * (min(max(value, low), high) - low) / (high - low)

    fails_below, wanted_from, wanted_to, fails_above = check.window_si
    edges = np.maximum.accumulate([at(side) for side in (  # a body may need more than is wanted
        low, fails_below, max(fails_below, wanted_from), min(wanted_to, fails_above), fails_above,
        high)])
    zones = [box(f"zone-{kind}", start, LOW, end, HIGH)
             for kind, start, end in zip(KINDS, edges[:-1], edges[1:], strict=True)
             if end - start > 0.05]
    here = at(check.value_si)
    tick = line("here", (here, 1.0), (here, HEIGHT - 1.0), (here - 4.0, HEIGHT - 1.0),
                (here + 4.0, HEIGHT - 1.0))
    said = {"": "inside what is wanted", "small": "too little", "large": "too much"}[check.too]
    return Drawing(f"{check.name}: {check.status}", (*zones, tick), (f"{check.name}: {said}.",),
                   (0.0, 0.0, WIDTH, HEIGHT)).scaled(1.0 / MM_PER_M)
