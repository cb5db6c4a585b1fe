"""A frame pattern as a drawing: saw lines, holes, marks, words, skin and sticks round it."""

from itertools import pairwise

import numpy as np
from shapely.affinity import scale
from shapely.geometry import LineString

from sizer.design.records import MOULDED_POINT
from sizer.drawing.leaders import with_leaders
from sizer.drawing.record import LETTER_WIDTH, LINE_HEIGHT, Drawing, Path, Text
from sizer.drawing.told import Told, in_fits, in_full, in_tenths, row_of, size, told
from sizer.hull.inside import RELIEF_M, RING_WIDTH_M
from sizer.shop.labels import SCRIBED_M, on_wood, up_arrow, written
from sizer.shop.lashing import HOLE_WORDS
from sizer.shop.notches import CLEARANCE_M, all_round
from sizer.shop.pattern_checks import LEAST_FLOOR_M
from sizer.shop.planing import planed_words, where_words
from sizer.shop.shapes import line_pieces, ring_path
from sizer.shop.trade_sizes import sold_told

BEYOND_M = 0.012  # of guide lines past the skin; our drawing
SMALL_M = 0.004  # letters beside the wood; our drawing
NAMED_AT = 0.25  # of a stick's depth, where the line from its name ends; our drawing
DEEP_M = (0.5 * (RING_WIDTH_M + RELIEF_M), 0.016, 0.034)  # lines of writing behind the skin
SHARES = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8)  # places along a skin panel, tried in order
FILED_FROM_M = 0.0002  # less drift through the plywood is within the play; our judgement
NAMED_ON_M = 0.004  # of the centre line from its lower end, where its name's leader ends


def frame_drawing(pattern):
    """The Drawing of a FramePattern, seen on its reference face, on the boat's own heights."""
    lines = list(_lines(pattern))
    strokes, free = on_wood(pattern.seen, [line for _, line in lines],
                            [(pattern.right_sign * y, z) for _, (y, z) in pattern.holes], RELIEF_M)
    strokes += _words(pattern, free)
    strokes += [Path("guide", np.asarray(all_round(pattern.section.skin_m))
                     * (pattern.right_sign, 1.0), closed=True)]
    strokes += with_leaders(_sticks(pattern))
    for name, line in lines:
        strokes += _beyond(pattern, name, line)
    return Drawing(pattern.name, tuple(strokes), tuple(_notes(pattern)))


def _lines(pattern):
    """(name, line) of centre line, sheer line and waterline, right across the frame."""
    low, high = pattern.section.skin_m[:, 1].min(), pattern.section.skin_m[:, 1].max()
    half = pattern.section.skin_m[:, 0].max()
    sheer = pattern.section.skin_m[pattern.section.sheer, 1]
    yield "CL", np.array([(0.0, low - BEYOND_M), (0.0, high + BEYOND_M)])
    levels = [("sheer", sheer), ("water", pattern.water_z_m)]
    for name, level in levels:
        if level is not None and low < level < high:
            yield name, np.array([(-half - BEYOND_M, level), (half + BEYOND_M, level)])


def _words(pattern, free):
    """What is written on the free wood, and the arrow up."""
    looks = "bow" if pattern.reference_face == "forward" else "stern"
    spots = _spots(pattern)
    texts, free, _ = written(free, (pattern.name,), spots)
    arrow, free = up_arrow(free, spots)
    kind = told("{} {}", pattern.kind, sold_told(pattern.thickness_m))
    whole = f"this face to the {looks}"
    more, free, lost = written(free, (whole,), spots, SCRIBED_M)
    texts += more
    more, free, _ = written(free, ((f"{looks.upper()} FACE",) if lost else ()) + (kind,), spots)
    texts += more
    for side, sign in (("S", pattern.right_sign), ("P", -pattern.right_sign)):
        there = [spot for spot in spots if spot[0][0] * sign > 0.0]
        more, free, _ = written(free, (side,), there)
        texts += more
    return [*texts, *arrow]


def _spots(pattern):
    """Places for words: along every panel behind the skin, the longest panels first."""
    skin = pattern.section.skin_m
    panels = sorted(pairwise(skin),
                    key=lambda panel: -np.hypot(*(panel[1] - panel[0])))
    spots = []
    for start, end in panels:
        along = (end - start) / np.hypot(*(end - start))
        angle = float(np.degrees(np.arctan2(along[1], along[0])))
        for deep in DEEP_M:
            for share in SHARES:
                y, z = start + share * (end - start) + deep * np.array([-along[1], along[0]])
                spots += [((float(y), float(z)), angle), ((float(-y), float(z)), -angle)]
    return spots


def _filed(notch):
    """Where a notch sawn for the stick at the reference face is filed: its walls, its floor."""
    across, deep = notch.drift_m
    wall = "upper wall" if across > 0.0 else "lower wall"
    if abs(across) > FILED_FROM_M and not (across > 0.0 and notch.role == "gunwale"):
        yield told("{} {}", wall, in_tenths(abs(across)))
    if deep > FILED_FROM_M:
        yield told("floor {}", in_tenths(deep))


def filed_words(pattern):
    """Each stick whose notch has to be filed, and where by how many mm at the other face."""
    return [told("{} {}", notch.stringer, row_of(list(_filed(notch))))
            for notch in pattern.section.notches if any(_filed(notch))]


def _sticks(pattern):
    """The sticks' sections on both sides, dashed at the reference face and thin at the other where
    they drift, and their names on the right, none over another."""
    lowest = -np.inf
    for notch in pattern.section.notches:
        sections = [("stick", notch.stock())]
        if max(map(abs, notch.drift_m)) > FILED_FROM_M:
            sections.append(("extension", notch.stock_through(1.0)))
        for pen, stock in sections:
            sides = [stock] if notch.central else [stock, scale(stock, -1.0, origin=(0.0, 0.0))]
            for shape in sides:
                yield ring_path(pen, shape.exterior)
        left = notch.high_m - notch.low_m
        tapered = left < notch.size_m[0] - FILED_FROM_M
        word = told("{} {}{}", notch.stringer, row_of(map(in_full, notch.size_m), " x "),
                    told(", here {} wide", in_tenths(left)) if tapered else "")
        y, z = notch.at(0.5 * (notch.low_m + notch.high_m), -BEYOND_M)
        z = max(z, lowest)
        lowest = z + LINE_HEIGHT * SMALL_M
        if notch.central:
            y = BEYOND_M
        of = notch.at(0.5 * (notch.low_m + notch.high_m), NAMED_AT * notch.depth_m)
        yield Text("guide", (float(y), float(z)), SMALL_M, word, anchor="start",
                   of_m=tuple(map(float, of)))


def _beyond(pattern, name, line):
    """The ends of a marked line beside the wood, with its name."""
    outside = LineString(line).difference(pattern.section.outline())
    yield from (Path("guide", piece) for piece in line_pieces(outside))
    left, bottom = line[0]
    if name == "CL":
        yield from with_leaders([Text("guide", (left, bottom - SMALL_M), SMALL_M, name,
                                      of_m=(left, bottom + NAMED_ON_M))])
    else:
        yield Text("guide", (left - 0.5 * LETTER_WIDTH * SMALL_M * (len(name) + 1), bottom),
                   SMALL_M, name)


def _notes(pattern):
    looks, starboard = (("bow", "left") if pattern.reference_face == "forward"
                        else ("stern", "right"))
    yield told("{}: {} frame of {} plywood at {} from the bow, edges square. Drawn on its "
               "reference face, which looks to the {}; starboard is on the {}.", pattern.name,
               pattern.kind, sold_told(pattern.thickness_m), size(pattern.x_m, form=in_tenths),
               looks, starboard)
    yield told("Notches are cut square through and eased: every stick passes at its angle with {} "
               "play, lies on the floor where that is highest under it and so touches the moulded "
               "line with {}. Dashed: the stick at this face, thin: at the other. Broken lines "
               "across the wood are marks, sheer and water: no cut.",
               size(CLEARANCE_M, form=in_fits), MOULDED_POINT)
    if filed := filed_words(pattern):
        yield told("Saw on the heavy line and file nothing yet: it is wider already, so that the "
                   "stick finds this room at the other face{}: {}.", Told(", mm", ""),
                   row_of(filed, "; "))
    if planed := planed_words(pattern):
        yield told("These sticks, not the frame, stand outside the skin here. When the dry fit is "
                   "measured plane {}: {}.", where_words([pattern]), row_of(planed, "; "))
    held = pattern.held_m() if pattern.shared_notches else {}
    for pair in pattern.shared_notches:
        bare = [name for name in pair if held[name][1] < LEAST_FLOOR_M]
        yield (f"{pair[0]} and {pair[1]} share one pocket: the plywood between them would be too "
               "thin to hold. One lashing takes both, through the holes beside the pocket. " + (
                   "Set each on its own floor and wedge any gap." if not bare else
                   f"No floor is left under {' nor '.join(bare)}: set it to its height on the "
                   "other and lash the two together."))
    yield f"{HOLE_WORDS}."
