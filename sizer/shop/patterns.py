"""What is sawn for one boat, and whether it holds: a job's status counts on it."""

from dataclasses import dataclass

from sizer.errors import BadInput, Fault
from sizer.shop.coaming import arm_checks, rim_checks
from sizer.shop.foot_rails import FootRails, bored, foot_rails, offered, rail_checks
from sizer.shop.frames import FramePattern, frame_patterns
from sizer.shop.hip_pads import hip_checks
from sizer.shop.leg_room import leg_checks
from sizer.shop.pattern_checks import PatternCheck, pattern_checks
from sizer.shop.pedals import Pedals, pedal_checks, pedals
from sizer.shop.plywood import with_true_plywood
from sizer.shop.seat import SeatBuilt, seat_built, seat_checks
from sizer.shop.settings import SHOP
from sizer.shop.stems import StemPattern, stem_checks, stem_patterns


@dataclass(frozen=True, eq=False)
class Patterns:
    """Frames, stems and seat of one boat, with every check of them and of the coaming's rim."""

    frames: tuple[FramePattern, ...]  # bow to stern
    stems: tuple[StemPattern, ...]
    seat: SeatBuilt
    foot_rails: FootRails
    pedals: Pedals
    checks: tuple[PatternCheck, ...]


def patterns_of(assessed, shop=SHOP):
    """The Patterns of an Assessed boat, for the plywood of a Shop.

    Raises BadInput, where the design leaves no wood for a stem.
    """
    boat, afloat = with_true_plywood(assessed.boat, shop), assessed.particulars
    frames = frame_patterns(boat, afloat, assessed.person.water)
    stems = stem_patterns(boat, afloat)
    bare = [Fault(f"stem of the {one.end}", "no wood is left of it",
                  "a profile and sticks that land on it with room for a piece between")
            for one in stems if one.wood.is_empty]
    if bare:
        raise BadInput(bare)
    rails = foot_rails(assessed, frames)
    seat = seat_built(assessed, rails.thick_m, frames)
    seat, rails, made = offered(
        seat, rails, pedals(assessed.boat, rails, seat.footbrace.start_x_m))
    frames = bored(frames, rails)
    return Patterns(frames, stems, seat, rails, made, (
        *pattern_checks(frames), *arm_checks(frames), *rail_checks(frames, rails),
        *pedal_checks(made), *leg_checks(frames, assessed), *hip_checks(frames, assessed),
        *seat_checks(seat, frames, assessed.boat), *rim_checks(boat), *stem_checks(stems)))
