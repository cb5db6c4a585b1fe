"""Where screws go in small pieces, by one rule, and how each is marked.

In wood as thin as this two on one line of its grain split it, and so does one near its end. The
rule is common practice, no source; its figures are our judgement.
"""

import numpy as np

from sizer.drawing.marks import line

END_M = 0.010  # least from the end of a piece
APART_M = 0.020  # least between two on one line of the grain: nearer ones stand in two lines
ARM_M = 0.0025  # of a cross from its middle; our drawing


def along_m(long_m, count):
    """How far from a piece's end each of some screws is: half a space from ends, END_M at least."""
    end = max(END_M, 0.5 * long_m / count)
    return np.linspace(end, long_m - end, count).tolist()


def staggered_m(long_m, wide_m, count):
    """(along, across) of each of some screws: in one line along the middle where APART_M is between
    them, else by turns a third of the width off either edge."""
    along = along_m(long_m, count)
    if count < 2 or along[1] - along[0] >= APART_M:
        return [(at, 0.5 * wide_m) for at in along]
    return [(at, wide_m * (1 + row % 2) / 3.0) for row, at in enumerate(along)]


def corners_m(long_m, wide_m):
    """(along, across) of four screws, one near each corner, END_M from both edges."""
    return [(at, out) for at in (END_M, long_m - END_M) for out in (END_M, wide_m - END_M)]


def crosses(spots_m):
    """The mark of each of some screws: a small cross."""
    for at, up in np.asarray(spots_m, float).tolist():
        yield line("mark", (at - ARM_M, up), (at + ARM_M, up))
        yield line("mark", (at, up - ARM_M), (at, up + ARM_M))
