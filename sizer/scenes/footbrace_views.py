"""The footbrace: its rail with every hole, its pedals across the boat, a foot on one of them,
and its cleats."""

import numpy as np
from shapely.geometry import LineString, Point, Polygon

from sizer.drawing.marks import box, line
from sizer.drawing.measured import both_text_short, label, measured
from sizer.drawing.record import Circle, Drawing, Path, joined
from sizer.drawing.told import in_mm, size, told
from sizer.hull.boat import sections_at
from sizer.paddler.legs import FEET_APART_M, HEEL_SHARE, heel_behind_m
from sizer.paddler.room import FOOT_SLOPE_DEG
from sizer.scenes.sections import section_at
from sizer.shop.boards import hull_at
from sizer.shop.foot_rails import STOP_M
from sizer.shop.lashing import HOLE_M
from sizer.shop.outfit import PIN_M, PINS_AFT_M, RAIL_OVER_M, RAIL_PAST_M
from sizer.shop.pedals import AHEAD_M, BLOCK_M, BOLT_HOLE_M, CHEEK_M, SLOT_WIDE_M, THICK_M
from sizer.shop.seat_parts import RAIL_HIGH_M
from sizer.shop.shapes import ring_path

BEYOND_M = (0.060, 0.200)  # of the foot's view ahead of the sole, and behind; our drawing
OUTLINE = (  # of a shoe's upper, shares of its length: along the sole from the heel, off it
    (-0.02, 0.06), (-0.03, 0.18), (0.02, 0.30), (0.34, 0.30), (0.48, 0.22), (0.62, 0.17))
TOES = ((0.14, 0.15), (0.28, 0.10), (0.37, 0.03))  # of the toes': up the plate, off it
AROUND_M = 0.055  # of the frame's plywood round a cleat's middle; our drawing
STICK_M = 0.030  # of the stick past the cleat and past the frame; our drawing


def rail_view(bench, letters_m):
    """One rail from inside the boat, bow on the left, with every hole and the paddler's pedal."""
    rails = bench.foot_rails
    high = RAIL_HIGH_M
    strokes = [box("cut", 0.0, 0.0, rails.long_m, high),
               *(Circle("drill", (at, 0.5 * high), 0.5 * PIN_M) for at in rails.holes_m),
               *_frames_beside(bench), *_pedal_beside(bench)]
    under, over = _plate_span_m(bench)
    sole = over + 1.2 * letters_m
    strokes += [line("extension", (0.0, high), (0.0, sole)),
                *measured((0.0, sole), (rails.set_m, sole), letters_m,
                          lambda value: f"ball of the foot, this paddler {both_text_short(value)}")]
    first, last = rails.holes_m[0], rails.holes_m[-1]
    low = under - 2.2 * letters_m
    strokes += measured((0.0, low), (first, low), letters_m)
    strokes += measured((first, low), (last, low), letters_m,
                        lambda value: f"{len(rails.holes_m)} holes, {both_text_short(value)}",
                        -1.2)
    low -= 3.6 * letters_m
    strokes += measured((0.0, low), (rails.long_m, low), letters_m, both_text_short, -1.2)
    strokes += [label((-letters_m, 0.5 * high), f"at {rails.fore}", letters_m, "end"),
                label((rails.long_m + letters_m, 0.5 * high), f"at {rails.aft}", letters_m)]
    return Drawing("rail", tuple(strokes))


def _plate_span_m(bench):
    """Lower and upper edge of a plate over the rail's lower edge."""
    under = bench.foot_rails.z_m - 0.5 * RAIL_HIGH_M
    heights = bench.pedals.plate_m[:, 1] - under
    return float(heights.min()), float(heights.max())


def _frames_beside(bench):
    """The plywood of both frames behind the rail with their grooves, and the stop behind it."""
    rails = bench.foot_rails
    thick = {one.name: one.thickness_m for one in bench.frames}
    aft = rails.long_m - RAIL_PAST_M
    for left, wide in ((RAIL_OVER_M, thick[rails.fore]), (aft - thick[rails.aft], thick[rails.aft]),
                       (aft, STOP_M[1])):
        yield box("extension", left, 0.0, left + wide, RAIL_HIGH_M)
    for left, right in rails.grooves_m:
        yield box("fine", left, 0.0, right, RAIL_HIGH_M)


def _pedal_beside(bench):
    """The pedal on the rail, its plate's after face at the paddler's place: cheek, plate, pins."""
    sole, up = bench.foot_rails.set_m, 0.5 * (RAIL_HIGH_M - CHEEK_M[2])
    low, high = _plate_span_m(bench)
    yield box("block", sole - AHEAD_M, up, sole - AHEAD_M + CHEEK_M[1], up + CHEEK_M[2])
    yield box("block", sole - AHEAD_M, up, sole - THICK_M, up + CHEEK_M[2])
    yield box("block", sole - THICK_M, low, sole, high)
    for aft in PINS_AFT_M:
        yield Circle("here", (sole + aft, 0.5 * RAIL_HIGH_M), 0.5 * PIN_M)


def pedals_view(assessed, bench, baseline_m, letters_m):
    """The boat across at this paddler's soles, from astern, with rails, pedals and strap, and
    beside it a foot on a pedal; heights over the strongback."""
    across, foot = (view.moved((0.0, baseline_m)) for view in (
        _across(assessed.boat, bench, letters_m), _foot(assessed, bench, letters_m)))
    right = across.box_m[2] - foot.box_m[0] + 3.0 * letters_m
    return joined("pedals", [across, foot.moved((right, 0.0))])


def _across(boat, bench, letters):
    rails, made = bench.foot_rails, bench.pedals
    x = bench.seat.footbrace.start_x_m + rails.set_m
    half = made.strap_m[:, 0].max()
    strokes = [*section_at(boat, x, seat=False), Path("guide", made.strap_m, closed=True)]
    for side in (1.0, -1.0):
        strokes += [Path("cut", made.plate_m * (side, 1.0), closed=True),
                    *(Path("block", one * (side, 1.0), closed=True) for one in _beside(rails)),
                    *(Circle("drill", (side * out, up), 0.5 * BOLT_HOLE_M)
                      for out, up in made.bolts_m),
                    *(box("fine", side * inner, up - 0.5 * SLOT_WIDE_M,
                          side * outer, up + 0.5 * SLOT_WIDE_M)
                      for (_, up), (inner, outer) in zip(made.bolts_m, made.slots_m,
                                                         strict=True))]
    bottom = float(hull_at(boat, [x])[0][:, 1].min()) - 1.2 * letters
    strokes += measured((-half, bottom), (half, bottom), letters,
                        lambda value: told("strap {}", in_mm(value)), -1.2)
    left, right = made.plate_m[:, 0].min(), made.plate_m[:, 0].max()
    top = float(made.plate_m[:, 1].max())
    strokes += measured((left, top + 1.2 * letters), (right, top + 1.2 * letters), letters)
    over = top + made.here.over_m
    strokes += [line("dimension", (-FEET_APART_M, top), (-FEET_APART_M, over)),
                label((-FEET_APART_M + 0.5 * letters, 0.3 * top + 0.7 * over),
                      told("open {}", in_mm(made.here.over_m)), letters)]
    for beside, text in zip(_beside(rails), ("rail", "cheek"), strict=True):
        spot, place = beside.mean(axis=0), (right + 3.0 * letters, top + (
            3.4 if text == "cheek" else 1.2) * letters)
        strokes += [line("extension", spot, place),
                    label((place[0] + 0.4 * letters, place[1]), text, letters)]
    return Drawing("across", tuple(strokes))


def _beside(rails):
    """Rail and cheek to starboard at this paddler's place."""
    lean = np.radians(rails.lean_deg(rails.set_m))
    up = np.array([np.sin(lean), np.cos(lean)])
    inward = np.array([-np.cos(lean), np.sin(lean)])
    middle = np.array([rails.half_m(rails.set_m), rails.z_m])
    for near, far, tall in ((0.0, rails.thick_m, RAIL_HIGH_M),
                            (rails.thick_m, rails.thick_m + CHEEK_M[0], CHEEK_M[2])):
        yield np.array([middle + out * inward + 0.5 * along * tall * up for out, along in (
            (near, -1.0), (far, -1.0), (far, 1.0), (near, 1.0))])


def _foot(assessed, bench, letters):
    """From the side at the middle of a foot, bow on the left: plate, strap, cheek, shoe."""
    boat, made, rails = assessed.boat, bench.pedals, bench.foot_rails
    x = bench.seat.footbrace.start_x_m + rails.set_m
    along = np.linspace(-BEYOND_M[0], BEYOND_M[1], 9)
    skin = np.array([(at, _floor_m(boat, x + at)) for at in along])
    (low, top), (under, over) = map(_at_a_foot, (made.plate_m, made.strap_m))
    cheek = rails.z_m - 0.5 * CHEEK_M[2]
    body = assessed.person.body
    floor = float(np.interp(0.0, *skin.T))
    strokes = [
        Path("ink", skin), Path("body-line", _shoe(body, skin)),
        box("cut", -THICK_M, low, 0.0, top), box("cut", -2.0 * THICK_M, under, -THICK_M, over),
        box("guide", -AHEAD_M, cheek, CHEEK_M[1] - AHEAD_M, cheek + CHEEK_M[2]),
        box("guide", -AHEAD_M, cheek, -AHEAD_M + BLOCK_M[0], cheek + CHEEK_M[2]),
        line("dimension", (-0.5 * THICK_M, floor), (-0.5 * THICK_M, low))]
    high = skin[:, 1].min() - 1.4 * letters
    strokes += [line("extension", (-0.5 * THICK_M, floor), (-0.5 * THICK_M, high)),
                label((-THICK_M, high - 0.8 * letters),
                      told("{} over the skin", in_mm(under_foot_m(boat, bench))), letters, "end")]
    under_it = high - 2.0 * letters
    strokes += measured((0.0, under_it), (heel_behind_m(body), under_it), letters,
                        lambda long: told("heel {}", in_mm(long)), -1.2)
    aside = BEYOND_M[1]
    strokes += measured((aside, low), (aside, top), letters,
                        lambda long: told("here {}", in_mm(long)), -1.2)
    return Drawing("foot", tuple(strokes))


def under_foot_m(boat, bench):
    """From the skin up to a plate's lower edge at the middle of a foot, at this paddler's place."""
    x = bench.seat.footbrace.start_x_m + bench.foot_rails.set_m
    return _at_a_foot(bench.pedals.plate_m)[0] - _floor_m(boat, x)


def _floor_m(boat, x_m):
    """Height of the skin under the middle of a foot."""
    skin = sections_at(boat, np.array([x_m]))
    hull = slice(0, skin.sheer + 1)
    return float(np.interp(FEET_APART_M, skin.y_m[0, hull], skin.z_m[0, hull]))


def _at_a_foot(ring):
    """Lower and upper edge of plate or strap at the middle of a foot."""
    board = Polygon(ring)
    there = board.intersection(LineString([(FEET_APART_M, -1.0), (FEET_APART_M, 2.0)]))
    _, low, _, high = (board if there.is_empty else there).bounds
    return low, high


def _shoe(body, skin):
    """A shoe with its heel on the bottom and its ball on the plate, the toes bent up along it."""
    tip, long, behind = (np.radians(FOOT_SLOPE_DEG), body.shoe_length.value_m,
                         heel_behind_m(body))
    heel = np.array([behind, np.interp(behind, *skin.T)])
    ahead, off = np.array([-np.cos(tip), np.sin(tip)]), np.array([np.sin(tip), np.cos(tip)])
    ball = heel + HEEL_SHARE * long * ahead
    upper = [heel + long * (share * ahead + out * off) for share, out in OUTLINE]
    toes = [ball + long * np.array([out, up]) for up, out in TOES]
    return np.array([ball, heel, *upper, *toes, toes[-1] * (0.0, 1.0), ball])


def cleat_view(bench, letters_m):
    """A cleat to starboard at its frame, from astern, and the same from above, bow on the left."""
    across, above = _cleat_across(bench, letters_m), _from_above(bench, letters_m)
    right = across.box_m[2] - above.box_m[0] + 2.0 * letters_m
    middle = 0.5 * (across.box_m[1] + across.box_m[3] - above.box_m[1] - above.box_m[3])
    return joined("cleat", [across, above.moved((right, middle))])


def _cleat_across(bench, letters):
    cleats = bench.cleats
    pattern = next(one for one in bench.frames if one.name == cleats.frame)
    _, *middle = cleats.middle_m
    near = Point(middle).buffer(AROUND_M)
    wood = pattern.wood.intersection(near)
    strokes = [ring_path("guide", one.exterior) for one in getattr(wood, "geoms", [wood])]
    strokes += [Circle("drill", spot, 0.5 * HOLE_M) for name, spot in pattern.holes
                if name == cleats.stick and near.contains(Point(spot))]
    strokes += [Path("cut", cleats.stick_m, closed=True),
                Path("block", cleats.section_m, closed=True)]
    left, low, right, high = near.bounds
    for text, spot, up in ((cleats.stick, cleats.stick_m.mean(axis=0), 1.0), (
            "cleat", cleats.section_m.mean(axis=0), -0.6),
            (f"{cleats.frame}, its window on the left", (left + 0.3 * AROUND_M, low), -2.2)):
        at = right + letters, 0.5 * (low + high) + 1.6 * up * letters
        strokes.append(label(at, text, letters))
        if not text.startswith(cleats.frame):
            strokes.append(line("extension", spot, (at[0] - 0.4 * letters, at[1])))
    corner, far = cleats.stick_m[0], cleats.section_m[0]
    run = cleats.section_m[3] - cleats.section_m[0]
    strokes += [line("extension", spot, spot + 1.92 * letters * run / np.hypot(*run))
                for spot in (corner, far)]
    return Drawing("across", tuple(strokes))


def _from_above(bench, letters):
    cleats = bench.cleats
    thick, long, _ = cleats.size_m
    wood = next(one.thickness_m for one in bench.frames if one.name == cleats.frame)
    deep = float(np.linalg.norm(cleats.stick_m[2] - cleats.stick_m[1]))
    strokes = [box("cut", -long - STICK_M, 0.0, wood + STICK_M, deep),
               box("block", -long, -thick, 0.0, 0.0),
               box("guide", 0.0, -2.5 * thick, wood, 0.6 * deep)]
    low = -thick - 1.2 * letters
    strokes += measured((-long, low), (0.0, low), letters, beside=-1.2)
    strokes += measured((-long - 0.8 * letters, -thick), (-long - 0.8 * letters, 0.0), letters,
                        lambda value: told("{} thick", size(value)), beside=1.2)
    strokes += [label((wood + letters, -1.8 * thick), cleats.frame, letters),
                label((-0.5 * long, 0.5 * deep), cleats.stick, letters, "middle")]
    return Drawing("above", tuple(strokes))
