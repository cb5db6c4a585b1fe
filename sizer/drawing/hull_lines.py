"""The boat's lines as a draughtsman sees them from the side and from above, in m."""

from dataclasses import dataclass

import numpy as np

from sizer.hull.sections import half_section_at

DECK = -3  # column of the deck at the centre line, or at the coaming beside the opening


@dataclass(frozen=True, eq=False)
class HullLines:
    """Lines of one view within a span of x; each an (n, 2) array of x and the view's own height."""

    bottom: np.ndarray
    sheer: np.ndarray
    deck: np.ndarray
    sticks: tuple[np.ndarray, ...]  # chines and deck stringers, where they stand
    frames: tuple[np.ndarray, ...]
    coaming: np.ndarray  # closed


def side_lines(boat, span_m=None, shift_m=0.0):
    """HullLines in profile: x and height. `span_m` cuts the view, `shift_m` moves it aft."""
    x, _, z, alive = _sampled(boat, span_m, shift_m)
    opening = boat.opening
    coaming = np.array([
        (opening.front_x_m, opening.deck_z_m[0]), (opening.front_x_m, opening.rim_z_m[0]),
        (opening.back_x_m, opening.rim_z_m[1]), (opening.back_x_m, opening.deck_z_m[1])])
    frames = []
    for at, _, heights in _frames(boat, span_m, shift_m):
        inside = opening.front_x_m < at - shift_m < opening.back_x_m
        top = heights[boat.sections.sheer if inside else DECK]
        frames.append(np.array([(at, heights[0]), (at, top)]))
    columns = _stick_columns(boat)
    return HullLines(
        _line(x, z[:, 0]), _line(x, z[:, boat.sections.sheer]), _line(x, z[:, DECK]),
        tuple(_line(x, z[:, c])[alive[:, c]] for c in columns), tuple(frames),
        np.add(coaming, (shift_m, 0.0)))


def top_lines(boat, span_m=None, shift_m=0.0):
    """HullLines from above: x and half-breadth; the deck line is the ridge on the centre line."""
    x, y, _, alive = _sampled(boat, span_m, shift_m)
    frames = []
    for at, breadths, _ in _frames(boat, span_m, shift_m):
        half = breadths.max()
        frames.append(np.array([(at, -half), (at, half)]))
    columns = _stick_columns(boat)
    turn = np.linspace(0.0, np.pi, 49)
    along = boat.opening.front_x_m + 0.5 * boat.opening.length_m * (1.0 - np.cos(turn))
    half = boat.opening.half_width_m(along)
    rim = np.concatenate([_line(along, half), _line(along, -half)[-2:0:-1]])
    return HullLines(
        _line(x, y[:, 0]), _line(x, y[:, :boat.sections.sheer + 1].max(axis=1)),
        _line(x, np.zeros_like(x)), tuple(_line(x, y[:, c])[alive[:, c]] for c in columns),
        tuple(frames), np.add(rim, (shift_m, 0.0)))


def water_z_m(boat, particulars, x_m):
    """Height of the water over the baseline at x: sinkage + tan(trim) (x - x of the middle)."""
    slope = np.tan(np.radians(particulars.trim_deg))
    return particulars.sinkage_m + slope * (x_m - boat.sections.mid_x_m)


def waterline(boat, particulars, span_m=None):
    """The edge of the water on the hull from above: x and half-breadth, where it is wet."""
    x, y, z, _ = _sampled(boat, span_m, 0.0)
    level = water_z_m(boat, particulars, x)
    low, high = z[:, :-1] - level[:, None], z[:, 1:] - level[:, None]
    crossed = (low < 0.0) & (high >= 0.0)
    first = crossed.argmax(axis=1)
    rows = np.flatnonzero(crossed.any(axis=1))
    first = first[rows]
    share = low[rows, first] / (low[rows, first] - high[rows, first])
    half = (1.0 - share) * y[rows, first] + share * y[rows, first + 1]
    return _line(x[rows], half)


def widest(boat):
    """Where the boat is widest: (x, half-breadth)."""
    breadths = boat.sections.y_m.max(axis=1)
    at = int(breadths.argmax())
    return float(boat.sections.x_m[at]), float(breadths[at])


def _line(x, other):
    return np.stack([x, other], axis=1)


def _stick_columns(boat):
    sheer = boat.sections.sheer
    return [c for c in range(1, 1 + len(boat.lines.between)) if c != sheer]


def _sampled(boat, span_m, shift_m):
    """x (shifted), y, z and alive at the sections within the span and at its ends."""
    sections = boat.sections
    x = sections.x_m + shift_m
    if span_m is None:
        return x, sections.y_m, sections.z_m, boat.alive
    low, high = max(span_m[0], x[0]), min(span_m[1], x[-1])
    keep = (x > low) & (x < high)
    ends = [half_section_at(sections, at - shift_m) for at in (low, high)]
    joined = [np.vstack([ends[0][i], values[keep], ends[1][i]])
              for i, values in enumerate((sections.y_m, sections.z_m))]
    rows = np.flatnonzero(keep)
    alive = boat.alive[np.concatenate([rows[:1], rows, rows[-1:]])]
    return np.concatenate([[low], x[keep], [high]]), *joined, alive


def _frames(boat, span_m, shift_m):
    """(x shifted, half-breadths, heights) of each frame within the span."""
    breadths, heights = half_section_at(boat.sections, boat.frame_x_m)
    low, high = span_m or (-np.inf, np.inf)
    return [(x + shift_m, breadths[i], heights[i]) for i, x in enumerate(boat.frame_x_m)
            if low <= x + shift_m <= high]
