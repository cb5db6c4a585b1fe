"""Everything a builder takes to the bench for one job, worked out once."""

from dataclasses import dataclass

from sizer.drawing.record import Drawing
from sizer.fit.check import STATUSES
from sizer.hull.fairness import Unfairness, fairness, worst_status
from sizer.shop.bag_ties import BagTie, bag_ties
from sizer.shop.bench_marks import BenchMarks, bench_marks
from sizer.shop.blocks import block_items
from sizer.shop.climbing import ClimbingBoard, climbing_board, climbing_items
from sizer.shop.coaming_drawing import coaming_drawing
from sizer.shop.cross_feet import CrossFeet, cross_feet, cross_feet_items, foot_end_m
from sizer.shop.foot_push import PushCleats, cleat_items, push_cleats
from sizer.shop.foot_rails import FootRails
from sizer.shop.frame_drawing import frame_drawing
from sizer.shop.frames import FramePattern
from sizer.shop.gear_ties import GearTie, gear_ties
from sizer.shop.heel_mat import HeelMat, heel_mat
from sizer.shop.hip_pads import HipPads, hip_pads
from sizer.shop.layout import Layout, layouts
from sizer.shop.leg_stays import LegStay, leg_stay_items, leg_stays
from sizer.shop.materials import Materials, materials
from sizer.shop.outfit_boards import (
    all_boards,
    outfit_boards,
    outfit_pieces,
    pedal_piece,
    strap_piece,
)
from sizer.shop.parts import plywood_numbers
from sizer.shop.pattern_checks import PatternCheck
from sizer.shop.patterns import patterns_of
from sizer.shop.pedals import THICK_M, Pedals
from sizer.shop.plywood import unused_words
from sizer.shop.reach import reach_items
from sizer.shop.relief import router_checks
from sizer.shop.seat import SeatBuilt
from sizer.shop.seat_drawing import plywood_plates, seat_pieces
from sizer.shop.settings import SHOP, Shop, shop_words
from sizer.shop.skin import skin
from sizer.shop.spacers import Spacer, spacer_boards, spacer_pieces, spacers
from sizer.shop.stem_drawing import stem_drawing
from sizer.shop.stem_posts import arm_items
from sizer.shop.stem_stays import StemStay, stay_items, stem_stays
from sizer.shop.stems import StemPattern
from sizer.shop.stringers import Stick, stringer_list
from sizer.shop.sundries import BEAM_M, SOLD_BEAM_M, bench_items, outfit_items
from sizer.shop.thigh import ThighBraces, thigh_braces
from sizer.shop.ties import tie_items, tie_loops_m
from sizer.shop.tools import tool_items


@dataclass(frozen=True, eq=False)
class Bench:
    """Patterns, sticks, materials and marks of one job."""

    frames: tuple[FramePattern, ...]  # bow to stern
    stems: tuple[StemPattern, ...]
    drawings: tuple[Drawing, ...]  # of the frames, then of the stems
    coaming: Drawing
    spacers: tuple[Spacer, ...]
    seat: SeatBuilt
    seat_pieces: Drawing
    checks: tuple[PatternCheck, ...]
    unfair: tuple[Unfairness, ...]
    sticks: tuple[Stick, ...]
    materials: Materials
    marks: BenchMarks
    layouts: tuple[Layout, ...]
    thigh: ThighBraces | None
    hip_pads: HipPads | None
    foot_rails: FootRails
    pedals: Pedals
    bag_ties: tuple[BagTie, ...]  # bow, stern
    gear_ties: tuple[GearTie, ...]  # of each pack of the job's gear
    heel_mat: HeelMat
    climbing: ClimbingBoard
    stays: tuple[StemStay, ...]  # of the stems, bow first
    leg_stays: tuple[LegStay, ...]  # of hung frames, bow first
    cross_feet: CrossFeet
    cleats: PushCleats
    shop: Shop

    @property
    def pieces(self):
        """All drawings at full size: frames, stems, the coaming's form, seat's pieces, pedal and
        strap, the outfit's small boards, spacers."""
        between = (spacer_pieces(self.spacers),) if self.spacers else ()
        return (*self.drawings, self.coaming, self.seat_pieces, self.pedal_piece,
                strap_piece(self.pedals),
                *outfit_boards(self.hip_pads, self.thigh), *between)

    @property
    def outfit_pieces(self):
        """Rows of the outfit's plywood, a row for each line of the list of parts."""
        return outfit_pieces(self.pedals, self.hip_pads, self.thigh)

    @property
    def pedal_piece(self):
        return pedal_piece(self.pedals)

    @property
    def outfit_boards(self):
        """The outfit's small boards at full size, all together."""
        return all_boards(self.hip_pads, self.thigh)

    @property
    def shop_words(self):
        """The shop that it was made for, in a line, and which of its plywood this boat leaves."""
        return " ".join(filter(None, (shop_words(self.shop, self.sold_m), self.unused_words)))

    @property
    def unused_words(self):
        """What of the shop's true thicknesses this boat leaves, and why; "" where it is nothing."""
        return unused_words(self.shop.plywoods, self.sold_m)

    @property
    def sold_m(self):
        """Thicknesses that its plywood is sold as, the thinnest first."""
        return tuple(one.thickness_m for one in self.layouts)

    @property
    def status(self):
        """The worst status of patterns and sticks."""
        return max(self.pattern_status, self.fairness_status, key=STATUSES.index)

    @property
    def pattern_status(self):
        return worst_status(self.checks)

    @property
    def fairness_status(self):
        return worst_status(self.unfair)


def bench_of(job, shop=SHOP):
    """The Bench of a Job for a Shop. BadInput where a pattern is larger than the sheet."""
    assessed = job.fitted.assessed
    boat, design = assessed.boat, assessed.boat.design
    same = shop.plywoods == job.shop.plywoods
    made = job.patterns if same else patterns_of(assessed, shop)
    drawings = (*map(frame_drawing, made.frames), *map(stem_drawing, made.stems))
    between, thigh = spacers(made.frames), thigh_braces(assessed)
    sticks = stringer_list(boat, shop.stock_lengths_m, thigh.lashed_x_m if thigh else ())
    hips = hip_pads(assessed, made.frames, between, made.seat)
    outfit = outfit_pieces(made.pedals, hips, thigh)
    boards = plywood_plates(made.seat)
    sold = [part.thickness_m for part in (*design.frames, design.bow, design.stern)]
    laid = layouts([*zip(drawings, sold, strict=True), *_small(between, made.seat, design),
                    *((one, THICK_M) for row in outfit for one in row)], shop,
                   plywood_numbers(design, between, boards, outfit),
                   [one.name for one in boards], [one.name for one in between])
    marks = bench_marks(boat, job.setting_up, made.seat, made.frames, made.stems, shop.risers)
    ends, up = job.mishaps.bags.fits, job.setting_up
    tied = bag_ties(boat, job.mishaps.swamped, ends, up.stations, made.stems)
    stowed = gear_ties(boat, assessed.loading.gear)
    mat = heel_mat(boat, made.seat.footbrace, up.stations)
    board = climbing_board(boat, made.frames, marks.risers)
    stays = stem_stays(marks, made.stems, up.baseline_height_m, foot_end_m(boat, BEAM_M[1]))
    legs = leg_stays(boat, up, marks, stays)
    feet = cross_feet(boat, assessed.person.body.weight_kg, min(BEAM_M[0], SOLD_BEAM_M[0]),
                      made.seat.sit_x_m - up.strongback_start_x_m, stays)
    cleats = push_cleats(assessed, made.foot_rails, marks.risers, made.frames)
    outfitted = outfit_items(thigh, tied, made.foot_rails, made.pedals, hips,
                             skin(boat, shop.cloth_widths_m).spare_m, stowed, mat)
    bought = materials(boat, sticks, shop, laid, made.stems, between, (
        *made.seat.items, *bench_items(marks), *block_items(boat, marks), *climbing_items(board),
        *cross_feet_items(feet), *arm_items(marks.posts), *stay_items(stays), *leg_stay_items(legs),
        *outfitted, *cleat_items(cleats), *reach_items(boat),
        *tie_items(tie_loops_m(made.frames, made.stems, sticks)), *tool_items(sticks, marks)))
    return Bench(
        made.frames, made.stems, drawings, coaming_drawing(bought.coaming, boat, thigh), between,
        made.seat, seat_pieces(made.seat), (*made.checks, *router_checks(drawings, shop)),
        fairness(boat), sticks, bought, marks, laid, thigh, hips,
        made.foot_rails, made.pedals, tied, stowed, mat, board, stays, legs, feet,
        cleats,
        shop)


def _small(between, seat, design):
    """The same of every spacer and of a seat's plates."""
    thickness = {frame.name: frame.thickness_m for frame in design.frames}
    for one in between:
        for board in spacer_boards([one]):
            yield board, min(thickness[one.fore], thickness[one.aft])
    for plate in plywood_plates(seat):
        yield plate, design.seat.thickness_m


def bags_l(swamped):
    """Litres of the bow and stern float bags to buy: those that fill the ends."""
    return swamped.bow_l, swamped.stern_l
