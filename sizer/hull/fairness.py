"""Hollows and bumps: what an eye along the stick would see at the dry fit.

Judged is the batten that the builder bends through the points as set up: a natural cubic spline in
x, along the host where it blends. A hollow is a stretch that bends the other way than most of the
stick; its depth is measured from the straight line across it. A bump is a frame point off the line
of its neighbours: what to move it by is what makes the steps in the batten's third derivative,
which an eye reads as kinks, least in the sense of squares. The steps beside the two ends are left
out: there every free batten runs out straight, fair or not. Where the worst bump would be moved
away, the next is looked for. A stick through few points has too few steps for that: there a bump is
a point where the bend is much greater than at its neighbours, told coarsely, and where such a stick
blends only its hollows are judged.
"""

from dataclasses import dataclass, replace
from functools import cached_property, lru_cache
from itertools import product

import numpy as np
from scipy.interpolate import CubicSpline, PPoly

from sizer.hull import stick_curves
from sizer.hull.boat import scaled_boat
from sizer.hull.places import PIN_TOLERANCE_M
from sizer.hull.scale import Scaling

AXES = ("plan", "profile")
FELT_M = 0.001  # what a hand along the stick can feel, and a pencil line is worth; our judgement
HOLLOW_FAIL_M = 0.004  # a hollow so deep is seen under the skin; our judgement
BUMP_CAUTION_PER_M = 0.035  # bend that a bump adds at its frame: 1 in 29 m radius; our judgement
BUMP_FAIL_PER_M = 0.080  # 1 in 12 m; as tight as the sticks' own bends; our judgement
KINK_CAUTION_PER_M = 0.15  # bend at a point over that of its neighbours; our judgement
KINK_FAIL_PER_M = 0.30  # our judgement
LEAST_POINTS = 9  # of a batten: fewer leave less than five steps to tell a bump by
NEAR_END = 3  # fine points; a stretch that begins nearer the end begins at it
STRAIGHT_PER_M = 1e-7  # less is rounding
FINE_COUNT = 1201
# Nodes of the grid that `surely_fair` asks; most fitted boats lie within. Our judgement.
LEGS, RATIO = (0.85, 0.92, 1.0, 1.08, 1.15), (0.92, 0.98, 1.04, 1.1, 1.16)
CROWN, OPENING, MOST = (0.8, 1.35), (0.9, 1.1), 1.15


@dataclass(frozen=True)
class Unfairness:
    """One hollow or bump, or an inflection that is meant."""

    stringer: str
    axis: str  # "plan": in half-breadth; "profile": in height
    what: str  # "hollow", "bump" or "inflection"
    place: str  # in words
    point_m: tuple[float, float, float]  # x, y, z where it is worst
    from_x_m: float  # the stretch
    to_x_m: float
    offset_m: float  # hollow: its depth; bump: what to move the point by, outwards or up
    status: str  # "pass", "caution" or "fail"
    meaning: str
    caution_m: float = FELT_M  # offset from which it is told; a hollow's
    fail_m: float = HOLLOW_FAIL_M  # offset from which it fails


@dataclass(frozen=True, eq=False)
class _Batten:
    """One stick's batten on one axis."""

    name: str
    axis: int
    blends: bool
    knots: np.ndarray  # (n,) x
    values: np.ndarray  # (n,)
    ends: tuple  # conditions of the spline, as CubicSpline takes them
    span: tuple[float, float]  # where the stick is

    @property
    def units(self):
        """As `_unit_splines`, of this batten."""
        return _unit_splines(tuple(self.knots.tolist()), tuple(order for order, _ in self.ends))

    @cached_property
    def curve(self):
        of_each = np.array([*self.values, *(value for _, value in self.ends)])
        return PPoly.construct_fast(self.units.c @ of_each, self.knots)


@lru_cache(maxsize=512)
def _unit_splines(knots, orders):
    """The splines that add up to any batten through these places, as many times each as it is off
    the line: of a unit at each point, then at each end in the derivative of that order."""
    every = np.eye(len(knots) + 2)
    return CubicSpline(knots, every[:-2], bc_type=tuple(zip(orders, every[-2:], strict=True)))


def fairness(boat):
    """Every hollow, bump and meant inflection of a boat's sticks, in the design's order.

    Returns a tuple of Unfairness; a fair boat's are all "pass".
    """
    found = []
    for line in boat.lines.lines:
        for batten in _battens(boat, line):
            found += [replace(one, point_m=tuple(stick_curves.stick_points_m(
                boat, line, boat.map.base_x_m(np.array(one.point_m[:1])))[0].tolist()))
                for one in (*_hollows(boat, batten), *_bumps(boat, batten),
                            *_kinks(boat, batten))]
    return tuple(found)


def surely_fair(boat):
    """Whether a boat lies between scalings of its base that are all fair, and so is fair itself.

    Hollows and bumps are about linear in each factor, so between such scalings they are less than
    at one of them. Quick where many boats of one base are asked; says nothing where False.
    """
    scaling, own_m = boat.scaling, boat.design.cockpit.length_m
    opening_m = own_m if scaling.cockpit_length_m is None else scaling.cockpit_length_m
    asked = ((LEGS, scaling.legs), (RATIO, scaling.length / scaling.legs), (CROWN, scaling.crown),
             (OPENING, opening_m / (own_m * scaling.legs)), ((0.0, MOST), scaling.beam),
             ((0.0, MOST), scaling.depth))
    return all(nodes[0] <= value <= nodes[-1] for nodes, value in asked) and all(
        _node_is_fair(boat.lines, *node)
        for node in product(*(_beside(nodes, value) for nodes, value in asked[:2])))


def _beside(nodes, value):
    """The two nodes that a value lies between."""
    after = min(max(int(np.searchsorted(nodes, value)), 1), len(nodes) - 1)
    return nodes[after - 1:after + 1]


@lru_cache(maxsize=1024)
def _node_is_fair(lines, legs, ratio):
    """With the legs' stretch and the length over it, and the ends of everything else."""
    own_m = lines.design.cockpit.length_m
    return all(one.status == "pass" for crown, opening in product(CROWN, OPENING)
               for one in fairness(scaled_boat(lines, Scaling(
                   length=legs * ratio, legs=legs, beam=MOST, depth=MOST, crown=crown,
                   cockpit_length_m=opening * legs * own_m))))


def worst_status(found):
    """The worst status among Unfairness records, "pass" if there are none."""
    return max((one.status for one in found), key=("pass", "caution", "fail").index,
               default="pass")


def _battens(boat, line):
    one = line.stringer
    blends = "into" in (one.start.kind, one.end.kind)
    slope = stick_curves.stick_curve(boat, one.name).slope if blends else None
    base_x = np.array([stick_curves.moved_base_x_m(boat, x) for x in line.curve.x])
    points = stick_curves.stick_points_m(boat, line, base_x)
    span = tuple(boat.map(np.array(stick_curves.stick_ends_base_x_m(boat, line))).tolist())
    for axis in range(2):
        if np.ptp(points[:, 1 + axis]) < PIN_TOLERANCE_M:
            continue
        ends = tuple((1, float(slope[row, axis])) if end.kind == "into" else (2, 0.0)
                     for end, row in ((one.start, 0), (one.end, -1)))
        yield _Batten(one.name, axis, blends, points[:, 0], points[:, 1 + axis], ends, span)


def _hollows(boat, batten):
    curve = batten.curve
    at_points = curve(batten.knots, 2)  # between them the bend is a straight line
    if (at_points > -STRAIGHT_PER_M).all() or (at_points < STRAIGHT_PER_M).all():
        return
    x = np.linspace(*batten.span, FINE_COUNT)
    value, bend = curve(x), curve(x, 2)
    bend[np.abs(bend) < STRAIGHT_PER_M] = 0.0
    mainly = np.sign(np.trapezoid(bend, x))
    against = np.concatenate([[False], bend * mainly < 0.0, [False]])
    edges = np.flatnonzero(np.diff(against.astype(int))).reshape(-1, 2)
    hollows = []
    for first, after in edges:
        stretch = slice(first, after)
        chord = np.interp(x[stretch], x[[first, after - 1]], value[[first, after - 1]])
        off = np.abs(value[stretch] - chord)
        if off.max() >= FELT_M:
            at_end = first < NEAR_END or after > FINE_COUNT - NEAR_END
            hollows.append((x[first], x[after - 1], x[first + off.argmax()], off.max(), at_end))
    for start, end, worst, depth, at_end in hollows:
        meant = batten.blends and at_end and len(hollows) == 1
        status = "pass" if meant else "caution" if depth < HOLLOW_FAIL_M else "fail"
        what = "inflection" if meant else "hollow"
        yield Unfairness(
            batten.name, AXES[batten.axis], what, _place(boat, worst), (float(worst), 0.0, 0.0),
            float(start), float(end), float(depth), status,
            "a blending stick leaves its host the host's way and turns once to its own: meant"
            if meant else "the stick bends inward here between bends outward; our judgement")


def _bumps(boat, batten):
    count = batten.knots.size
    if count < LEAST_POINTS:
        return
    by_point = _steps(batten.units)  # (steps, points and two ends)
    steps = _steps(batten.curve)
    inner = np.arange(1, count - 1)
    pull = by_point[:, inner]
    gaps = np.diff(batten.knots)
    per_m = 2.0 / (gaps[:-1] * gaps[1:])  # bend that a point 1 m off its neighbours makes
    for _ in inner:
        worst, offset = _mending(pull, steps)
        bend = abs(offset) * per_m[worst]
        if abs(offset) < FELT_M or bend < BUMP_CAUTION_PER_M:
            return
        steps = steps + offset * pull[:, worst]
        yield _bump(boat, batten, worst, offset, bend, (BUMP_CAUTION_PER_M, BUMP_FAIL_PER_M))


def _steps(curve):
    """Steps of the third derivative at the knots, without those beside the two ends."""
    return np.diff(6.0 * curve.c[0], axis=0)[1:-1]


def _kinks(boat, batten):
    """In a stick through few points: a point that bends it much more than its neighbours do."""
    knots = batten.knots
    if batten.blends or not 4 <= knots.size < LEAST_POINTS:
        return
    over = _over_neighbours(knots, batten.curve(knots, 2))
    most = float(np.abs(over).max())
    if most > KINK_CAUTION_PER_M:
        pull = _over_neighbours(knots, batten.units(knots, 2))[:, 1:-3]
        row, offset = _mending(pull, over)
        yield _bump(boat, batten, row, offset, most, (KINK_CAUTION_PER_M, KINK_FAIL_PER_M))


def _mending(pull, steps):
    """Which one point to move, and by how much, to make the steps least in the sense of squares."""
    square = (pull**2).sum(axis=0)
    row = int(np.argmax((pull.T @ steps) ** 2 / square))
    return row, -float(pull[:, row] @ steps / square[row])


def _over_neighbours(knots, bend):
    """Bend at each inner knot over the straight line between its neighbours' bends.

    Beside an end, where a free batten is straight, over that of the one neighbour farther in.
    """
    share = (knots[1:-1] - knots[:-2]) / (knots[2:] - knots[:-2])
    share[0], share[-1] = 1.0, 0.0
    line = (bend[:-2].T * (1.0 - share) + bend[2:].T * share).T
    return bend[1:-1] - line


def _bump(boat, batten, row, offset, bend, limits_per_m):
    caution_m, fail_m = (abs(offset) * limit / bend for limit in limits_per_m)
    x = float(batten.knots[row + 1])
    return Unfairness(
        batten.name, AXES[batten.axis], "bump", _place(boat, x), (x, 0.0, 0.0),
        float(batten.knots[row]), float(batten.knots[row + 2]), offset,
        "caution" if bend < limits_per_m[1] else "fail",
        "moved so, this point would lie on the line of its neighbours; our judgement",
        caution_m, fail_m)


def _place(boat, x_m):
    """Where x is, by frames."""
    names = [frame.name for frame in boat.design.frames]
    near = np.flatnonzero(np.abs(boat.frame_x_m - x_m) < stick_curves.SAME_PLACE_M)
    if near.size:
        return f"at {names[near[0]]}"
    after = int(np.searchsorted(boat.frame_x_m, x_m))
    if after == 0:
        return f"ahead of {names[0]}"
    if after == len(names):
        return f"behind {names[-1]}"
    return f"between {names[after - 1]} and {names[after]}"
