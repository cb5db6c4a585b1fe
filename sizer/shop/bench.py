"""Everything a builder takes to the bench for one job, worked out once."""

import math
from dataclasses import dataclass

from sizer.drawing.record import Drawing
from sizer.hull.fairness import Unfairness, fairness, worst_status
from sizer.shop.bench_marks import BenchMarks, bench_marks
from sizer.shop.coaming_drawing import coaming_drawing
from sizer.shop.frame_drawing import frame_drawing
from sizer.shop.frames import FramePattern, frame_patterns
from sizer.shop.layout import Layout, layouts
from sizer.shop.leg_room import leg_checks
from sizer.shop.materials import Materials, materials
from sizer.shop.pattern_checks import PatternCheck, pattern_checks
from sizer.shop.router_checks import router_checks
from sizer.shop.seat import SeatBuilt, seat_built, seat_checks
from sizer.shop.seat_drawing import seat_pieces
from sizer.shop.settings import SHOP, Shop, with_true_plywood
from sizer.shop.stem_drawing import stem_drawing
from sizer.shop.stems import StemPattern, stem_checks, stem_patterns
from sizer.shop.stringers import Stick, stringer_list

WORST_LAST = ("pass", "caution", "fail")


@dataclass(frozen=True, eq=False)
class Bench:
    """Patterns, sticks, materials and marks of one job."""

    frames: tuple[FramePattern, ...]  # bow to stern
    stems: tuple[StemPattern, ...]
    drawings: tuple[Drawing, ...]  # of the frames, then of the stems
    coaming: Drawing
    seat: SeatBuilt
    seat_pieces: Drawing
    checks: tuple[PatternCheck, ...]
    unfair: tuple[Unfairness, ...]
    sticks: tuple[Stick, ...]
    materials: Materials
    marks: BenchMarks
    layouts: tuple[Layout, ...]
    shop: Shop

    @property
    def pieces(self):
        """All drawings at full size: frames, stems, the coaming's form, the seat's pieces."""
        return (*self.drawings, self.coaming, self.seat_pieces)

    @property
    def pattern_status(self):
        """The worst status among the pattern checks."""
        return worst_status(self.checks)

    @property
    def fairness_status(self):
        """The worst status among hollows and bumps."""
        return worst_status(self.unfair)


def bench_of(job, shop=SHOP):
    """The Bench of a job.

    Parameters
    ----------
    job : sizer.job.Job
    shop : Shop, what it is built with

    Raises
    ------
    BadInput, where a pattern is larger than the sheet.
    """
    assessed = job.fitted.assessed
    boat, afloat = assessed.boat, assessed.particulars
    as_cut, design = with_true_plywood(boat, shop), boat.design
    frames, stems = frame_patterns(as_cut, afloat), stem_patterns(as_cut, afloat)
    drawings = (*map(frame_drawing, frames), *map(stem_drawing, stems))
    nominal = [part.thickness_m for part in (*design.frames, design.bow, design.stern)]
    laid = layouts(list(zip(drawings, nominal, strict=True)), shop)
    sticks = stringer_list(boat, shop.stock_lengths_m)
    bought = materials(boat, sticks, shop, bags_l(job.mishaps.bags), laid)
    seat = seat_built(assessed)
    return Bench(
        frames, stems, drawings, coaming_drawing(bought.coaming, boat), seat, seat_pieces(seat),
        (*pattern_checks(frames), *leg_checks(frames, assessed),
         *seat_checks(seat, frames, boat), *stem_checks(stems), *router_checks(drawings, shop)),
        fairness(boat), sticks, bought, bench_marks(boat, job.setting_up, seat), laid, shop)


def bags_l(bags):
    """Litres of the bow and stern float bags; the largest that fit, where none suffice."""
    if bags.bow_l is None or bags.stern_l is None:
        return math.floor(bags.fits.bow.bag_l), math.floor(bags.fits.stern.bag_l)
    return bags.bow_l, bags.stern_l


def bench_status(job, bench):
    """The worst of the job's own status, its patterns' and its sticks' fairness."""
    return max((job.fitted.status, bench.pattern_status, bench.fairness_status),
               key=WORST_LAST.index)
