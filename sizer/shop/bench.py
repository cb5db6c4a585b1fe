"""Everything a builder takes to the bench for one job, worked out once."""

import math
from dataclasses import dataclass

from sizer.drawing.record import Drawing
from sizer.hull.fairness import Unfairness, fairness, worst_status
from sizer.shop.bench_marks import BenchMarks, bench_marks
from sizer.shop.coaming_drawing import coaming_drawing
from sizer.shop.frame_drawing import frame_drawing
from sizer.shop.frames import FramePattern, frame_patterns
from sizer.shop.layout import SHEET_M, Layout, layouts
from sizer.shop.leg_room import leg_checks
from sizer.shop.materials import Materials, materials
from sizer.shop.pattern_checks import PatternCheck, pattern_checks
from sizer.shop.risers import DEFAULT_KIND
from sizer.shop.seat import SeatBuilt, seat_built, seat_checks
from sizer.shop.seat_drawing import seat_pieces
from sizer.shop.skin import DEFAULT_CLOTH_WIDTH_M
from sizer.shop.spacer_drawing import spacer_pieces
from sizer.shop.spacers import Spacer, spacers
from sizer.shop.stem_drawing import stem_drawing
from sizer.shop.stems import StemPattern, stem_checks, stem_patterns
from sizer.shop.stringers import DEFAULT_STOCK_M, Stick, stringer_list

WORST_LAST = ("pass", "caution", "fail")


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

    @property
    def pieces(self):
        """All drawings at full size: frames, stems, the coaming's form, seat's pieces, spacers."""
        between = (spacer_pieces(self.spacers),) if self.spacers else ()
        return (*self.drawings, self.coaming, self.seat_pieces, *between)

    @property
    def pattern_status(self):
        """The worst status among the pattern checks."""
        return worst_status(self.checks)

    @property
    def fairness_status(self):
        """The worst status among hollows and bumps."""
        return worst_status(self.unfair)


def bench_of(job, stock_m=DEFAULT_STOCK_M, cloth_width_m=DEFAULT_CLOTH_WIDTH_M, sheet_m=SHEET_M,
             riser_kind=DEFAULT_KIND):
    """The Bench of a job.

    Parameters
    ----------
    job : sizer.job.Job
    stock_m : length of the stock the sticks are cut from
    cloth_width_m : of the skin's cloth
    sheet_m : length and width of a plywood sheet
    riser_kind : one of `sizer.shop.risers.KINDS`

    Raises
    ------
    BadInput, where a pattern is larger than the sheet.
    """
    assessed = job.fitted.assessed
    boat, afloat = assessed.boat, assessed.particulars
    frames, stems = frame_patterns(boat, afloat), stem_patterns(boat, afloat)
    drawings = (*map(frame_drawing, frames), *map(stem_drawing, stems))
    laid = layouts([(drawing, pattern.thickness_m) for drawing, pattern
                    in zip(drawings, (*frames, *stems), strict=True)], sheet_m)
    sticks, between = stringer_list(boat, stock_m), spacers(frames)
    bought = materials(boat, sticks, cloth_width_m, bags_l(job.mishaps.bags),
                       [(one.thickness_m, one.count) for one in laid], sheet_m, stems, between)
    seat = seat_built(assessed)
    return Bench(
        frames, stems, drawings, coaming_drawing(bought.coaming, boat), between, seat,
        seat_pieces(seat),
        (*pattern_checks(frames), *leg_checks(frames, assessed),
         *seat_checks(seat, frames, boat), *stem_checks(stems)),
        fairness(boat), sticks, bought,
        bench_marks(boat, job.setting_up, seat, frames, stems, riser_kind), laid)


def bags_l(bags):
    """Litres of the bow and stern float bags; the largest that fit, where none suffice."""
    if bags.bow_l is None or bags.stern_l is None:
        return math.floor(bags.fits.bow.bag_l), math.floor(bags.fits.stern.bag_l)
    return bags.bow_l, bags.stern_l


def bench_status(job, bench):
    """The worst of the job's own status, its patterns' and its sticks' fairness."""
    return max((job.fitted.status, bench.pattern_status, bench.fairness_status),
               key=WORST_LAST.index)
