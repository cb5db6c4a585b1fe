"""Which way a piece lies on tiles: on as few as it takes, as it is drawn rather than turned, with
the joints off its corners, holes and marks rather than through them.

Whatever is sawn, bored or measured to is on the pages whole.
"""

from dataclasses import dataclass
from functools import cached_property
from itertools import product

import numpy as np
import shapely

from sizer.drawing.record import Circle, Drawing, Path
from sizer.export.pdf import PAD_MM
from sizer.export.tiles import joins_mm, starts_mm, tiling
from sizer.units import MM_PER_M

TURNS_DEG = sorted(range(-75, 91, 15), key=abs)  # tried for each piece; as it is drawn comes first
SHOWN = ("cut", "drill", "stick")  # what is sawn, bored or measured to
STICK_PAD_MM = 0.5  # round what is only measured to; our drawing
COARSE = (0.0, -0.5, 0.5, -1.0, 1.0)  # places of the windows tried, to find how few do
FINE = np.linspace(-1.0, 1.0, 13)  # and to find where the joints do the least harm
NEAR_MM = 12.0  # from a joint to what is hard to measure over it; our judgement
ON_MM = 5.0  # from a joint to the middle of a hole that it goes through; our judgement
CORNER_DEG = 30.0  # a lesser turn of a saw line is of a curve; our judgement
SHORT_MM = 50.0  # a straight piece of a notch or tenon is as long at most; our judgement


@dataclass(frozen=True, eq=False)
class _Lying:
    """A Drawing as it may lie on pages; millimetres."""

    drawing: Drawing
    box_mm: tuple[float, float, float, float]  # that pages have to cover
    lines: shapely.MultiLineString  # of all that is shown, prepared
    holes_mm: np.ndarray  # (n, 2)

    def shown(self, page, aside):
        """Which of a page's windows show something, in the order of `tiling`."""
        lefts, bottoms = starts_mm(self.box_mm, page.window_mm, aside)
        low = np.array([(left, bottom) for bottom in bottoms[::-1] for left in lefts])
        high = low + page.window_mm
        bored = ((self.holes_mm[:, None] > low) & (self.holes_mm[:, None] < high)).all(axis=-1)
        return shapely.intersects(self.lines, shapely.box(*low.T, *high.T)) | bored.any(axis=0)

    def harmed(self, page, aside):
        """How much lies at a joint: corners and marks near it, and twice the holes on it."""
        at_joints = [joins_mm(one) for one in starts_mm(self.box_mm, page.window_mm, aside)]
        return (_at(at_joints, self.delicate_mm, NEAR_MM)
                + 2 * _at(at_joints, self.holes_mm, ON_MM))

    @cached_property
    def delicate_mm(self):
        """Ends of marks, corners of saw lines and the middles of short pieces between these,
        (n, 2)."""
        marks = [one.points_m * MM_PER_M for one in self.drawing.on("mark").strokes
                 if isinstance(one, Path)]
        return np.vstack([*marks, *map(_corners_mm, self.drawing.on("cut").strokes)])


def best_way(drawing, pages):
    """How a Drawing lies on pages of one paper, upright and lying: (the Drawing so turned, the
    page, its Tiling without the windows that show nothing)."""
    lain = [_lying(drawing.turned(turn)) for turn in TURNS_DEG]
    counts = [[min(lying.shown(page, aside).sum() for aside in product(COARSE, COARSE))
               for page in pages] for lying in lain]
    fewest = np.min(counts)
    row = int(np.argmax(np.min(counts, axis=1) == fewest))
    lying = lain[row]
    page, aside = min(
        ((page, aside) for page, count in zip(pages, counts[row], strict=True) if count == fewest
         for aside in product(FINE, FINE) if lying.shown(page, aside).sum() == fewest),
        key=lambda way: (lying.harmed(*way), np.hypot(*way[1])))
    tiles = tiling(lying.box_mm, page.window_mm, aside)
    return lying.drawing, page, tiles.only(lying.shown(page, aside))


def _at(joints_mm, places_mm, within_mm):
    """How many of some places, (n, 2), are so near to a joint, upright or level."""
    near = [np.abs(at - np.reshape(joints, (-1, 1))) < within_mm
            for at, joints in zip(places_mm.T, joints_mm, strict=True)]
    return int(np.vstack(near).any(axis=0).sum())


def _lying(drawing):
    shown = drawing.on(*SHOWN)
    lines = shapely.MultiLineString([
        np.vstack([one.points_m, one.points_m[:int(one.closed)]]) * MM_PER_M
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
