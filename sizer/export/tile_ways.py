"""Which way a piece lies on tiles: on as few as it takes, as it is drawn rather than turned, with
the joints off its corners, holes and marks rather than through them.

Whatever is sawn, bored or measured to is on the pages whole.
"""

from dataclasses import dataclass
from functools import lru_cache
from itertools import product
from operator import itemgetter

import numpy as np
import shapely

from sizer.drawing.record import Circle, Drawing, Path
from sizer.export.pdf import PAD_MM
from sizer.export.tiles import joins_mm, starts_mm, tiling
from sizer.units import MM_PER_M

TURNS_DEG = sorted(range(-75, 91, 15), key=abs)  # tried for each piece; as it is drawn comes first
SHOWN = ("cut", "drill", "stick")  # what is sawn, bored or measured to
STICK_PAD_MM = 0.5  # round what is only measured to; our drawing
# Places of the windows tried, right and up, to find how few do, and where joints do least harm.
COARSE = np.array([*product((0.0, -0.5, 0.5, -1.0, 1.0), repeat=2)])
FINE = np.array([*product(np.linspace(-1.0, 1.0, 13), repeat=2)])
NEAR_MM = 12.0  # from a joint to what is hard to measure over it; our judgement
ON_MM = 5.0  # from a joint to the middle of a hole that it goes through; our judgement
CORNER_DEG = 30.0  # a lesser turn of a saw line is of a curve; our judgement
SHORT_MM = 50.0  # a straight piece of a notch or tenon is as long at most; our judgement


@dataclass(frozen=True, eq=False)
class _Lying:
    """A Drawing as it may lie on pages; millimetres."""

    drawing: Drawing  # what is SHOWN of it, and its marks
    box_mm: tuple[float, float, float, float]  # that pages have to cover
    lines: shapely.MultiLineString  # of all that is shown, prepared
    holes_mm: np.ndarray  # (n, 2)

    def shown(self, page, asides):
        """Which of a page's windows show something where they stand aside by each of some (n, 2):
        (n, windows), these in the order of `tiling`."""
        lefts, bottoms = starts_mm(self.box_mm, page.window_mm, asides.T[..., None])
        low = np.stack(np.broadcast_arrays(lefts[:, None], bottoms[:, ::-1, None]), axis=-1)
        low = low.reshape(len(asides), -1, 2)
        high = low + page.window_mm
        across, up = (((starts[..., None] < at) & (at < starts[..., None] + long)).astype(float)
                      for starts, at, long in zip((lefts, bottoms[:, ::-1]), self.holes_mm.T,
                                                  page.window_mm, strict=True))
        bored = np.matmul(up, across.swapaxes(1, 2)) > 0.0
        boxes = shapely.box(low[..., 0], low[..., 1], high[..., 0], high[..., 1])
        return shapely.intersects(self.lines, boxes) | bored.reshape(len(asides), -1)

    def harmed(self, page, asides):
        """How much lies at a joint, (n,): corners and marks near it, and twice the holes on it."""
        at_joints = [joins_mm(one) for one in starts_mm(
            self.box_mm, page.window_mm, asides.T[..., None])]
        marks = [one.points_m * MM_PER_M for one in self.drawing.on("mark").strokes
                 if isinstance(one, Path)]
        delicate_mm = np.vstack([*marks, *map(_corners_mm, self.drawing.on("cut").strokes)])
        return (_at(at_joints, delicate_mm, NEAR_MM) + 2 * _at(at_joints, self.holes_mm, ON_MM))


def best_way(drawing, pages):
    """How a Drawing lies on pages of one paper, upright and lying: (the Drawing so turned, the
    page, its Tiling without the windows that show nothing)."""
    lain = _lain(drawing)
    counts = [[lying.shown(page, COARSE).sum(axis=1).min() for page in pages] for lying in lain]
    fewest = np.min(counts)
    row = int(np.argmax(np.min(counts, axis=1) == fewest))
    lying, ways = lain[row], []
    for page, count in zip(pages, counts[row], strict=True):
        if count == fewest:
            shown = lying.shown(page, FINE)
            few = shown.sum(axis=1) == fewest
            ways += [(*way, page) for way in zip(
                lying.harmed(page, FINE[few]), np.hypot(*FINE[few].T), FINE[few], shown[few],
                strict=True)]
    *_, aside, wanted, page = min(ways, key=itemgetter(0, 1))
    return (drawing.turned(TURNS_DEG[row]), page,
            tiling(lying.box_mm, page.window_mm, aside).only(wanted))


@lru_cache(maxsize=32)  # the pieces of a boat, for each paper
def _lain(drawing):
    """A Drawing as it lies at each of TURNS_DEG."""
    told = drawing.on(*SHOWN, "mark")
    return [_lying(told.turned(turn)) for turn in TURNS_DEG]


def _at(joints_mm, places_mm, within_mm):
    """How many of some places, (k, 2), are so near to a joint, upright or level; (n,)."""
    near = [(np.abs(joints[..., None] - at) < within_mm).any(axis=1)
            for at, joints in zip(places_mm.T, joints_mm, strict=True)]
    return (near[0] | near[1]).sum(axis=1)


def _lying(drawing):
    shown = drawing.on(*SHOWN)
    lines = shapely.multilinestrings([shapely.linestrings(
        np.vstack([one.points_m, one.points_m[:int(one.closed)]]) * MM_PER_M)
        for one in shown.strokes if isinstance(one, Path)])
    shapely.prepare(lines)
    holes = [one.centre_m for one in shown.strokes if isinstance(one, Circle)]
    boxes = np.array([drawing.on("cut").box_m, shown.box_m]) * MM_PER_M + np.outer(
        (PAD_MM, STICK_PAD_MM), (-1.0, -1.0, 1.0, 1.0))
    box = (*boxes[:, :2].min(axis=0).tolist(), *boxes[:, 2:].max(axis=0).tolist())
    return _Lying(drawing, box, lines, MM_PER_M * np.reshape(holes, (-1, 2)))


def _corners_mm(path):
    """Corners of a saw line, and the middles between two that are near each other, (n, 2)."""
    points = np.asarray(path.points_m) * MM_PER_M
    sides = np.roll(points, -1, axis=0) - points
    along = np.arctan2(sides[:, 1], sides[:, 0])
    turned = np.abs((along - np.roll(along, 1) + np.pi) % (2.0 * np.pi) - np.pi)
    corners = points[turned > np.radians(CORNER_DEG)]
    ahead = np.roll(corners, -1, axis=0)
    short = np.hypot(*(ahead - corners).T) < SHORT_MM
    return np.vstack([corners, 0.5 * (corners + ahead)[short]])
