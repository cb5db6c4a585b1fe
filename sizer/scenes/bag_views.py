"""The float bags in their boat from above, the two panels that hold them, from astern, and from
above, the bow up, what else is tied in on the bottom: gear between its loops, the heel mat."""

import numpy as np

from sizer.drawing.hull_lines import top_lines
from sizer.drawing.marks import MIRROR, apart, box, line, unit_of
from sizer.drawing.measured import both_text_short, label, measured, words_width_m
from sizer.drawing.record import Circle, Drawing, Path, side_by_side
from sizer.drawing.told import READERS, Told, in_marks, told
from sizer.scenes.hull_views import plan_hull
from sizer.shop.heel_mat import HOLE_IN_M

BAG_SHARE = 0.82  # of the half-breadth that a bag is drawn as wide as; our drawing
LETTERS = "ABCDEFGHIJ"
HOLE_M = 0.006  # of a tie in the mat, as drawn; our drawing


def bags_from_above(boat, bench, start_x_m, letters_m):
    """The boat from above with both bags, frames named, where the panels stand on the tape."""
    hull, lines = plan_hull(boat, unit_of(letters_m)), top_lines(boat)
    half = float(lines.sheer[:, 1].max())
    strokes = [*hull.wood, *hull.outline]
    for frame, x in zip(boat.design.frames, boat.frame_x_m, strict=True):
        strokes.append(label((x, half + 1.2 * letters_m), frame.name, letters_m, "middle"))
    says = [told("panel at {}, tape {} {}", one.panel, in_marks(one.panel_x_m - start_x_m),
                 Told(*READERS)) for one in bench.bag_ties]
    wide = max(words_width_m(one, letters_m) for one in says)
    places = apart([one.panel_x_m for one in bench.bag_ties], wide + letters_m)
    for one, said, place in zip(bench.bag_ties, says, places, strict=True):
        strokes.append(bag_outline(one, lines.sheer, "block"))
        low = -half - 1.5 * letters_m
        strokes += measured((one.front_x_m, low), (one.back_x_m, low), letters_m,
                            lambda value, one=one: f"{one.end} bag, {one.litres:.0f} l, "
                            f"{both_text_short(value)}", -1.2)
        strokes += _line_and_ring(boat, one, half, letters_m)
        strokes += [line("edge", (one.panel_x_m, -0.95 * half), (one.panel_x_m, 0.95 * half)),
                    label((place, half + 4.6 * letters_m), said, letters_m, "middle")]
    return Drawing("bags", tuple(strokes))


def _line_and_ring(boat, one, half, letters):
    """A nose line from its panel to the ring where it turns, the ring's turns round the gunwales,
    and how far those are from the boat's end."""
    end, across = (0.0 if one.end == "bow" else boat.length_m), 0.6 * letters
    yield line("here", (one.panel_x_m, 0.0), (one.ring_x_m, 0.0))
    yield line("here", (one.ring_x_m, -across), (one.ring_x_m, across))
    yield line("extension", (one.ring_x_m, across), (one.ring_x_m, half + 2.5 * letters))
    yield label((end, half + 2.9 * letters),
                f"ring, {both_text_short(one.ring_in_m)} in", letters,
                "start" if one.end == "bow" else "end")


def bag_outline(one, sheer, pen):
    """The outline of a BagTie's bag from above, within the sheer."""
    x = np.linspace(one.front_x_m + 0.03, one.back_x_m - 0.01, 60)
    half = BAG_SHARE * np.interp(x, *sheer.T)
    ends = np.minimum(x - x[0], x[-1] - x) / 0.08
    half = half * np.sqrt(np.clip(ends * (2.0 - ends), 0.0, 1.0) * (ends < 1.0) + (ends >= 1.0))
    upper = np.column_stack([x, half])
    return Path(pen, np.concatenate([upper, (upper * MIRROR)[::-1]]), closed=True)


def panels(job, bench, letters_m):
    """Each panel on its frame, a letter at each place where it is tied to a stick, and beside them
    what else is tied in, of the gear the first pack of each end."""
    first_of_end = {one.end: one for one in reversed(bench.gear_ties)}
    return side_by_side("panels", [
        *(_panel(bench, one, job.setting_up.baseline_height_m, letters_m)
          for one in bench.bag_ties),
        _lacing(letters_m),
        *(gear_view(one, job.setting_up.stations, letters_m)
          for one in bench.gear_ties if one is first_of_end[one.end]),
        mat_view(bench.heel_mat, letters_m)], 3.0 * letters_m)


def _lacing(letters):
    """How a panel's hem is laced to the loop round a stick, by the height of the letters."""
    step, hem, up, half = 4.0 * letters, -1.2 * letters, 2.2 * letters, 0.8 * letters
    eyelets = [(place * step, hem) for place in (-1.5, -0.5, 0.5, 1.5)]
    square = np.array([(half, -half), (half, half), (-half, half), (-half, -half)])
    bight, stick = np.array([0.0, 0.3 * up]), np.array([0.0, up + half])
    cord = [eyelets[0], (-step, 0.4 * letters), eyelets[1], bight, eyelets[2],
            (step, 0.4 * letters), eyelets[3]]
    cloth = np.array([(2.0 * step, 0.0), (2.0 * step, 2.0 * hem), (-2.0 * step, 2.0 * hem),
                      (-2.0 * step, 0.0)])
    return Drawing("lacing", (
        Path("cut", cloth, closed=True), Path("block", square + stick, closed=True),
        Path("here", np.array([bight, *(1.3 * square + stick)]), closed=True),
        Path("fine", np.array(cord)), *(Circle("drill", one, 0.35 * letters) for one in eyelets),
        *(label((1.6 * half, high), said, letters) for high, said in (
            (up + half, "stick, loop"), (0.5 * up, "bight, lacing"))),
        label((0.0, 2.0 * hem - 1.4 * letters), "panel's hem with eyelets", letters, "middle")))


def _panel(bench, one, up, letters):
    frame = next(each for each in bench.frames if each.name == one.panel)
    wood = np.asarray(frame.wood.exterior.coords)[:, :2] + (0.0, up)
    strokes = [Path("guide", wood, closed=True)]
    strokes += [Path("guide", np.asarray(ring.coords)[:, :2] + (0.0, up), closed=True)
                for ring in frame.wood.interiors]
    points = [np.array(point) for point in one.points_m]
    ring = [*one.corners_m, *((-y, z) for y, z in one.corners_m[::-1])]
    strokes.append(Path("block", np.array(ring), closed=True))
    ways = np.array(points) - (0.0, np.mean([z for _, z in points]))
    beside = points + 1.3 * letters * ways / np.hypot(*ways.T)[:, None]  # outside, on no edge
    heights = apart(beside[:, 1], 1.1 * letters)
    for letter, (y, z), out, high in zip(LETTERS, points, beside[:, 0], heights, strict=False):
        strokes += [Circle("drill", (float(side * y), float(z)), 0.4 * letters)
                    for side in (1.0, -1.0)]
        strokes.append(label((out, high), letter, letters, "middle"))
    strokes.append(label((0.0, heights[0] - 1.4 * letters),
                         f"{one.end} bag's panel at {one.panel}", letters,
                         "middle"))
    return Drawing(one.panel, tuple(strokes))


def tied_at(one):
    """(letter, half-breadth, height) of every place where a BagTie's panel is tied."""
    return tuple((letter, y, z) for letter, (y, z) in zip(LETTERS, one.points_m, strict=False))


def gear_view(one, stations, letters_m):
    """The loops of a GearTie round its stick at both frames, and the line through them."""
    at = {station.name: station for station in stations}
    fore, aft = (at[name] for name in one.frames)
    apart = aft.faces_x_m[0] - fore.faces_x_m[1]
    halves = [station.points_m[one.stick][0] for station in (fore, aft)]
    strokes = []
    for half, high, name in zip(halves, (apart, 0.0), one.frames, strict=True):
        strokes += [line("edge", (-half, high), (half, high)),
                    label((half + 1.2 * letters_m, high), name, letters_m)]
        strokes += [Circle("drill", (side * half, high), 0.4 * letters_m) for side in (1.0, -1.0)]
    (wide, narrow) = halves
    strokes += [line("here", (side * wide, apart), (-side * narrow, 0.0)) for side in (1.0, -1.0)]
    strokes += [line("guide", (side * wide, apart), (side * narrow, 0.0)) for side in (1.0, -1.0)]
    most, low = max(halves), -1.5 * letters_m
    strokes += measured((-most - letters_m, 0.0), (-most - letters_m, apart), letters_m)
    strokes += measured((-narrow, low), (narrow, low), letters_m, beside=-1.2)
    where = f"gear, {one.end}" if one.end else "gear"
    strokes.append(label((0.0, low - 2.6 * letters_m), where, letters_m, "middle"))
    return Drawing("gear", tuple(strokes))


def mat_view(mat, letters_m):
    _, long, wide = mat.size_m
    half, letters = 0.5 * wide, letters_m
    strokes = [box("block", -half, 0.0, half, long), line("centre", (0.0, 0.0), (0.0, long))]
    strokes += [Circle("drill", (side * (half - HOLE_IN_M), up), 0.5 * HOLE_M)
                for side in (1.0, -1.0) for up in (HOLE_IN_M, long - HOLE_IN_M)]
    strokes += measured((-half - letters, 0.0), (-half - letters, long), letters)
    strokes += measured((-half, -1.5 * letters), (half, -1.5 * letters), letters, beside=-1.2)
    strokes.append(label((0.0, -4.1 * letters), "heel mat", letters,
                         "middle"))
    return Drawing("heel mat", tuple(strokes))
