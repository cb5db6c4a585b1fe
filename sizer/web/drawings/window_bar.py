"""A check's window as a bar: where it fails, cautions and passes, and where the boat is."""

import numpy as np

from sizer.web.drawings.marks import drawing

WIDTH, HEIGHT = 150.0, 18.0
LOW, HIGH = 4.0, 14.0  # of the bar
ROOM = 0.18  # of the span, beyond the outermost side or the value
KINDS = ("fail", "caution", "pass", "caution", "fail")


def window_svg(check):
    """The bar of a Check; "" where its window is open on all sides or it is a yes or no."""
    sides = [side for side in check.window_si if np.isfinite(side)]
    if not sides or check.unit == "of 1":
        return ""
    low, high = min(*sides, check.value_si), max(*sides, check.value_si)
    span = max(high - low, 2.0 * check.row.scale)
    low, high = low - ROOM * span, high + ROOM * span

    def at(value):
        return WIDTH * (min(max(value, low), high) - low) / (high - low)

    fails_below, wanted_from, wanted_to, fails_above = check.window_si
    edges = np.maximum.accumulate([at(side) for side in (  # a body may need more than is wanted
        low, fails_below, max(fails_below, wanted_from), min(wanted_to, fails_above), fails_above,
        high)])
    zones = "".join(
        f'<rect class="sz-zone-{kind}" x="{start:.1f}" y="{LOW:g}" width="{end - start:.1f}" '
        f'height="{HIGH - LOW:g}"/>'
        for kind, start, end in zip(KINDS, edges[:-1], edges[1:], strict=True)
        if end - start > 0.05)
    here = at(check.value_si)
    tick = (f'<path class="sz-zone-here" d="M {here:.1f} 1 V {HEIGHT - 1:g} '
            f'M {here - 4:.1f} 1 h 8"/>')
    said = {"": "inside what is wanted", "small": "too little", "large": "too much"}[check.too]
    return drawing(WIDTH, HEIGHT, f"{check.name}: {check.status}", f"{check.name}: {said}.",
                   [zones, tick])
