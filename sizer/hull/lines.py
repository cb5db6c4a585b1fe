"""The base design's fair curves: what a batten takes through the frame points.

A stringer is a natural cubic spline in x through its frame points and its landings on the stems.
Where it blends into a host it starts on the host's line with the host's slope. Stems are curves of
their own (monotone cubic through the drawn profile): a spline forced round a stem's corner would
overshoot and make waves amidships.
"""

from dataclasses import dataclass
from functools import cached_property, lru_cache

import numpy as np
from scipy.interpolate import CubicSpline, PchipInterpolator

from sizer.design.records import BaseDesign, Stringer
from sizer.errors import BadInput, Fault
from sizer.units import MM_PER_M

HULL_ROLES = ("chine", "gunwale")
CHECK_COUNT = 241  # places along the hull where the curves' order is checked
ORDER_TOLERANCE_M = 0.0005  # half a millimetre: what a pencil line is worth, our judgement


@dataclass(frozen=True, eq=False)
class Line:
    """The moulded line of one stringer between its ends."""

    stringer: Stringer
    start_x_m: float
    end_x_m: float
    curve: CubicSpline  # x in m -> (half-breadth, height) in m

    def alive(self, x_m):
        """Whether the stringer exists at each x."""
        return (x_m >= self.start_x_m) & (x_m <= self.end_x_m)


@dataclass(frozen=True, eq=False)
class Lines:
    """All curves of a base design."""

    design: BaseDesign
    lines: tuple[Line, ...]  # in the design's order
    bow_profile: PchipInterpolator  # x -> z
    stern_profile: PchipInterpolator

    def line(self, name):
        return next(one for one in self.lines if one.stringer.name == name)

    @cached_property
    def gunwale(self):
        return next(one for one in self.lines if one.stringer.role == "gunwale")

    @cached_property
    def between(self):
        """The chines, gunwale and deck stringers: what stands between keel and ridge."""
        return tuple(one for one in self.lines if one.stringer.role not in ("keel", "ridge"))

    @cached_property
    def hull_sticks(self):
        """{name: (column of `Table`, depth in m)} of keel, chines and gunwale."""
        keel = self.lines[0].stringer
        return {keel.name: (0, keel.depth_m)} | {
            line.stringer.name: (column, line.stringer.depth_m)
            for column, line in enumerate(self.between, start=1)
            if line.stringer.role in HULL_ROLES}

    @cached_property
    def stock_m(self):
        """(n, 2) width and depth of the sticks of `Table`'s columns, but for the ridge's."""
        return np.array([(one.stringer.width_m, one.stringer.depth_m)
                         for one in (self.lines[0], *self.between)])

    @cached_property
    def ridges(self):
        """Ridge lines, bow to stern."""
        ridges = [one for one in self.lines if one.stringer.role == "ridge"]
        return tuple(sorted(ridges, key=lambda one: one.start_x_m))


@dataclass(frozen=True, eq=False)
class Table:
    """The base's half-sections at given x, before any scaling.

    Columns: bottom centre line, then `Lines.between` in order, then ridge. Between the ridges'
    inner ends the ridge's height is the straight line that the coaming sits on.
    """

    x_m: np.ndarray  # (n,)
    y_m: np.ndarray  # (n, k)
    z_m: np.ndarray  # (n, k)
    alive: np.ndarray  # (n, k) bool: a stick is there, not just skin


def fair_lines(design, near=None, in_order=True):
    """The curves of a base design, checked for order between the frames: BadInput where curves
    cross or a half-breadth turns negative, if `in_order`, as of a boat that is built.

    From `near`, Lines of a design that differs in its frames' points alone, a curve through the
    same points is taken."""
    bow = near.bow_profile if near else PchipInterpolator(*design.bow.profile_m.T)
    stern = near.stern_profile if near else PchipInterpolator(*design.stern.profile_m.T)
    made = {}
    blending = [one for one in design.stringers if "into" in (one.start.kind, one.end.kind)]
    for one in [*(s for s in design.stringers if s not in blending), *blending]:
        kept = near and _kept(design, one, near, made)
        made[one.name] = kept or _line(design, one, bow, stern, made)
    lines = Lines(design, tuple(made[one.name] for one in design.stringers), bow, stern)
    faults = _order_faults(lines) if in_order else ()
    if faults:
        raise BadInput(faults)
    return lines


def _kept(design, one, near, made):
    """The Line of a stick that has the same points in `near`, and the same hosts; else None."""
    kept, hosts = near.line(one.name), {one.start.into, one.end.into} - {None}
    stands = all(frame.points_m.get(one.name) == other.points_m.get(one.name)
                 for frame, other in zip(design.frames, near.design.frames, strict=True))
    return kept if stands and all(made[host] is near.line(host) for host in hosts) else None


def _line(design, one, bow, stern, made):
    knots = {frame.x_m: frame.points_m[one.name]
             for frame in design.frames if one.name in frame.points_m}
    natural = np.zeros(2)
    ends = []
    for end, stem, profile, coaming_x in (
        (one.start, design.bow, bow, design.cockpit.back_x_m),
        (one.end, design.stern, stern, design.cockpit.front_x_m),
    ):
        condition = (2, natural)
        if end.kind == "stem":
            x = stem.lands_m[one.name]
            knots[x] = (0.0, float(profile(x)))
        elif end.kind == "into":
            x = end.x_m
            host = made[end.into].curve
            knots[x] = tuple(host(x))
            condition = (1, host(x, 1))
        else:
            x = coaming_x if end.kind == "coaming" else end.x_m
        ends.append((x, condition))
    (start, at_start), (end, at_end) = ends
    xs = np.array(sorted(knots))
    if len(xs) < 2:
        stick = ("stringer", design.stringers.index(one))
        raise BadInput([Fault(f"stringer.{one.name}", f"{len(xs)} points",
                              "at least two: frames it crosses, stems or a host",
                              ((*stick, "start"), (*stick, "end")))])
    points = np.array([knots[x] for x in xs])
    return Line(one, start, end, CubicSpline(xs, points, bc_type=(at_start, at_end)))


def bottom_m(lines, x_m):
    """Height of the bottom centre line: stem profiles at the ends, keel between."""
    design, keel = lines.design, lines.lines[0]
    return np.where(
        x_m < keel.start_x_m,
        lines.bow_profile(np.clip(x_m, 0.0, keel.start_x_m)),
        np.where(x_m > keel.end_x_m,
                 lines.stern_profile(np.clip(x_m, keel.end_x_m, design.length_m)),
                 keel.curve(np.clip(x_m, keel.start_x_m, keel.end_x_m))[..., 1]))


def base_table(lines, x_m, ends_m=None):
    """Half-sections of the unscaled base at each x (..., n), `ends_m` as in `ridge_m`.

    A stringer that is not there lies where the skin passes: on the stem's edge beyond its landing,
    on its host beyond its blend, on the straight line between its neighbours beyond a free end.
    """
    x_m = np.asarray(x_m, float)
    between = lines.between
    y = np.zeros((*x_m.shape, len(between) + 2))
    z = np.zeros_like(y)
    alive = np.zeros(y.shape, bool)
    z[..., 0] = bottom_m(lines, x_m)
    z[..., -1] = ridge_m(lines, x_m, ends_m)
    keel = lines.lines[0]
    alive[..., 0] = keel.alive(x_m)
    alive[..., -1] = np.any([ridge.alive(x_m) for ridge in lines.ridges], axis=0)
    columns = {line.stringer.name: index for index, line in enumerate(between, start=1)}
    for line in between:
        column = columns[line.stringer.name]
        alive[..., column] = line.alive(x_m)
        points = line.curve(np.clip(x_m, line.start_x_m, line.end_x_m))
        y[..., column], z[..., column] = points[..., 0], points[..., 1]
    for line in between:
        _onto_stems(line, columns[line.stringer.name], x_m, y, z)
    for line in between:  # from the keel up, onto hosts below
        _onto_host(lines, line, columns, x_m, y, z, upward=False)
    for line in reversed(between):  # from the ridge down, onto hosts above
        _onto_host(lines, line, columns, x_m, y, z, upward=True)
    for line in between:
        if "free" in (line.stringer.start.kind, line.stringer.end.kind):
            _on_chord(columns[line.stringer.name], alive, y, z)
    return Table(x_m, np.maximum(y, 0.0), z, alive)


def _onto_stems(line, column, x_m, y, z):
    """Beyond its landing a stringer lies on the stem's edge."""
    for end, beyond in _ends_beyond(line, x_m):
        if end.kind == "stem":
            y[beyond, column], z[beyond, column] = 0.0, z[beyond, 0]


def _onto_host(lines, line, columns, x_m, y, z, upward):
    """Beyond its blend a stringer lies on whatever stands next to it on its host's side."""
    column = columns[line.stringer.name]
    for end, beyond in _ends_beyond(line, x_m):
        if end.kind == "into":
            host = lines.line(end.into).stringer
            at = columns.get(host.name, 0 if host.role == "keel" else y.shape[1] - 1)
            if (at > column) == upward:
                beside = column + 1 if upward else column - 1
                y[beyond, column], z[beyond, column] = y[beyond, beside], z[beyond, beside]


def _ends_beyond(line, x_m):
    return ((line.stringer.start, x_m < line.start_x_m), (line.stringer.end, x_m > line.end_x_m))


def _on_chord(column, alive, y, z):
    """Puts the rows where no stick is on the straight line between the neighbours."""
    rows = ~alive[..., column]
    below, above = column - 1, column + 1
    y[rows, column] = 0.5 * (y[rows, below] + y[rows, above])
    z[rows, column] = 0.5 * (z[rows, below] + z[rows, above])


def ridge_m(lines, x_m, ends_m=None):
    """Height of the top centre line: the ridges, and between them the coaming's straight seat.

    `ends_m` (..., 2) are the front and back of an opening that was moved, or of many boats'; None
    takes the base's own.
    """
    ridges = lines.ridges
    if len(ridges) == 1:
        return ridges[0].curve(np.asarray(x_m, float))[..., 1]
    fore, after = ridges
    if ends_m is None:
        ends_m = np.array([fore.end_x_m, after.start_x_m])
    front, back = ends_m[..., :1], ends_m[..., 1:]
    low, high = fore.curve(front)[..., 1], after.curve(back)[..., 1]
    share = np.minimum(np.maximum((x_m - front) / (back - front), 0.0), 1.0)
    seat = low + (high - low) * share
    return np.where(x_m <= front, fore.curve(np.minimum(x_m, front))[..., 1],
                    np.where(x_m >= back, after.curve(np.maximum(x_m, back))[..., 1], seat))


def _order_faults(lines):
    """Curves that cross between frames, each named once with its worst place."""
    x = np.linspace(0.0, lines.design.length_m, CHECK_COUNT)
    table = base_table(lines, x)
    names = [lines.lines[0].stringer.name, *(line.stringer.name for line in lines.between)]
    faults = []
    for line in lines.between:
        here = line.alive(x)
        worst = np.where(here, line.curve(x)[:, 0], 0.0)
        if worst.min() < -ORDER_TOLERANCE_M:
            at = int(worst.argmin())
            width = f"half-breadth {worst[at] * MM_PER_M:.1f} mm"
            faults.append(_crossing(lines, line.stringer.name, 0, x[at], width, "not below zero"))
    for column in range(1, len(names)):
        role = lines.between[column - 1].stringer.role
        rise = table.z_m[:, column] - table.z_m[:, column - 1]
        if role in HULL_ROLES and rise.min() < -ORDER_TOLERANCE_M:
            at = int(rise.argmin())
            faults.append(_crossing(
                lines, names[column], 1, x[at],
                f"{-rise[at] * MM_PER_M:.1f} mm below {names[column - 1]}", "above it everywhere"))
        reach = table.y_m[:, column - 1] - table.y_m[:, column]
        if role == "deck" and reach.min() < -ORDER_TOLERANCE_M:
            at = int(reach.argmin())
            faults.append(_crossing(
                lines, names[column], 0, x[at],
                f"{-reach[at] * MM_PER_M:.1f} mm outside {names[column - 1]}",
                "inside it everywhere"))
    return faults


def _crossing(lines, name, axis, x_m, value, allowed):
    """The Fault of a curve at x, about its points at the frames on either side."""
    crossing = [(at, frame.x_m) for at, frame in enumerate(lines.design.frames)
                if name in frame.points_m]
    ahead, behind = ([at for at, x in crossing if (x > x_m) == aft] for aft in (False, True))
    return Fault(f"stringer.{name} at x = {x_m * MM_PER_M:.0f} mm", value,
                 f"{allowed}; crossing stringers: move the frame points on either side",
                 tuple(("frame", at, "points_mm", name, axis)
                       for at in (*ahead[-1:], *behind[:1])))


@lru_cache(maxsize=64)
def section_places_m(lines, count):
    """Where sections are taken along the base: evenly, and wherever a line begins or ends."""
    length = lines.design.length_m
    breaks = [x for line in lines.lines for x in (line.start_x_m, line.end_x_m)]
    breaks += [frame.x_m for frame in lines.design.frames]
    even = np.linspace(0.0, length, count)
    return np.unique(np.round(np.concatenate([even, np.clip(breaks, 0.0, length)]), 6))
