"""The shop's own bias, drawn: what each launch was off, and how much of their mean is kept."""

import numpy as np

from sizer.drawing.marks import NARROW, PAPER_M, WIDE, line, picture, words
from sizer.drawing.record import Circle, Drawing
from sizer.units import MM_PER_LENGTH_UNIT, MM_PER_M

TITLES = {"boat_share": "heavier than calculated", "seat_up_m": "paddlers sit higher",
          "seat_ahead_m": "paddlers sit farther ahead"}
STEP, HEAD, SIDE = 9.0, 62.0, 24.0  # mm of paper: a launch, a heading, the margin
DOT = 3.0


def bias_view(launches, biases, unit="mm", narrow=False):
    """The picture of launches, {key of TITLES: Off} each, and of the Bias of each figure by those
    keys; lengths in a unit."""
    width = NARROW if narrow else 0.6 * WIDE
    views = [_view([one[key] for one in launches if key in one], biases[key], TITLES[key],
                   *_per(key, unit), width) for key in TITLES]
    kept = "; ".join(f"{title}: {_kept(biases[key], *_per(key, unit))}"
                     for key, title in TITLES.items() if biases[key].boats)
    return picture("The shop's own bias", f"What {len(launches)} launches were off. {kept}.", views)


def _view(offs, bias, title, per, unit, width):
    """One figure: a dot with its spread for each launch, the kept bias as a line across all."""
    deep = HEAD + STEP * max(len(offs), 1) + 10.0
    reach = max([abs(one.off) + one.spread for one in offs], default=1.0)
    middle, scale = 0.5 * width, (0.5 * width - SIDE) / reach
    strokes = [line("centre", (middle, -HEAD + 6.0), (middle, -deep)),
               words((SIDE, -14.0), f"{title}, {unit}", 1.0, "start"),
               words((middle, -HEAD + 10.0), "as calculated", 1.0)]
    for number, one in enumerate(offs):
        y = -HEAD - STEP * number
        at, half = middle + scale * one.off, scale * one.spread
        strokes += [line("fine", (at - half, y), (at + half, y)), Circle("here", (at, y), DOT)]
    if bias.boats:
        at = middle + scale * bias.bias
        strokes += [line("waterline", (at, -HEAD + 4.0), (at, -deep)),
                    words((SIDE, -32.0), _kept(bias, per, unit), 1.0, "start")]
    else:
        strokes.append(words((SIDE, -32.0), "no launch tells", 1.0, "start"))
    return Drawing(title, tuple(strokes), (), tuple(np.array([0.0, -deep, width, 0.0]).tolist())
                   ).scaled(PAPER_M)


def _per(key, unit):
    """(how many are told there one of a figure of TITLES, in which unit)."""
    return (100.0, "%") if key == "boat_share" else (MM_PER_M / MM_PER_LENGTH_UNIT[unit], unit)


def _kept(bias, per, unit):
    """What launches were off in the mean, and how much of that fits reckon with."""
    digits = 1 if unit in ("%", "mm") else 2
    mean, kept = (f"{round(per * value, digits) + 0.0:+.{digits}f} {unit}"
                  for value in (bias.mean, bias.bias))
    return f"their mean {mean}, kept of it {kept}"
