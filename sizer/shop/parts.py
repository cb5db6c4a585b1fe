"""Every part of the boat in one numbered list: the same numbers on drawings, cards and kit."""

from dataclasses import dataclass

import numpy as np

from sizer.drawing.told import size, told
from sizer.hull.stick_curves import stick_curve
from sizer.shop.coaming import COAMING_WOOD, LIP_M, WALL_M
from sizer.shop.materials import DECK_LINE_MM, LOOP_CORD_MM
from sizer.shop.outfit import SHEET as OUTFIT
from sizer.shop.seat_parts import HARD_WOOD
from sizer.shop.spacers import ends_x_m, leaning_at
from sizer.shop.stick_marks import over_all_m
from sizer.shop.thigh import LONG_M
from sizer.shop.thigh import THICK_M as BRACE_M
from sizer.shop.trade_sizes import cord_text, section_told, sold_as
from sizer.units import both_cloth

SPACER_AT = 0.22  # of a spacer's length from its fore end: clear of what else lies there
STICKS_AT = (0.30, 0.74, 0.36, 0.68, 0.42, 0.80)  # of the length, in turn: where balloons point
BETWEEN = 4  # lines between the seat's and the pedals': coaming wall and lip, backband, rail


@dataclass(frozen=True)
class BoatPart:
    """One line of the list."""

    number: int
    name: str
    count: int
    stock: str  # what it is made of, or bought as
    size_m: tuple[float, ...]  # in the order that the sizes are cut: thickness or width first
    sheet: str  # where it is drawn
    view: str  # "side" or "plan": where its balloon stands
    at_m: tuple[float, float] | None  # x and height, or x and half-breadth, that it points to


def boat_parts(job, bench):
    """The BoatParts of a Job and its Bench, from 1."""
    rows = [*_sticks(job, bench), *_plywood(job, bench), *_cockpit(job, bench),
            *_rest(job, bench), *_small(job, bench)]
    return tuple(BoatPart(number, *row) for number, row in enumerate(rows, start=1))


def _sticks(job, bench):
    boat = job.fitted.assessed.boat
    for row, stick in enumerate(bench.sticks):
        one, curve = stick.stringer, stick_curve(boat, stick.name)
        x = curve.points_m[:, 0]
        wanted = STICKS_AT[row % len(STICKS_AT)] * boat.length_m
        place = int(np.abs(x - np.clip(wanted, x[0] + 0.1, x[-1] - 0.1)).argmin())
        yield (one.name, one.count, told("{}, {}", one.wood,
               section_told(one.width_m, one.depth_m)), (over_all_m(stick),),
               "Stick cards", "side", (float(x[place]), float(curve.points_m[place, 2])))


def _plywood(job, bench):
    boat = job.fitted.assessed.boat
    for frame in bench.frames:
        half = float(frame.section.skin_m[:, 0].max())
        left, low, right, high = frame.wood.bounds
        yield (frame.name, 1, f"okoume plywood {sold_as(frame.thickness_m)}, {frame.kind}",
               (right - left, high - low), "Frames and stems", "plan",
               (frame.x_m, 0.8 * half))
    for stem in bench.stems:
        left, low, right, high = stem.wood.bounds
        inboard = 0.25 * float(right)
        x = inboard if stem.end == "bow" else boat.length_m - inboard
        z = float(np.interp(inboard, *stem.profile_m.T))
        yield (stem.name, 1, f"okoume plywood {sold_as(stem.thickness_m)}",
               (right - left, high - low), "Frames and stems", "side", (x, z + 0.02))
    frames = {one.name: one for one in bench.frames}
    for one in bench.spacers:
        fore, aft = ends_x_m(one, frames)
        x = fore + SPACER_AT * (aft - fore)
        yield (one.name, 2,
               f"okoume plywood {sold_as(one.thickness_m)}, between its shoulders, and "
               "tenons", (one.high_m, one.between_m),
               "Frames and stems", "plan", (x, leaning_at(one, frames, x)[0]))


def _cockpit(job, bench):
    boat, rim, seat = job.fitted.assessed.boat, bench.materials.coaming, bench.seat
    opening, rails = boat.opening, bench.foot_rails
    middle = 0.5 * (opening.front_x_m + opening.back_x_m)
    rim_z = float(np.mean(opening.rim_z_m))
    wall, lip = rim.strips
    pieces = {tuple(np.round(one.size_m, 4)) for one in seat.boards}
    yield (seat.board_name, 2 * len(seat.boards), "as its sheet tells" + (
        "" if len(pieces) == 1 else ": boards of several sizes"),
           pieces.pop() if len(pieces) == 1 else (), "Seat", "plan",
           (0.5 * (seat.front_x_m + seat.back_x_m), -0.06))
    yield ("coaming wall", 1, told("{}, {} strips, {}", COAMING_WOOD, wall.count,
                                   section_told(WALL_M)),
           (wall.width_m, rim.girth_m), "Coaming", "side", (middle - 0.1, rim_z - 0.02))
    yield ("coaming lip", 1, told("{}, {} strips, {}", COAMING_WOOD, lip.count,
                                  section_told(LIP_M)),
           (lip.width_m, rim.lip_girth_m), "Coaming", "side", (middle + 0.15, rim_z))
    yield ("backband", 1, "bought, tied with cord", (), OUTFIT, "side",
           (seat.backband.x_m, seat.top_m + seat.backband.over_seat_m))
    rail = seat.footbrace.start_x_m
    yield ("footbrace rail", 2, told("{}, {}, with a stop", HARD_WOOD,
                                      size(*rails.size_m)), (rails.long_m,),
           OUTFIT, "plan",
           (rail + 0.5 * rails.long_m, -rails.aft_half_m))
    yield ("footbrace pedal", 2, f"okoume plywood {sold_as(bench.pedals.size_m[0])}, with cheek, "
           "block, two pins; one strap for both", bench.pedals.size_m[1:],
           OUTFIT, "plan",
           (boat.seat_x_m - seat.footbrace.set_m - 0.5 * bench.pedals.size_m[0],
            -float(bench.pedals.plate_m[:, 0].mean())))
    if bench.hip_pads:
        hips = bench.hip_pads
        yield ("hip pad on its board", 2, f"okoume plywood {sold_as(hips.board_m[0])} and "
               "foam", hips.board_m[1:], OUTFIT, "plan",
               (0.5 * (hips.fore_x_m + hips.aft_x_m), -hips.face_m(hips.hips_z_m)))
    if bench.thigh:
        yield ("thigh brace with pad", 2, f"okoume plywood {sold_as(BRACE_M)}, post of "
               f"{HARD_WOOD}, foam", (LONG_M, bench.thigh.wide_m),
               OUTFIT, "plan",
               (bench.thigh.fore_x_m + 0.5 * LONG_M,
                -0.5 * (bench.thigh.inner_m + bench.thigh.outer_m)))


def _rest(job, bench):
    boat, bought = job.fitted.assessed.boat, bench.materials
    for one in bench.bag_ties:
        yield (f"float bag, {one.end}, {one.litres:.0f} litres or more", 1, "bought, tied in", (),
               "Float bags", "plan", (0.5 * (one.front_x_m + one.back_x_m), -0.03))
    for one in bench.bag_ties:
        yield (f"{one.end} bag's panel", 1, "the skin's cloth, hemmed", one.panel_size_m,
               "Float bags", "plan", (one.panel_x_m, -0.12))
    yield ("skin", bought.skin.lengths,
           f"cloth of {both_cloth(boat.design.skin.fabric_kgpm2)}, coated",
           (bought.skin.cloth_width_m, bought.skin.cloth_m / bought.skin.lengths), "Skin", "side",
           (0.88 * boat.length_m, float(boat.sections.z_m[len(boat.sections.x_m) * 7 // 8, 1])))
    yield ("deck line and end loops", 1,
           f"cord, {cord_text(DECK_LINE_MM)}; loops {cord_text(LOOP_CORD_MM)}", (),
           "Order of work", "side", None)


def _small(job, bench):
    """What is small, behind all else so that no other number moves."""
    cleats = bench.cleats
    x, half, _ = cleats.middle_m
    yield (f"cleat ahead of {cleats.frame}", 2, HARD_WOOD, cleats.size_m, OUTFIT, "plan",
           (x, -half))


def plywood_numbers(design, spacers, plates, outfit=()):
    """{name of a frame, a stem, a spacer, a seat's plate or one of the rows of `outfit`: its
    number}: sticks come first, from 1, then these in turn; the seat's plates are one line of the
    list, and each row is one."""
    names = (*(one.name for one in design.frames), "bow stem", "stern stem",
             *(one.name for one in spacers))
    first = 1 + len(design.stringers)
    return {name: number for number, name in enumerate(names, start=first)} | {
        plate.name: first + len(names) for plate in plates} | {
        piece.name: number for number, row in enumerate(
            outfit, start=first + len(names) + 1 + BETWEEN) for piece in row}
