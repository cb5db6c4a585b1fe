"""A few round bodies that stand for a crowd."""

import numpy as np

from sizer.paddler.measures import Measured

ROUND_TO = (1.0, 0.010, 0.005)  # kg, stature, hips: a boat is drawn for a round body, nobody's own


def spread(measured, count):
    """Round bodies spread over a crowd: each the farthest from those before, by ranks."""
    raw = np.array([[one.weight_kg, one.stature_m, one.hip_width_m] for one in measured])
    ranks = np.argsort(np.argsort(raw, axis=0, kind="stable"), axis=0) / max(len(raw) - 1, 1)
    taken = [int(np.argmin(((ranks - 0.5) ** 2).sum(axis=1)))]
    away = ((ranks - ranks[taken[0]]) ** 2).sum(axis=1)
    while len(taken) < min(count, len(raw)):
        taken.append(int(np.argmax(away)))
        away = np.minimum(away, ((ranks - ranks[taken[-1]]) ** 2).sum(axis=1))
    rounded = np.round(raw[taken] / ROUND_TO) * ROUND_TO
    return tuple(Measured(*(round(float(value), 3) for value in row))
                 for row in dict.fromkeys(map(tuple, rounded.tolist())))
