"""One half of a pattern that is alike on both sides of its centre line, to draw round twice.

The paper is laid on the centre line, drawn round, turned over and drawn round again.
"""

from dataclasses import replace

import numpy as np
from shapely.affinity import scale
from shapely.geometry import LineString, box

from sizer.drawing.record import Circle, Drawing, Path, Text
from sizer.shop.relief import outlines
from sizer.shop.shapes import line_pieces

ALIKE_M = 0.0002  # between a saw line and its mirror image: less than a pencil line; our judgement
LETTERS_M = 0.005  # of the name beside the centre line; our drawing
BESIDE_M = 0.004  # of what is left of the other half's words; our drawing
FAR_M = 10.0
NOTE = ("One half: both sides are alike. Lay the dashed centre line on one drawn on the wood, draw "
        "round it, turn the paper over on that line and draw round it again. The words are this "
        "half's.")


def half_pattern(drawing):
    """The half to the right of the centre line, x = 0; the Drawing where its halves are unlike."""
    wood = outlines(drawing)
    edges = [one.boundary for one in wood]
    if len(wood) != 1 or edges[0].hausdorff_distance(
            scale(edges[0], -1.0, origin=(0.0, 0.0))) > ALIKE_M:
        return drawing
    low, high = wood[0].bounds[1], wood[0].bounds[3]
    strokes = [piece for stroke in drawing.strokes for piece in _right(stroke)]
    strokes.append(Path("centre", np.array([(0.0, low - BESIDE_M), (0.0, high + BESIDE_M)])))
    if not any(isinstance(one, Text) and one.text == drawing.name for one in strokes):
        strokes.append(Text("text", (2.0 * BESIDE_M, high + 2.0 * BESIDE_M), LETTERS_M,
                            drawing.name, anchor="start"))
    return Drawing(drawing.name, tuple(strokes), (*drawing.notes, NOTE))


def _right(stroke):
    """What of a stroke lies right of the centre line."""
    if isinstance(stroke, Text):
        left, _, _, _ = Drawing("", (stroke,)).box_m
        return [stroke] if left > 0.0 else []
    if isinstance(stroke, Circle):
        return [stroke] if stroke.centre_m[0] > -stroke.radius_m else []
    points = np.asarray(stroke.points_m)
    if points[:, 0].min() >= 0.0:
        return [stroke]
    ring = np.vstack([points, points[:1]]) if stroke.closed else points
    kept = LineString(ring).intersection(box(0.0, -FAR_M, FAR_M, FAR_M))
    return [replace(stroke, points_m=piece, closed=False) for piece in line_pieces(kept)]
